import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { NoLedger } from '../../src/ledger/read/find.ts'
import { SITE } from '../ledger/make.ts'
import { ENTRIES, isInside, type Looked, lookAt, put, smallBook } from './book.ts'
import { stride, times } from './size.ts'

const FILES = { ...SITE, ...ENTRIES }
const SLOWEST_MS = 1000

/** A new file in every kind of folder of a ledger. */
const PLACES = [
  'blocks/other.yaml',
  'varieties/other.yaml',
  'products/other.yaml',
  'sprayers/other.yaml',
  'seasons/2026/sprays/other.yaml',
  'seasons/2025/scouting.yaml',
  'seasons/2025/weather.csv',
]

/** Reads a ledger with one file changed: no exception, no hang, and each finding points inside its file. */
function survives(root: string, file: string, bytes: Uint8Array): Looked | null {
  put(root, file, bytes)
  const started = performance.now()
  try {
    const looked = lookAt(root)
    expect(performance.now() - started, file).toBeLessThan(SLOWEST_MS)
    const text = new TextDecoder('utf-8').decode(bytes)
    for (const finding of looked.findings)
      if (finding.file === file && finding.name !== 'not-utf8')
        expect(isInside(finding, text), JSON.stringify(finding)).toBe(true)
    return looked
  } catch (error) {
    if (error instanceof NoLedger && file === 'vineyard.yaml') return null
    throw error
  }
}

describe('R1, R2: whatever the bytes of a file', () => {
  const sound = lookAt(smallBook())

  const token = fc.constantFrom(
    '- ', 'a: ', 'date: ', 'block: ', 'upper', '2026-06-14', 'products: ', 'name: ', '\n', '\n  ', '{', '}', '[', ']',
    ', ', '"', "'", '#', '&x ', '*x', '!t ', '|\n', '>\n', '%', '---\n', '...\n', '1', '3 kg/ha', 'é', '\t', '? ', ': ',
    '<<: ', '\r\n', '\u2028', '😀', '__proto__: ', 'constructor: ', '~', '.inf', '1e999', '@', '`', '\\', ',', ';',
  ) // biome-ignore format: a list of tokens

  test.each([
    ['random bytes', fc.uint8Array({ maxLength: 4096 }), times(400, 10_000)],
    [
      'YAML-like texts',
      fc.array(token, { maxLength: 80 }).map((parts) => new TextEncoder().encode(parts.join(''))),
      times(400, 10_000),
    ],
  ])('%s: read or refused, and no other record is touched', (_, bytes, numRuns) => {
    const root = smallBook()
    let used = ''
    fc.assert(
      fc.property(fc.constantFrom(...PLACES), bytes, (file, content) => {
        if (used !== '' && used !== file) put(root, used, FILES[used] ?? '')
        used = file
        const looked = survives(root, file, content)!
        const fresh = looked.findings.filter((finding) => finding.file === file)
        // Random bytes make no entry, so no record is added, and the file is reported.
        expect(looked.records).toBe(sound.records)
        if (!file.endsWith('.csv')) expect(fresh).not.toEqual([])
      }),
      { numRuns },
    )
  })
})

describe.each(Object.keys(FILES))('%s', (file) => {
  const original = new TextEncoder().encode(FILES[file]!)
  const sound = lookAt(smallBook())

  test('R5: cut off at every byte, no record is invented', () => {
    const root = smallBook()
    for (let end = 0; end < original.length; end += stride(13)) {
      const looked = survives(root, file, original.subarray(0, end))
      if (looked) expect(looked.records, `cut at ${end}`).toBeLessThanOrEqual(sound.records)
    }
  })

  test('R4: each byte flipped, no record is invented', () => {
    const root = smallBook()
    for (let at = 0; at < original.length; at += stride(13)) {
      const bytes = original.slice()
      bytes[at]! ^= 1 << (at % 8)
      const looked = survives(root, file, bytes)
      if (looked) expect(looked.records, `flipped at ${at}`).toBeLessThanOrEqual(sound.records)
    }
  })
})

test('the small ledger has no findings, so that the tests above start from a valid one', () => {
  const root = smallBook()
  expect(lookAt(root).findings.filter(({ level }) => level === 'error')).toEqual([])
  expect(readFileSync(join(root, 'vineyard.yaml'), 'utf8')).toBe(FILES['vineyard.yaml'])
})
