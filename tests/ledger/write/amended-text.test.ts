import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { amendedText } from '../../../src/ledger/write/amended-text.ts'
import { entryText, type PlainEntry, type PlainValue } from '../../../src/ledger/write/entry-text.ts'
import { toPlain } from '../../../src/ledger/yaml/plain.ts'
import { readYaml } from '../../../src/ledger/yaml/read-yaml.ts'

const read = (text: string) => toPlain(readYaml({ file: 'x', text }).node!) as PlainEntry

const SPRAY = `# begun late
date: 2026-06-14   # a Sunday
time: 18:40-20:05

blocks: [top-terrace]
products:
  # two in one tank
  - { product: sulphur, rate: 3 kg/ha, for: powdery }   # bag 1
  - { product: copper, rate: 1 kg/ha }
weather: { wind: 1.8 m/s, from: SW }
note: second side missed
# end
`

describe('a change to one entry', () => {
  it('leaves every other line, comment and the order of the keys as they are', () => {
    const wanted = read(SPRAY)
    const products = wanted.products as PlainEntry[]
    products[0]!.rate = '2.5 kg/ha'
    wanted.operator = 'A.'
    wanted.weather = { wind: '2 m/s', from: 'SW', temperature: '17 C' }
    expect(amendedText(SPRAY, [], wanted)).toBe(
      SPRAY.replace('rate: 3 kg/ha', 'rate: 2.5 kg/ha')
        .replace('wind: 1.8 m/s, from: SW }', 'wind: 2 m/s, from: SW, temperature: 17 C }')
        .replace('note: second side missed\n', 'note: second side missed\noperator: A.\n'),
    )
  })
  it('removes keys and products with their lines, and adds a product after the last', () => {
    const wanted = read(SPRAY)
    wanted.products = [(wanted.products as PlainEntry[])[1]!, { product: 'oil', rate: '5 L/ha' }]
    delete wanted.time
    expect(amendedText(SPRAY, [], wanted)).toBe(
      SPRAY.replace('time: 18:40-20:05\n', '')
        .replace(/ {2}- \{ product: sulphur.*\n/, '')
        .replace('rate: 1 kg/ha }\n', 'rate: 1 kg/ha }\n  - { product: oil, rate: 5 L/ha }\n'),
    )
  })
  it('changes one entry of a list only, in a block or in braces, and keeps Windows line ends', () => {
    const list =
      '- { date: 2026-09-12, block: a, brix: 19.60 }\r\n- date: 2026-09-13 # here\r\n  block: b\r\n  brix: 20\r\n'
    expect(amendedText(list, [0], { date: '2026-09-12', block: 'a', brix: 19.9, ph: 3.1 })).toBe(
      list.replace('19.60 }', '19.9, ph: 3.1 }'),
    )
    expect(amendedText(list, [1], { date: '2026-09-13', block: 'b', brix: 20, ph: '3.10' })).toBe(
      `${list}`.replace('  brix: 20\r\n', '  brix: 20\r\n  ph: 3.10\r\n'),
    )
  })
  test.each([
    ['{ a: 1, b: 2, c: 3 }', { a: 1 }],
    ['{ a: 1, b: 2, c: 3 }', { c: 3 }],
    ['{ a: 1, b: 2, c: 3, d: 4 }', { b: 9 }],
    ['{ a: 1, b: 2, c: 3, d: 4 }', { b: 2, e: 5 }],
    ['{ a: 1, b: 2 }', { e: 5 }],
    ['[1, 2, 3, 4]', [1]],
    ['[1, 2, 3, 4]', [3]],
    ['[1, 2, 3, 4]', [1, 4]],
  ])('takes several parts at once out of %s, to leave %j', (flow, left) => {
    const text = `x: ${flow}   # why\ny: 1\n`
    const made = amendedText(text, [], { x: left, y: 1 })
    expect(made).toMatch(/ # why\ny: 1\n$/)
    expect(toPlain(readYaml({ file: 'x', text: made! }).node!)).toMatchObject({ x: left, y: 1 })
  })
  test.each([
    ['a text of several lines', 'date: 2026-06-14\nnote: |\n  one\n  two\njob: mowing\n', { note: 'three' }],
    ['a value below its key', 'date: 2026-06-14\nblocks:\n  - a\n  - b\n', { blocks: [{ c: 1 }] }],
  ])('is refused rather than made in another way: %s', (_, text, change) => {
    const wanted = { ...read(text), ...(change as PlainEntry) }
    const made = amendedText(text, [], wanted)
    if (made !== null) expect(read(made)).toEqual(wanted)
    else expect(made).toBeNull()
  })
})

const word = fc.stringMatching(/^[a-z]{1,8}$/)
const scalar: fc.Arbitrary<PlainValue> = fc.oneof(
  fc.integer({ min: -999, max: 999 }),
  fc.boolean(),
  fc
    .string({ minLength: 1, maxLength: 20 })
    .filter((text) => /^[ -~\u00e0-\u00ff\u4e00-\u4e20]*$/.test(text) && text.trim() === text),
  fc.constantFrom(
    '3 kg/ha',
    'no',
    '#x',
    'a: b',
    '- x',
    '{',
    '2026-06-14',
    "it's",
    '"q"',
    'two\nlines',
    '~',
    'null',
  ),
)
const value: fc.Arbitrary<PlainValue> = fc.oneof(
  { weight: 4, arbitrary: scalar },
  fc.array(scalar, { minLength: 1, maxLength: 4 }),
  fc.dictionary(word, scalar, { minKeys: 1, maxKeys: 3 }),
  fc.array(fc.dictionary(word, scalar, { minKeys: 1, maxKeys: 3 }), { minLength: 1, maxLength: 3 }),
)
const entry = fc.dictionary(word, value, { minKeys: 1, maxKeys: 6 })

test('property: any change reads back as intended, or is refused, and keeps every comment', () => {
  let made = 0
  fc.assert(
    fc.property(entry, entry, fc.boolean(), (one, other, crlf) => {
      const plain = entryText(one)
        .split('\n')
        .map((line) => (/^\w+: [\w ./-]+$/.test(line) ? `${line} # why` : line))
        .join(crlf ? '\r\n' : '\n')
      const text = `# first${crlf ? '\r\n' : '\n'}${plain}`
      if (!readYaml({ file: 'x', text }).node) return
      const wanted = { ...read(text), ...other } as PlainEntry
      const after = amendedText(text, [], wanted)
      if (after === null) return
      made++
      const numbers = (plainEntry: unknown) =>
        JSON.parse(
          JSON.stringify(plainEntry, (_, v) =>
            typeof v === 'string' && /^-?\d+(\.\d+)?$/.test(v) ? Number(v) : v,
          ),
        )
      expect(numbers(read(after))).toEqual(numbers(wanted))
      expect(after.startsWith('# first')).toBe(true)
      expect(after.split('# why').length).toBe(text.split('# why').length)
    }),
    { numRuns: 400 },
  )
  expect(made).toBeGreaterThan(200)
})
