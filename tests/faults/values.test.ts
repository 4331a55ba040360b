import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { listLedger } from '../../src/ledger/read/folder.ts'
import { openLedger } from '../../src/ledger/read/open.ts'
import { readText } from '../../src/ledger/read/read-file.ts'
import { entryText, type PlainEntry } from '../../src/ledger/write/entry-text.ts'
import { toPlain } from '../../src/ledger/yaml/plain.ts'
import { readYaml } from '../../src/ledger/yaml/read-yaml.ts'
import { run } from '../commands/run.ts'
import { AS_OF, lookAt, put, smallBook } from './book.ts'
import { times } from './size.ts'

const SAMPLE = 'seasons/2026/samples.yaml'
const sampleOf = (field: string) => `- { date: 2026-09-02, block: upper, ${field} }\n`

/** What is said of a file of samples: names of findings, or the value of the field. */
function read(field: string): unknown {
  const { ledger, findings } = lookAt(smallBook({ [SAMPLE]: sampleOf(field) }))
  const own = findings.filter(({ file }) => file === SAMPLE)
  const key = field.slice(0, field.indexOf(':'))
  if (own.some(({ level }) => level === 'error'))
    return own.map(({ name, line }) => `${name} ${line}`).join(', ')
  return (ledger.samples[0] as unknown as Record<string, unknown>)[key]
}

describe('R9: values that YAML readers may misread', () => {
  test.each<[string, unknown]>([
    ['brix: 19.60', [19.6]],
    ['brix: 019.6', [19.6]],
    ['brix: +19.6', [19.6]],
    ['brix: 1_9', 'wrong-type 1'],
    ['brix: 1e1', 'wrong-type 1'],
    ['brix: 0x13', 'wrong-type 1'],
    ['brix: 0o23', 'wrong-type 1'],
    ['brix: "19,6"', 'decimal-comma 1'],
    ['brix: 19:30', 'wrong-type 1'],
    ['brix: no', 'wrong-type 1'],
    ['brix: true', 'wrong-type 1'],
    ['brix: ~', 'missing-value 1'],
    ['brix: .inf', 'not-a-number 1'],
    ['brix: .nan', 'not-a-number 1'],
    ['brix: 1e999', 'not-a-number 1'],
    ['brix: 9007199254740993', 'impossible-value 1'],
    ['brix: 18.0, note: no', [18]],
    ['note: no, ph: 3.1', 'no'],
    ['note: off, ph: 3.1', 'off'],
    ['note: 010, ph: 3.1', '010'],
    ['note: 1.10, ph: 3.1', '1.10'],
    ['note: 12:30, ph: 3.1', '12:30'],
    ['note: 2026-9-1, ph: 3.1', '2026-9-1'],
  ])('%s', (field, expected) => expect(read(field)).toEqual(expected))

  test('minus zero is zero', () => {
    expect(read('temperature: -0 C, ph: 3.1')).toBe(-0)
    expect(String(read('temperature: -0 C, ph: 3.1'))).toBe('0')
  })

  test.each([
    ['2026-02-30', 'write year-month-day'],
    ['31.09.2026', 'write year-month-day'],
    ['9998-09-02', 'correct the year'],
    ['2026', 'write year-month-day'],
    ['2026-09-02T10:00', 'write year-month-day'],
  ])('the date %s is refused with the way out', (date, help) => {
    const root = smallBook({ [SAMPLE]: `- { date: ${date}, block: upper, ph: 3.1 }\n` })
    const own = openLedger(root, { seasons: 'all' }).findings
    expect(own).toMatchObject([{ name: 'bad-date', file: SAMPLE, line: 1 }])
    expect(own[0]!.help).toContain(help)
  })
})

test.each(['2026-9-2', '"2026-09-02 "'])('R9: the date %s can only mean one day', (date) => {
  const root = smallBook({ [SAMPLE]: `- { date: ${date}, block: upper, ph: 3.1 }\n` })
  const { samples, findings } = openLedger(root, { seasons: 'all' })
  expect([findings, samples.map((sample) => sample.date)]).toEqual([[], ['2026-09-02']])
})

describe('R7: aliases', () => {
  test.each([
    [
      'nine levels of nine',
      [
        'a: &a [x, x]',
        ...'bcdefghi'.split('').map((key, at) => `${key}: &${key} [*${'abcdefghi'[at]}]`),
      ].join('\n'),
    ],
    ['of itself', 'a: &a [*a]'],
    ['of nothing', 'a: *nowhere'],
    ['harmless', 'a: &x 1\nb: *x'],
  ])('%s: told, quickly', (_, text) => {
    const started = performance.now()
    const { node, findings } = readYaml({ file: 'x.yaml', text })
    expect(performance.now() - started).toBeLessThan(250)
    expect(node).toBeNull()
    expect(findings[0]).toMatchObject({ name: 'alias', level: 'error' })
  })
})

describe('R8: too much of something', () => {
  const quickly = (root: string, name: string) => {
    const started = performance.now()
    const { findings } = lookAt(root)
    expect(performance.now() - started).toBeLessThan(5000)
    expect(findings.map((finding) => finding.name)).toContain(name)
  }

  test.each([100, 1000, 10_000, 100_000])('%d brackets', (depth) =>
    quickly(smallBook({ [SAMPLE]: '['.repeat(depth) }), 'too-deep'),
  )

  test.each([100, 1000, 10_000])('%d levels of indentation', (depth) => {
    const text = Array.from({ length: depth }, (_, level) => `${' '.repeat(Math.min(level, 500))}a:`).join(
      '\n',
    )
    const { findings } = lookAt(smallBook({ [SAMPLE]: text }))
    expect(findings.filter(({ file }) => file === SAMPLE)).not.toEqual([])
  })

  test('20,000 keys in one map', () =>
    quickly(
      smallBook({ [SAMPLE]: Array.from({ length: 20_000 }, (_, at) => `k${at}: 1`).join('\n') }),
      'too-many-keys',
    ))

  test('a file of nine megabytes, by its size alone', () =>
    quickly(smallBook({ [SAMPLE]: `# ${'x'.repeat(9 * 1024 * 1024)}` }), 'file-too-large'))

  test('ten thousand files', { timeout: 300_000 }, () => {
    const count = times(1000, 10_000)
    const root = smallBook({ [SAMPLE]: null, 'seasons/2026/samples/0.yaml': sampleOf('ph: 3.1').slice(2) })
    for (let at = 1; at < count; at += 1)
      writeFileSync(
        join(root, `seasons/2026/samples/${at}.yaml`),
        `date: 2026-09-02\nblock: upper\nph: 3.${(at % 9) + 1}\n`,
      )
    const { ledger } = lookAt(root)
    expect(ledger.samples.length).toBe(count)
    expect(process.memoryUsage().heapUsed).toBeLessThan(700 * 1024 * 1024)
  })
})

describe('R10: the same key, the same id', () => {
  test('both places of a duplicate key are reported', () => {
    const root = smallBook({
      [SAMPLE]: '- date: 2026-09-02\n  block: upper\n  ph: 3.1\n  date: 2026-09-03\n',
    })
    const [finding] = openLedger(root, { seasons: 'all' }).findings
    expect(finding).toMatchObject({ name: 'duplicate-key', line: 4 })
    expect(finding!.message).toContain('line 1')
  })

  test('an id is a file name, so it cannot occur twice; the same in capitals is not an id', () => {
    const root = smallBook({ 'blocks/Upper.yaml': 'name: Other\n' })
    expect(lookAt(root).findings.map(({ name, file }) => [name, file])).toContainEqual([
      'bad-id',
      'blocks/Upper.yaml',
    ])
  })
})

describe('R11: bytes and line ends', () => {
  const place = (bytes: string | Uint8Array) => {
    const root = smallBook()
    put(root, SAMPLE, bytes)
    const own = openLedger(root, { seasons: 'all' }).findings.filter(({ file }) => file === SAMPLE)
    return own.map(({ name, line, column }) => [name, line, column])
  }
  const entry = '- date: 2026-09-02\n  block: upper\n  ph: 3.1\n'

  test.each<[string, string | Uint8Array, unknown]>([
    ['a tab to indent', entry.replace('  ph', '\tph'), [['tab-indent', 3, 1]]],
    ['a byte order mark at the start', `\ufeff${entry}`, []],
    ['a byte order mark inside', entry.replace('ph', '\ufeffph'), [['control-character', 3, 3]]],
    ['Windows line ends', entry.replaceAll('\n', '\r\n'), []],
    [
      'Windows line ends and a fault',
      entry.replaceAll('\n', '\r\n').replace('3.1', '31'),
      [['impossible-value', 3, 7]],
    ],
    ['old Mac line ends', entry.replaceAll('\n', '\r'), [['line-ends', 1, 19]]],
    ['a NUL', entry.replace('3.1', '3.1\0'), [['control-character', 3, 10]]],
    ['ESC', entry.replace('3.1', '\x1b[1m'), [['control-character', 3, 7]]],
    ['C1', entry.replace('3.1', '\x9b1m'), [['control-character', 3, 7]]],
    ['a fault behind wide characters', `${entry}  note: "🍇é"\n  ph_: "🍇🍇", x\n`, [['syntax', 5, 12]]],
    ['not UTF-8', Buffer.concat([Buffer.from(entry), Buffer.from([0xe9, 0xff])]), [['not-utf8', 1, 1]]],
    ['UTF-16', Buffer.from(`\ufeff${entry}`, 'utf16le'), [['not-utf8', 1, 1]]],
    ['half of a pair', Buffer.from([0xed, 0xa0, 0x80]), [['not-utf8', 1, 1]]],
  ])('%s', (_, bytes, expected) => expect(place(bytes)).toEqual(expected))

  test.each(['\u0085', '\u2028', '\u2029'])('%j is not a line end: it stays in the text', (mark) => {
    const root = smallBook({ [SAMPLE]: `${entry}  note: "a${mark}b"\n  ta: x\n` })
    expect(openLedger(root, { seasons: 'all' }).findings).toMatchObject([{ file: SAMPLE, line: 5 }])
  })
})

describe('R15: marks of a merge', () => {
  const ours = '- { date: 2026-09-02, block: upper, ph: 3.1 }'
  test.each([
    ['both sides', `<<<<<<< HEAD\n${ours}\n=======\n${ours}\n>>>>>>> other\n`, 1],
    [
      'with the base',
      `${ours}\n<<<<<<< HEAD\n${ours}\n||||||| base\n${ours}\n=======\n${ours}\n>>>>>>> other\n`,
      2,
    ],
    ['only the end left', `${ours}\n>>>>>>> other\n`, 2],
  ])('%s: one clear message', (_, text, line) => {
    const own = openLedger(smallBook({ [SAMPLE]: text }), { seasons: 'all' }).findings
    expect(own).toMatchObject([{ name: 'merge-conflict', file: SAMPLE, line }])
  })
})

const NAMES = ['__proto__', 'constructor', 'prototype', 'toString', 'hasOwnProperty']

describe.each(NAMES)('R12: %s', (name) => {
  const unpolluted = () => {
    const plain: Record<string, unknown> = {}
    expect(plain.polluted).toBeUndefined()
    expect(Object.keys(Object.prototype)).toEqual([])
  }

  test('as a key', () => {
    for (const text of [
      `${name}: { polluted: 1 }\n`,
      `weather: { columns: { ${name}: time } }\n`,
      `thresholds: { ${name}: 5 % }\n`,
    ]) {
      const root = smallBook()
      put(root, 'vineyard.yaml', `name: x\nlatitude: 50\ntimezone: UTC\n${text}`)
      const { findings } = lookAt(root)
      unpolluted()
      if (text.startsWith(name))
        expect(findings).toMatchObject([{ name: 'unknown-key', file: 'vineyard.yaml', line: 4 }])
      else if (text.startsWith('weather')) expect(findings.map((one) => one.name)).toContain('unknown-key')
    }
  })

  test('as an id, a name, a column and a product', () => {
    const root = smallBook({
      [`blocks/${name}.yaml`]: 'name: x\n',
      [SAMPLE]: `- { date: 2026-09-02, block: ${name}, ph: 3.1 }\n`,
      'blocks/lower.yaml': `name: ${name}\nvariety: palava\narea: 1 ha\nrow_spacing: 2 m\nvine_spacing: 1 m\n`,
      'seasons/2026/weather.csv': `time,temperature_c,${name}\n2026-06-14T17:00,17.2,1\n`,
      'seasons/2026/sprays/2026-06-14-upper.yaml': `date: 2026-06-14\nblocks: [${name}]\nproducts: [{ product: ${name}, rate: 1 kg/ha, for: ${name} }]\n`,
    })
    const { findings } = lookAt(root)
    unpolluted()
    const wrong = findings.filter(({ level }) => level === 'error').map(({ file }) => file)
    // A word that has the shape of an id is one, and its file is there; the rest is refused where it stands.
    const isId = /^[a-z]+$/.test(name)
    expect(wrong).toContain(`blocks/${name}.yaml`)
    expect(wrong).toContain('seasons/2026/sprays/2026-06-14-upper.yaml')
    expect(wrong.includes(SAMPLE)).toBe(!isId)
  })
})

test('R12: the built program where the prototype may not be touched', () => {
  const root = smallBook({
    'blocks/lower.yaml':
      'name: constructor\nvariety: palava\narea: 1 ha\nrow_spacing: 2 m\nvine_spacing: 1 m\n',
  })
  put(root, 'varieties/other.yaml', '__proto__: { polluted: 1 }\nname: toString\ncolour: red\n')
  const env = { NODE_OPTIONS: '--disable-proto=throw' }
  for (const args of [
    ['check'],
    ['check', '--json'],
    ['mix', '--block', '__proto__'],
    ['check', '--block', 'constructor'],
    ['note', 'work', '--block', '__proto__', '--job', 'x', '--yes'],
    ['explain', '__proto__'],
    ['explain', 'constructor'],
    ['schema', 'constructor'],
    ['note', 'constructor'],
  ]) {
    // biome-ignore format: command lines
    const { status, stderr } = run([...args, '--ledger', root, '--as-of', AS_OF], { env })
    expect([args, [1, 2].includes(status!), stderr.includes('inside the program')]).toEqual([
      args,
      true,
      false,
    ])
  }
})

describe('R6: what is written reads back the same', () => {
  const word = fc.oneof(
    fc.string({ maxLength: 30 }),
    fc.constantFrom(
      'no', 'true', '007', '1e3', '~', 'null', '', ' padded ', "it's", 'a: b', '# no comment', '- dash', '{', '[x', '*a',
      '&a', '!t', '%x', '@', '`', '"quoted"', 'two\nlines', 'two\n\nlines\n', 'tab\there', '3 kg/ha', '2026-09-02', '12:30',
      '<<', '<<<<<<< HEAD', '---', '...', 'Blauer Spätburgunder 🍇', '\u0085', '\u2028', 'a'.repeat(200), 'x '.repeat(80),
    ),
  ) // biome-ignore format: a list of texts
  const value = fc.oneof(
    word,
    fc.integer({ min: -1e6, max: 1e6 }),
    fc.double({ min: -1e6, max: 1e6, noNaN: true }).map((number) => Number(number.toFixed(3)) + 0),
    fc.boolean(),
    fc.array(fc.oneof(word, fc.integer({ min: 0, max: 999 })), { minLength: 1, maxLength: 5 }),
    fc.dictionary(fc.constantFrom('powdery', 'bunches', 'severity', 'wind'), word, { minKeys: 1 }),
    fc.array(fc.dictionary(fc.constantFrom('product', 'rate', 'for'), word, { minKeys: 1 }), {
      minLength: 1,
      maxLength: 3,
    }),
  )

  test('any entry', () => {
    fc.assert(
      fc.property(
        fc.dictionary(fc.constantFrom('date', 'block', 'note', 'products', 'found', 'brix', 'hours'), value, {
          minKeys: 1,
          noNullPrototype: true,
        }),
        (entry) => {
          const text = entryText(entry as PlainEntry)
          const { node, findings } = readYaml({ file: 'x.yaml', text })
          // What the reader refuses, it refuses by name; it never reads it as something else.
          if (findings.length > 0) {
            expect(
              findings.every(({ name }) => ['control-character', 'merge-conflict'].includes(name)),
              `${text}${JSON.stringify(findings)}`,
            ).toBe(true)
            return
          }
          expect(node && toPlain(node)).toEqual(entry)
          expect(text.endsWith('\n')).toBe(true)
        },
      ),
      { numRuns: times(1000, 20_000) },
    )
  })

  test('every entry of the example, of every kind', () => {
    const root = join(import.meta.dirname, '../../examples/far-quillet')
    const kinds = new Set<string>()
    for (const { kind, file } of listLedger(root).seasonal) {
      const { text } = readText(root, file)
      const { node } = readYaml({ file, text: text! })
      const entries = node!.kind === 'list' ? node!.items : [node!]
      for (const entry of entries) {
        const plain = toPlain(entry) as PlainEntry
        expect(toPlain(readYaml({ file, text: entryText(plain) }).node!)).toEqual(plain)
        kinds.add(kind)
      }
    }
    expect(kinds.size).toBe(7)
  })
})
