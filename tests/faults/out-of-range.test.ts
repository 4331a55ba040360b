import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { safe } from '../../src/render/safe.ts'
import { SITE } from '../ledger/make.ts'
import { AS_OF, lookAt, smallBook } from './book.ts'
import { runHere } from './in-process.ts'

describe('X1: impossible figures are refused once, where they are read', () => {
  const empty = join(mkdtempSync(join(tmpdir(), 'rowbook-map-')), 'empty.yaml')
  writeFileSync(empty, '# nothing\n')
  const rows = `${empty}.csv`
  writeFileSync(rows, 'a,b\n1,2\n')

  test.each([
    ['today', '--as-of', '9999-12-31'],
    ['today', '--as-of', '1899-12-31'],
    ['heat', '--from', '1000-01-01'],
    ['totals', '--season', '9998'],
    ['totals', '--seasons', '1000-1003'],
    ['compare', '9997', '9998'],
    ['scouting', '--precision', '0.000001'],
    ['scouting', '--detect', '0.000001'],
    ['import', 'sprays', rows, '--map', empty],
    ['export', '--to', '/dev/full'],
  ])('%s %s %s', async (...args) => {
    const { status, out, err, fault } = await runHere(args, smallBook())
    expect([status, out, fault], err).toEqual([2, '', null])
    expect(err).toMatch(/^(?:rowbook|error): .+\n/)
  })

  test.each([
    ['date: 9998-06-14', 'bad-date'],
    ['date: 1026-06-14', 'bad-date'],
  ])('an entry of %s', (date, name) => {
    const root = smallBook({ 'seasons/2026/work.yaml': `- { ${date}, block: upper, job: pruning }\n` })
    const [finding] = lookAt(root).findings.filter(({ level }) => level === 'error')
    expect(finding).toMatchObject({ name, line: 1, message: expect.stringContaining('1900 to 2200') })
  })

  test('a season folder named after an impossible year', () => {
    const root = smallBook({
      'seasons/9998/work.yaml': '- { date: 9998-03-02, block: upper, job: pruning }\n',
    })
    expect(lookAt(root).findings).toMatchObject([{ name: 'wrong-season', file: 'seasons/9998' }])
  })

  const LENGTHS = ['0 m', '-1 m', '9000000000000000 m', '0.0000001 m']
  test.each(['row_spacing: 2 m', 'vine_spacing: 1 m', 'canopy: { height: 1.2 m, width: 0.5 m }'])(
    'a block with another %s',
    async (written) => {
      for (const length of LENGTHS) {
        const other = written.replace(/[\d.]+ m/g, length)
        const root = smallBook({ 'blocks/upper.yaml': SITE['blocks/upper.yaml']!.replace(written, other) })
        for (const args of [
          ['check'],
          ['mix', '--block', 'upper'],
          ['season', '--html', '-'],
          ['totals'],
          ['ready'],
        ]) {
          const { status, fault, err } = await runHere([...args, '--ledger', root, '--as-of', AS_OF], root)
          expect([status === 70, fault], `${args} ${other} ${err}`).toEqual([false, null])
        }
      }
    },
  )

  test('a block with a name of 300 letters', async () => {
    for (const name of ['x'.repeat(300), 'long '.repeat(60).trim()]) {
      const root = smallBook({ 'blocks/upper.yaml': SITE['blocks/upper.yaml']!.replace('Upper', name) })
      for (const args of [
        ['season', '--html', '-'],
        ['season'],
        ['today'],
        ['ready'],
        ['scouting'],
        ['calendar'],
      ]) {
        const { fault } = await runHere([...args, '--ledger', root, '--as-of', AS_OF], root)
        expect(fault, String(args)).toBe(null)
      }
    }
  })

  test('a dose where the label allows zero is above it, without a multiple', async () => {
    const product = SITE['products/sulphur.yaml']!.replace('rate: 2-6 kg/ha', 'rate: 0-0 kg/ha')
    const { out, fault } = await runHere(
      ['check', '--as-of', AS_OF],
      smallBook({ 'products/sulphur.yaml': product }),
    )
    expect(fault).toBe(null)
    expect(out).not.toMatch(/Infinity|NaN/)
  })
})

test.each([
  '\u00ad', '\u034f', '\u115f', '\u1160', '\u17b4', '\u180e', '\u200b', '\u2060', '\u2800', '\u3164', '\uffa0', '\ufff9', '\u{e0001}', '\u{e0041}', '\u{e01ef}',
])('X2: the invisible letter %j is shown as an escape', (letter) => {
  const code = letter.codePointAt(0)!.toString(16)
  expect(safe(`a${letter}b`)).toBe(letter.length > 1 ? `a\\u{${code}}b` : `a\\u${code.padStart(4, '0')}b`)
}) // biome-ignore format: a list of letters

test('X2: visible letters stay as they are', () => {
  for (const seen of ['Größe', '❤️', 'Šárka', '丘', '🍇', 'e\u0301', 'ﬁ']) expect(safe(seen)).toBe(seen)
})
