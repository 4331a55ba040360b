import { appendFileSync, mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { weatherOf } from '../../src/facts/weather/hours.ts'
import { weatherDaysOf, weatherLookedThrough } from '../../src/facts/weather/kept.ts'
import { RecordCache } from '../../src/ledger/cache/cache.ts'
import { KeptFindings } from '../../src/ledger/cache/kept-findings.ts'
import { filesOnDisk } from '../../src/ledger/read/files.ts'
import { openLedger } from '../../src/ledger/read/open.ts'
import { readWeather } from '../../src/ledger/weather/weather.ts'
import { makeLedger, SITE } from '../ledger/make.ts'

const ROWS = Array.from({ length: 200 }, (_, index) => {
  const date = new Date(Date.UTC(2024, 11, 1) + index * 86_400_000).toISOString().slice(0, 10)
  return `${date},${(index % 17) - 4.5},${(index % 17) + 6},${index % 5}`
})

test('days kept from an earlier run are those of the file and the site as they stand', () => {
  const root = makeLedger({ 'seasons/2025/weather.csv': `date,min_c,max_c,rain_mm\n${ROWS.join('\n')}\n` })
  const folder = mkdtempSync(join(tmpdir(), 'rowbook-days-'))
  const days = () => {
    const disk = filesOnDisk(root)
    const reads: string[] = []
    const cache = new RecordCache(folder, 'test', root)
    const read = (file: string) => {
      reads.push(file)
      return disk.read(file)
    }
    const reader = { ...disk, cache, read }
    const kept = weatherDaysOf(openLedger(root, { seasons: [2026] }, reader), 2025)
    cache.save()
    expect(kept).toEqual(weatherOf(openLedger(root, { seasons: [2026] }), 2025).days)
    return { kept, times: reads.filter((file) => file.endsWith('weather.csv')).length }
  }
  const first = days()
  const again = days()
  expect(again.kept).toEqual(first.kept)
  expect([first.times, again.times]).toEqual([2, 1])

  appendFileSync(join(root, 'seasons/2025/weather.csv'), '2025-07-01,11,23,0\n')
  expect(days().kept.length).toBeGreaterThan(first.kept.length)
  writeFileSync(join(root, 'vineyard.yaml'), `${SITE['vineyard.yaml']}season_starts: 01-01\n`)
  expect(days().kept[0]!.day).toBeGreaterThan(first.kept[0]!.day)
})

test('a file is looked through again only where it or the site has changed, and found as it stands', () => {
  const file = 'seasons/2025/weather.csv'
  const root = makeLedger({ [file]: `date,min_c,max_c,rain_mm\n${ROWS.join('\n')}\n` })
  const folder = mkdtempSync(join(tmpdir(), 'rowbook-looked-'))
  const look = () => {
    const findings = new KeptFindings(folder, 'test', root)
    let fresh = false
    const keep: KeptFindings['keep'] = (name, found) => {
      fresh = true
      findings.keep(name, found)
    }
    const reader = { ...filesOnDisk(root), findings: { of: (name: string) => findings.of(name), keep } }
    const looked = weatherLookedThrough(openLedger(root, { seasons: [2026] }, reader), 2025)
    findings.save()
    const anew = readWeather(openLedger(root, { seasons: [2026] }), 2025)
    expect(looked).toMatchObject({ rows: anew.rows, findings: anew.findings })
    return { fresh, found: looked.findings.length }
  }
  expect(look()).toEqual({ fresh: true, found: 0 })
  expect(look()).toEqual({ fresh: false, found: 0 })
  appendFileSync(join(root, file), '2025-07-01,23,11,0\n')
  expect(look()).toEqual({ fresh: true, found: 2 })
  expect(look()).toEqual({ fresh: false, found: 2 })
  writeFileSync(join(root, 'vineyard.yaml'), `${SITE['vineyard.yaml']}season_starts: 01-01\n`)
  expect(look().fresh).toBe(true)
  expect(look().found).toBeGreaterThan(2)
})
