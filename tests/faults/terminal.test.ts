import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { safe, safeLine } from '../../src/render/safe.ts'
import { run } from '../commands/run.ts'
import { COMMANDS } from '../commands/whole-table.ts'
import { GitBook } from '../ledger/git-book.ts'
import { SITE } from '../ledger/make.ts'
import { AS_OF, ENTRIES, put, smallBook } from './book.ts'
import { NEEDED, runHere, WRITERS } from './in-process.ts'
import { SOAK, times } from './size.ts'

/** What must never reach a terminal: control characters except the line end, C1, direction marks, invisible ones. */
const FORBIDDEN = /[\0-\x09\x0b-\x1f\x7f-\x9f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]/

const PAYLOADS: readonly (readonly [string, string])[] = [
  ['colour (CSI)', '\x1b[31mred\x1b[0m'],
  ['screen cleared (CSI)', '\x1b[2J\x1b[H'],
  ['title (OSC 0)', '\x1b]0;owned\x07'],
  ['link (OSC 8)', '\x1b]8;;https://example.invalid\x1b\\here\x1b]8;;\x1b\\'],
  ['clipboard (OSC 52)', '\x1b]52;c;cm0gLXJm\x07'],
  ['DCS', '\x1bPq#0\x1b\\'],
  ['C1 CSI', '\x9b31mred'],
  ['bell', 'ring\x07'],
  ['backspace', 'good\b\b\b\bevil'],
  ['carriage return', 'good\rEVIL'],
  ['delete', 'a\x7fb'],
  ['turned round (U+202E)', 'abc\u202egnp.exe'],
  ['isolated (U+2066)', 'a\u2066b\u2069c'],
  ['invisible (U+200B)', 'a\u200bb'],
  ['order mark (U+FEFF)', 'a\ufeffb'],
]

const READERS = COMMANDS.filter(({ name }) => !WRITERS.has(name))
const argsOf = (name: string, root: string) => [
  name,
  ...(NEEDED[name] ?? []),
  ...(['sugar', 'calibrate', 'completion', 'explain', 'schema'].includes(name)
    ? []
    : ['--ledger', root, '--as-of', AS_OF]),
]

/** Every text in every record of the small ledger, as `file: what stands there`. */
const TEXTS: readonly (readonly [file: string, written: string])[] = [
  ['vineyard.yaml', 'name: Test Rows'],
  ['vineyard.yaml', 'timezone: Europe/Berlin'],
  ['blocks/upper.yaml', 'name: Upper'],
  ['blocks/upper.yaml', 'variety: palava'],
  ['varieties/palava.yaml', 'name: Palava'],
  ['varieties/palava.yaml', 'colour: white'],
  ['products/sulphur.yaml', 'name: Test sulphur'],
  ['products/sulphur.yaml', 'kind: fungicide'],
  ['products/sulphur.yaml', 'name: sulphur'],
  ['products/sulphur.yaml', 'number: T-1'],
  ['products/sulphur.yaml', 'against: powdery'],
  ['products/sulphur.yaml', 'label: placeholder'],
  ['sprayers/mounted.yaml', 'name: Mounted'],
  ['seasons/2026/sprays/2026-06-14-upper.yaml', 'for: powdery'],
  ['seasons/2026/sprays/2026-06-14-upper.yaml', 'operator: R.'],
  ['seasons/2026/sprays/2026-06-14-upper.yaml', 'from: SW'],
  ['seasons/2026/sprays/2026-06-14-upper.yaml', 'note: second'],
  ['seasons/2026/sprays/2026-06-14-upper.yaml', 'rate: 3 kg/ha'],
  ['seasons/2026/work.yaml', 'job: pruning'],
  ['seasons/2026/scouting.yaml', 'block: upper'],
  ['seasons/2026/samples.yaml', 'ta: 10.4 g/L'],
]

const FILES = { ...SITE, ...ENTRIES }

/** The value replaced by the payload: as it is, and escaped in quotes, as a YAML writer would write it. */
function forms(written: string, payload: string): string[] {
  const key = written.slice(0, written.indexOf(':'))
  return [
    `${key}: ${payload}`,
    `${key}: ${JSON.stringify(payload).replace(/[\x7f-\uffff]/g, (one) => `\\u${one.charCodeAt(0).toString(16).padStart(4, '0')}`)}`,
  ]
}

/** What a command prints that a terminal would obey; empty if nothing. */
async function dirtOf(args: readonly string[], cwd: string): Promise<string[]> {
  const { err, fault, ...told } = await runHere(args, cwd, AS_OF)
  // Calendar and CSV lines end in CR LF by their own standards.
  const out = told.out.replaceAll('\r\n', '\n')
  const bad = FORBIDDEN.exec(out) ?? FORBIDDEN.exec(err)
  const dirt = bad
    ? [`${args[0]}: ${JSON.stringify(bad.input.slice(Math.max(0, bad.index - 40), bad.index + 20))}`]
    : []
  return fault === null ? dirt : [...dirt, `${args.join(' ')}: ${fault}`]
}

describe('O1: the content of a ledger cannot steer a terminal', () => {
  test.each(PAYLOADS)('%s, in every text of every record', async (name, payload) => {
    const dirt: string[] = []
    const root = smallBook()
    const turn = PAYLOADS.findIndex(([one]) => one === name)
    for (const [index, [file, written]] of TEXTS.entries()) {
      for (const [form, text] of forms(written, payload).entries()) {
        if (!SOAK && (index + turn) % 2 !== form) continue
        put(root, file, FILES[file]!.replace(written, text))
        dirt.push(...(await dirtOf(['check', '--ledger', root, '--as-of', AS_OF], root)))
        // In the short form each text and each payload meets some of the commands, in the long form all.
        // What the reader lets pass meets all of them.
        const some =
          SOAK || name.startsWith('invisible')
            ? READERS
            : READERS.filter((_, at) => (at + index + turn) % 11 === 0)
        for (const command of some) dirt.push(...(await dirtOf(argsOf(command.name, root), root)))
      }
      put(root, file, FILES[file]!)
    }
    expect([...new Set(dirt)]).toEqual([])
  })

  test('what the reader accepts is printed as an escape, not dropped', async () => {
    const root = smallBook()
    put(root, 'blocks/upper.yaml', FILES['blocks/upper.yaml']!.replace('name: Upper', 'name: "Up\u200bper"'))
    const { out } = await runHere(['check', '--ledger', root, '--as-of', AS_OF], root)
    const clean = await runHere(['crop', '--ledger', root, '--as-of', AS_OF], root)
    expect(`${out}${clean.out}${clean.err}`).toContain('Up\\u200bper')
  })
})

describe('O1: the other ways in', () => {
  test.each(PAYLOADS)('%s, in options, arguments and file names', async (_, payload) => {
    const dirt: string[] = []
    const root = smallBook()
    writeFileSync(join(root, 'blocks', `x${payload.replaceAll('/', '')}.yaml`), 'name: x\n')
    writeFileSync(join(root, `y${payload.replaceAll('/', '')}.yaml`), 'name: x\n')
    put(
      root,
      'seasons/2026/weather.csv',
      `time,temperature_c,${payload.replaceAll('\n', '')}\n2026-06-14T17:00,${payload},1\n${payload},2,3\n`,
    )
    put(root, 'blocks/upper.yaml', `${FILES['blocks/upper.yaml']}boundary: upper.geojson\n`)
    put(root, 'blocks/upper.geojson', `{ "type": "${payload}", "name": ${JSON.stringify(payload)} }`)
    for (const { name } of READERS.filter((_one, at) => SOAK || at % 3 === 0))
      dirt.push(...(await dirtOf(argsOf(name, root), root)))
    dirt.push(...(await dirtOf(['check', '--ledger', root, '--as-of', AS_OF], root)))
    for (const args of [
      [payload],
      ['check', `--${payload}`],
      ['check', payload],
      ['check', '--ledger', payload],
      ['check', '--as-of', payload],
      ['check', '--season', payload],
      ['check', '--units', payload],
      ['mix', '--ledger', root, '--block', payload],
      ['mix', '--area', payload, '--water', payload, '--tank', '200 L', '--dose', payload],
      ['mix', '--area', '1 ha', '--water', '200 L/ha', '--tank', '200 L', '--dose', `${payload}=3 kg/ha`],
      ['sugar', '--brix', payload],
      ['heat', '--weather', payload, '--latitude', '50'],
      ['note', payload],
      ['note', 'work', '--yes', '--dry-run', '--ledger', root, '--block', payload, '--job', payload],
      [
        'note',
        'work',
        '--yes',
        '--dry-run',
        '--ledger',
        root,
        '--block',
        'lower',
        '--job',
        payload,
        '--date',
        payload,
      ],
      ['explain', payload],
      ['compare', payload, payload],
      ['changes', payload],
      ['completion', payload],
      ['start', join(root, 'new', payload.replaceAll('/', '')), '--timezone', payload],
      ['calendar', '--ledger', root, '--as-of', AS_OF, '--to', `${payload.replaceAll('/', '')}.ics`],
      ['totals', '--ledger', root, '--as-of', AS_OF, '--html', `${payload.replaceAll('/', '')}.html`],
    ])
      dirt.push(...(await dirtOf(args, root)))
    expect([...new Set(dirt)]).toEqual([])
  })
})

test.each(PAYLOADS)(
  'O1: %s, in what git tells of the book: messages, file names, entries',
  async (_, payload) => {
    const word = payload.replaceAll('/', '')
    const book = new GitBook().write({
      'seasons/2026/work.yaml': FILES['seasons/2026/work.yaml']!,
      [`seasons/2026/sprays/a${word}.yaml`]: FILES['seasons/2026/sprays/2026-06-14-upper.yaml']!,
    })
    book.git('add', '-A')
    book.git('commit', '-q', '-m', `First ${payload}`)
    book.write({
      [`seasons/2026/sprays/a${word}.yaml`]: null,
      'seasons/2026/work.yaml': `- { date: 2026-03-03, block: upper, job: ${JSON.stringify(`cut ${payload}`)} }\n`,
      [`notes${word}.yaml`]: 'x: 1\n',
    })
    book.git('add', '-A')
    book.git('commit', '-q', '-m', `Second ${payload}`)
    const dirt: string[] = []
    for (const args of [
      ['changes', 'HEAD~1', 'HEAD'],
      ['changes', 'HEAD~1', '--message'],
      ['changes', `HEAD${payload}`],
      ['changes', '--since', payload],
      ['check', '--changed', 'HEAD~1'],
      ['check', '--changed', `x${payload}`],
    ])
      dirt.push(...(await dirtOf([...args, '--ledger', book.root, '--as-of', AS_OF], book.root)))
    expect([...new Set(dirt)]).toEqual([])
  },
)

describe('safe', () => {
  test('nothing forbidden is left, and harmless text is unchanged', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
        expect(FORBIDDEN.test(safe(text))).toBe(false)
        expect(/[\n\r]/.test(safeLine(text))).toBe(false)
      }),
      { numRuns: times(2000, 20_000) },
    )
    expect(safe('Blauer Spätburgunder, 3 °C\nréserve')).toBe('Blauer Spätburgunder, 3 °C\nréserve')
  })
})

test('the built program too: payloads on stdout, on stderr and in the name of an option', () => {
  const root = smallBook({
    'seasons/2026/work.yaml': '- { date: 2026-03-02, block: upper, job: "a\u001b[31mb" }\n',
  })
  for (const args of [['check'], ['totals'], ['check', '--block', '\u001b]0;x\u0007']]) {
    const { stdout, stderr } = run([...args, '--ledger', root, '--as-of', AS_OF])
    expect(FORBIDDEN.test(stdout + stderr)).toBe(false)
  }
})
