import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { flat, run, runJson } from './run.ts'

const folder = mkdtempSync(join(tmpdir(), 'rowbook-weather-reports-'))
const file = (name: string, text: string) => {
  writeFileSync(join(folder, name), text)
  return join(folder, name)
}
const LEDGER = ['--ledger', 'examples/far-quillet', '--as-of', '2026-09-14']
const two = (value: number) => String(value).padStart(2, '0')
const daily = file(
  'daily.csv',
  ['date,min_c,max_c', ...Array.from({ length: 30 }, (_, day) => `2026-06-${two(day + 1)},10,20`)].join('\n'),
)
const hourly = file(
  'hourly.csv',
  [
    'time,temperature_c,rain_mm',
    ...Array.from({ length: 72 }, (_, at) => `2026-06-0${1 + Math.floor(at / 24)}T${two(at % 24)}:00,25,0`),
  ].join('\n'),
)

describe('without a ledger', () => {
  test('heat', () => {
    const { status, json } = runJson(['heat', '--weather', daily, '--latitude', '45', '--base', '8'], {
      cwd: folder,
    })
    expect(status).toBe(0)
    expect(json).toMatchObject({
      rowbook: 1,
      report: 'heat',
      season: 2026,
      data: {
        method: 'average',
        base: 8,
        sum: 210,
        winkler: { value: null, region: null },
        huglin: { value: null, class: null },
      },
    })
    expect(json.data.days[0]).toMatchObject({ date: '2026-06-01', min: 10, max: 20, mean: 15, degreeDays: 7 })
    expect(json.data.winkler.why).toBeTruthy()
  })
  test('a file with column names of its own', () => {
    const foreign = file('foreign.csv', 'Zeit;Temp\n2026-06-01T00:00;12\n2026-06-01T01:00;13\n')
    const args = ['pressure', '--weather', foreign, '--columns', 'time=Zeit, temperature=Temp']
    const { status, json } = runJson(args, { cwd: folder })
    expect({ status, findings: json.findings, days: json.data.days.length }).toEqual({
      status: 0,
      findings: [],
      days: 1,
    })
  })
  test('pressure', () => {
    const { status, json } = runJson(['pressure', '--weather', hourly], { cwd: folder })
    expect(status).toBe(0)
    expect(json.data.days.map((day: { powdery: { index: number } }) => day.powdery.index)).toEqual([
      20, 40, 60,
    ])
    expect(json.data.days[2]).toMatchObject({
      date: '2026-06-03',
      powdery: { points: 20, hoursInRange: 24 },
      botrytis: { risk: null },
      blackRot: { infection: null },
    })
  })
  test.each([
    [['heat', '--weather', daily], 'add --latitude'],
    [['heat', '--weather', join(folder, 'none.csv'), '--latitude', '45'], "can't be read"],
    [['heat', '--weather', daily, '--latitude', '45', '--base', '10', '--upper', '5'], 'below the lower'],
    [
      ['heat', '--weather', daily, '--latitude', '45', '--from', '2026-06-09', '--to', '2026-06-01'],
      'before --from',
    ],
    [['pressure', '--weather', file('odd.csv', 'a,b\n1,2\n')], 'time or the date'],
    [['pressure', '--weather', hourly, '--columns', 'Temp'], 'names no column'],
  ])('%j is used wrongly', (args, said) => {
    const { status, stdout, stderr } = run(args, { cwd: folder })
    expect(status).toBe(2)
    expect(stdout).toBe('')
    expect(flat(stderr)).toContain(said)
  })
  test('a bad cell is told on stderr and in the findings, and the report goes on', () => {
    const path = file('bad.csv', 'time,temperature_c\n2026-06-01T00:00,warm\n2026-06-01T01:00,12\n')
    const { status, stderr } = run(['pressure', '--weather', path], { cwd: folder })
    expect(status).toBe(0)
    expect(stderr).toContain('bad.csv:2:18')
    expect(runJson(['pressure', '--weather', path], { cwd: folder }).json.findings[0]).toMatchObject({
      name: 'bad-cell',
      line: 2,
      column: 18,
    })
  })
})

describe('with the example', () => {
  test.each(['heat', 'pressure', 'cover', 'scouting'])('%s fits 80 columns', (name) => {
    const { status, stdout } = run([name, ...LEDGER])
    expect(status).toBe(0)
    expect(Math.max(...stdout.split('\n').map((line) => [...line].length))).toBeLessThanOrEqual(80)
    expect(stdout).not.toMatch(/NaN|undefined|Infinity/)
  })
  test('three reports tell the season in words: the fortnight, the gap, the finding, the treatment, the walk', () => {
    const said = (name: string) => run([name, ...LEDGER]).stdout.replace(/\s+/g, ' ')
    expect(said('pressure')).toMatch(
      /Worst fortnight so far, 16 Jun to 29 Jun: 75 mm of rain at 21 °C\. Powdery index up to 100/,
    )
    const cover = said('cover')
    expect(cover).toContain('Worst gap: Brook Rows, 14 Jun to 29 Jun, danger high')
    expect(cover).toMatch(/Brook Rows, 14 Jun to 29 Jun, danger high. .*Fruit at greatest risk until/)
    expect(cover).toContain('Quillet Bicarbonate SP on 27 Jun on rows 13 to 19 of 21')
    expect(cover).toContain('from index 60 on, the index table advises against biological products')
    expect(cover).toMatch(/Top Terrace botrytis now 14 Sep too late, last day 10 Sep/)
    const scouting = said('scouting')
    expect(scouting).toContain('First seen this season: powdery in Brook Rows on 26 Jun (12 of 100 bunches)')
    expect(scouting).toContain(
      'better from 26 Jun (12 of 100) to 9 Jul (4 of 100), more than chance. Sprayed between: Quillet Bicarbonate SP on 27 Jun (rows 13 to 19) and Quillet Sulphur 80 on 30 Jun',
    )
  })
  test('the gap of June, the finding, the treatment and the walk after it', () => {
    const { json } = runJson(['cover', '--block', 'brook-rows', ...LEDGER])
    expect(json).toMatchObject({ rowbook: 1, report: 'cover', asOf: '2026-09-14', season: 2026 })
    const cover = json.data.blocks[0]
    const gap = cover.gaps.find(({ worstIndex }: { worstIndex: number }) => worstIndex === 100)
    expect(gap.from <= '2026-06-16' && gap.to >= '2026-06-26').toBe(true)
    expect(cover.days.find(({ date }: { date: string }) => date === '2026-07-01')).toMatchObject({
      covered: true,
      by: 'sulphur-80',
    })
    const { walks, trends } = runJson(['scouting', '--block', 'brook-rows', ...LEDGER]).json.data
    expect(
      walks.find(
        ({ date, disease, organ }: Record<string, string>) =>
          date === '2026-06-26' && disease === 'powdery' && organ === 'bunches',
      ),
    ).toMatchObject({ looked: 100, found: 12 })
    expect(
      trends.find(
        ({ from, disease }: Record<string, string>) => from === '2026-06-26' && disease === 'powdery',
      ),
    ).toMatchObject({ beyondChance: true })
  })
})

test('a file that ends in November gives the indices of the season that is over', () => {
  const days = Array.from({ length: 250 }, (_, at) => {
    const date = new Date(Date.parse('2026-03-25') + at * 86_400_000).toISOString().slice(0, 10)
    return `${date},10,20`
  })
  const long = file('november.csv', `date,min_c,max_c\n${days.join('\n')}\n`)
  const { json } = runJson(['heat', '--weather', long, '--latitude', '45'])
  // 214 days from 1 April to 31 October at a mean of 15 °C.
  expect(json.season).toBe(2026)
  expect(json.data.winkler.value).toBeCloseTo(214 * 5, 6)
  expect(json.data.huglin.value).toBeGreaterThan(0)
})
