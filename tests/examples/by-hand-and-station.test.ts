import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { openLedger } from '../../src/ledger/read/open.ts'
import { runHere } from '../faults/in-process.ts'

const EXAMPLE = join(import.meta.dirname, '../../examples/tansy-corner')

/** A copy of the hobby plot whose days of weather, read by hand, stand in a station's file of days instead. */
function withStation(): string {
  const root = join(mkdtempSync(join(tmpdir(), 'rowbook-')), 'plot')
  cpSync(EXAMPLE, root, { recursive: true })
  const { weather } = openLedger(root, { seasons: 'all' })
  for (const season of new Set(weather.map((day) => day.season))) {
    for (const path of ['weather', 'weather.yaml'])
      rmSync(join(root, `seasons/${season}/${path}`), { recursive: true, force: true })
    const lines = weather
      .filter((day) => day.season === season)
      .map(({ date, low, high, rain }) => [date, low ?? '', high ?? '', rain ?? ''].join(','))
    writeFileSync(
      join(root, `seasons/${season}/weather.csv`),
      `date,min_c,max_c,rain_mm\n${lines.join('\n')}\n`,
    )
  }
  return root
}

/** What a report says, without the marks of what was read by hand and whether there is a station. */
async function dataOf(root: string, args: readonly string[]): Promise<unknown> {
  const { out, err } = await runHere([...args, '--ledger', root, '--json'])
  expect(err).toBe('')
  return JSON.parse(out, (key, value) => (key === 'byHand' || key === 'station' ? undefined : value)).data
}

describe('days read by hand and a station file of the same days', () => {
  const station = withStation()
  const reports = ['today', 'pressure', 'cover', 'heat', 'ready', 'window', 'scouting', 'season', 'compare']
  test.each(
    reports.flatMap((report) =>
      ['2026-06-10', '2026-07-15', '2026-09-10'].map((day) => [report, day] as const),
    ),
  )('%s on %s says the same', async (report, day) => {
    const args = [report, ...(report === 'compare' ? ['2025', '2026'] : []), '--as-of', day]
    expect(await dataOf(EXAMPLE, args)).toEqual(await dataOf(station, args))
  })
  test('a day read otherwise is another sum, so that the test above can fail', async () => {
    const other = withStation()
    writeFileSync(join(other, 'seasons/2026/weather.csv'), 'date,min_c,max_c,rain_mm\n2026-06-01,9,21,0\n')
    const args = ['heat', '--as-of', '2026-07-15']
    expect(await dataOf(EXAMPLE, args)).not.toEqual(await dataOf(other, args))
  })
})
