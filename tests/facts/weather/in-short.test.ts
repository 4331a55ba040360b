import { appendFileSync, mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { weatherOf } from '../../../src/facts/weather/hours.ts'
import { weatherInShort } from '../../../src/facts/weather/in-short.ts'
import { RecordCache } from '../../../src/ledger/cache/record-cache.ts'
import { filesOnDisk } from '../../../src/ledger/read/files.ts'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { readWeather } from '../../../src/ledger/weather/weather.ts'
import { makeLedger, SITE } from '../../ledger/make.ts'

const FILE = 'seasons/2025/weather.csv'
const ROWS = Array.from({ length: 200 }, (_, index) => {
  const date = new Date(Date.UTC(2024, 11, 1) + index * 86_400_000).toISOString().slice(0, 10)
  return `${date},${(index % 17) - 4.5},${(index % 17) + 6},${index % 5}`
})

test('the cached summary of a weather file equals what the present file and site give', () => {
  const root = makeLedger({ [FILE]: `date,min_c,max_c,rain_mm\n${ROWS.join('\n')}\n` })
  const folder = mkdtempSync(join(tmpdir(), 'rowbook-weather-'))
  const look = () => {
    const cache = new RecordCache(folder, 'test', root)
    let isRead = false
    const keep: RecordCache['keep'] = (file, text, records) => {
      if (file === FILE) isRead = true
      cache.keep(file, text, records)
    }
    const find: RecordCache['find'] = (file, text, part) => cache.find(file, text, part)
    const reader = { ...filesOnDisk(root), cache: { find, keep } }
    const kept = weatherInShort(openLedger(root, { seasons: [2026] }, reader), 2025)
    cache.save()
    const anew = openLedger(root, { seasons: [2026] })
    const { rows, findings } = readWeather(anew, 2025)
    expect(kept).toMatchObject({ rows, findings, days: weatherOf(anew, 2025).days })
    return { isRead, found: kept.findings.length, first: kept.days[0]!.day }
  }
  const { first } = look()
  expect(look()).toEqual({ isRead: false, found: 0, first })
  appendFileSync(join(root, FILE), '2025-07-01,23,11,0\n')
  expect(look()).toEqual({ isRead: true, found: 2, first })
  expect(look()).toEqual({ isRead: false, found: 2, first })
  writeFileSync(join(root, 'vineyard.yaml'), `${SITE['vineyard.yaml']}season_starts: 01-01\n`)
  const other = look()
  expect(other.isRead).toBe(true)
  expect(other.first).toBeGreaterThan(first)
})
