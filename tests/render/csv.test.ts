import { parse } from 'csv-parse/sync'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { csvLine, csvText } from '../../src/render/csv.ts'

/** A cell as a spreadsheet reads it back from a line of its own. */
const defuse = (text: string) => (parse(csvLine([text]), { record_delimiter: '\r\n' }) as string[][])[0]![0]!

describe('a cell of text that a spreadsheet could run gets an apostrophe before it', () => {
  test.each([
    '=1+1',
    '+1',
    '-1',
    '@SUM(A1)',
    '  =1+1',
    '\u00a0=1',
    '\u3000=1',
    '\uff1d1+1',
    '\uff0b1',
    '\uff0d1',
    '\uff20x',
    '\t=1',
    '\tx',
    '\rx',
    '\nx',
    '\u200b=1',
  ])('%j', (text) => {
    expect(defuse(text).startsWith("'")).toBe(true)
  })

  test.each(['Sulphur 80', '2-6 kg/ha', 'a = b', 'R.', '', "it's", '1+1', 'x@y'])('%j stays', (text) => {
    expect(defuse(text)).toBe(text)
  })

  test('behind a mark at which another locale begins a cell', () => {
    expect(defuse('wet;=cmd()')).toBe("wet;'=cmd()")
    expect(defuse('two\n-rows')).toBe("two\n'-rows")
  })
})

describe('a line', () => {
  test('numbers stay numbers, unknown is empty, truth is a word', () => {
    expect(csvLine([-1.5, 1e21, 0, null, undefined, true])).toBe('-1.5,1e+21,0,,,true\r\n')
  })

  test('a figure that is not finite is refused', () => {
    expect(() => csvLine([Number.NaN])).toThrow(RangeError)
  })

  test('an independent reader gets back what was written, but for the apostrophes', () => {
    fc.assert(
      fc.property(
        fc.array(fc.array(fc.string({ unit: 'grapheme' }), { minLength: 3, maxLength: 3 }), { minLength: 1 }),
        (rows) => {
          const text = csvText(['a', 'b', 'c'], rows)
          const read = parse(text, { record_delimiter: '\r\n', relax_column_count: false }) as string[][]
          expect(read.slice(1)).toEqual(rows.map((row) => row.map(defuse)))
        },
      ),
    )
  })

  test('whatever the text, no cell begins a formula', () => {
    const hostile = fc.string({
      unit: fc.constantFrom('=', '+', '-', '@', ' ', '\t', '\r', '\n', ';', 'x', '"', ','),
    })
    fc.assert(
      fc.property(hostile, (text) => {
        for (const piece of defuse(text).split(/[;\t\r\n]/)) expect(piece.trimStart()).not.toMatch(/^[=+\-@]/)
      }),
    )
  })
})
