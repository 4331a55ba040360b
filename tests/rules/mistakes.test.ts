import { describe, expect, test } from 'vitest'
import { readWeather } from '../../src/ledger/weather/weather.ts'
import { ledgerOf } from '../ledger/in-memory.ts'
import { MORE } from './more-slips.ts'
import { filesWith, MISTAKES } from './slips.ts'
import { FILES, findings } from './sound-season.ts'
import { SOUTHERN } from './southern-season.ts'
import { SOUTHERN_SLIPS } from './southern-slips.ts'
import { SOUND_WEATHER, WEATHER_SLIPS } from './weather-slips.ts'

test('the sound season has no error, warning or hint', () => {
  expect(findings(FILES).map(({ name, file, line }) => [name, file, line])).toEqual([])
})

describe('one mistake at a time', () => {
  test.each([...MISTAKES, ...MORE])('$file: $to gives $name', (slip) => {
    const { file, from, name, level, at } = slip
    expect(FILES[file]).toContain(from)
    const files = filesWith(slip)
    const hits = findings(files).filter((finding) => finding.name === name)
    const shown = hits.map((hit) => ({ level: hit.level, text: files[hit.file]!.split('\n')[hit.line - 1] }))
    expect(shown).toContainEqual({ level, text: expect.stringContaining(at) })
  })
})

test.each([
  ['north', FILES, 'latitude: 51.5', 'latitude: -51.5', '2026-10-20'],
  ['south', SOUTHERN, /latitude: -/, 'latitude: ', '2026-05-01'],
] as const)(
  'a latitude in the %s with the wrong sign is told once, and as nothing else',
  (_, files, from, to, asOf) => {
    const site = 'vineyard.yaml'
    const found = findings({ ...files, [site]: files[site]!.replace(from, to) }, asOf)
    expect(found.map(({ name, level, file }) => [name, level, file])).toEqual([
      ['wrong-season', 'error', site],
    ])
    expect(found[0]!.help).toContain(/latitude: [-.\d]+/.exec(files[site]!)![0])
  },
)

test('entries that lie outside the season of either hemisphere are told one by one', () => {
  const files = filesWith({ ...MISTAKES[0]!, from: 'date: 2026-05-20', to: 'date: 2020-05-20' })
  const site = files['vineyard.yaml']!.replace('latitude: 51.5', 'latitude: -51.5')
  const found = findings({ ...files, 'vineyard.yaml': site })
  expect(found.filter(({ name }) => name === 'wrong-season').length).toBeGreaterThan(3)
})

test('the southern season in US units has no finding', () => {
  expect(findings(SOUTHERN, '2026-05-01').map(({ name, file, line }) => [name, file, line])).toEqual([])
})

describe('one mistake at a time in the south, in US units', () => {
  test.each(SOUTHERN_SLIPS)('%s: %s to %s gives %s', (file, from, to, name, level, at = to) => {
    expect(SOUTHERN[file]).toContain(from)
    const files = { ...SOUTHERN, [file]: SOUTHERN[file]!.replace(from, to) }
    const hits = findings(files, '2026-05-01').filter((finding) => finding.name === name)
    const shown = hits.map((hit) => ({ level: hit.level, text: files[hit.file]!.split('\n')[hit.line - 1] }))
    expect(shown).toContainEqual({ level, text: expect.stringContaining(at) })
  })
})

test.each([
  ['buckets', 'bucket-not-weighed'],
  ['crates', 'crate-not-weighed'],
])('a weight in %s of which nobody wrote what one weighs gives %s', (container, name) => {
  const site = 'name: Test Rows\nlatitude: 51.5\nlongitude: 7.1\ntimezone: Europe/Berlin\n'
  const picks = `- { date: 2026-09-20, block: upper, weight: 150 ${container} }\n`
  const found = findings({ ...FILES, 'vineyard.yaml': site, 'seasons/2026/picks.yaml': picks })
  expect(found.map((one) => [one.name, one.level, one.line])).toContainEqual([name, 'error', 1])
})

describe('one mistake in the weather file', () => {
  test.each(WEATHER_SLIPS)('$what gives $name', ({ text, name, level, line }) => {
    const file = 'seasons/2026/weather.csv'
    const found = readWeather(ledgerOf({ ...FILES, [file]: text }), 2026).findings
    expect(found.map((one) => [one.name, one.level, one.line])).toContainEqual([name, level, line])
  })

  test('a sound file is told nothing', () => {
    const ledger = ledgerOf({ ...FILES, 'seasons/2026/weather.csv': SOUND_WEATHER })
    expect(readWeather(ledger, 2026).findings).toEqual([])
  })
})
