import { expect, test } from 'vitest'
import { windowOf } from '../../../src/facts/window/block-window.ts'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { addDays } from '../../../src/records/date.ts'
import { PLAIN, type Style } from '../../../src/render/style.ts'
import { cover } from '../../../src/reports/cover/report.ts'
import { renderCover } from '../../../src/reports/cover/terminal.ts'
import { heat } from '../../../src/reports/heat/report.ts'
import { renderHeat } from '../../../src/reports/heat/terminal.ts'
import { pressure } from '../../../src/reports/pressure/report.ts'
import { renderPressure } from '../../../src/reports/pressure/terminal.ts'
import { scouting } from '../../../src/reports/scouting/report.ts'
import { renderScouting } from '../../../src/reports/scouting/terminal.ts'
import { runHere } from '../../faults/in-process.ts'
import { makeLedger } from '../../ledger/make.ts'

const style: Style = { columns: 80, units: 'metric', paint: PLAIN }
const example = openLedger(new URL('../../../examples/far-quillet', import.meta.url).pathname, {
  seasons: 'all',
})
const empty = openLedger(makeLedger(), { seasons: 'all' })

function printed(ledger: typeof example, asOf: string): Record<string, string> {
  const input = { ledger, season: 2026, asOf, blocks: [...ledger.blocks.values()] }
  const blocks = new Map([...ledger.blocks].map(([id, { name }]) => [id, name]))
  const names = { blocks, products: new Map([...ledger.products].map(([id, { name }]) => [id, name])) }
  const windows = new Map(input.blocks.map((block) => [block.id, windowOf(block, input)]))
  return {
    ...Object.fromEntries(
      (['powdery', 'downy', 'botrytis', 'black-rot'] as const).map((disease) => [
        `cover ${disease}`,
        renderCover(cover(input, { disease, windowOf: (block) => windows.get(block)! }), style, names),
      ]),
    ),
    heat: renderHeat(heat(input), style, names),
    pressure: renderPressure(pressure(input), style, names),
    scouting: renderScouting(scouting(input), style, names),
  }
}

test.each(Array.from({ length: 16 }, (_, at) => addDays('2025-11-02', at * 24)))(
  'on %s every report of the season prints, in 80 columns, whatever is there by then',
  (asOf) => {
    for (const ledger of [example, empty])
      for (const [name, text] of Object.entries(printed(ledger, asOf))) {
        expect(text, name).not.toMatch(/undefined|NaN|null|Infinity|\[object/)
        expect(
          text.split('\n').filter((line) => [...line].length > 80),
          name,
        ).toEqual([])
      }
  },
)

test('before a stage that needs cover none is asked for, for three weeks', () => {
  const ledger = openLedger(
    makeLedger({ 'seasons/2026/stages.yaml': '- { date: 2026-04-10, block: upper, stage: 9 }\n' }),
    { seasons: 'all' },
  )
  const on = (asOf: string) =>
    cover({ ledger, season: 2026, asOf, blocks: [...ledger.blocks.values()] }).data.blocks.map((one) => ({
      block: one.block,
      needed: one.days.at(-1)!.needed,
    }))
  expect(on('2026-04-30')).toContainEqual({ block: 'upper', needed: false })
  expect(on('2026-05-01')).toContainEqual({ block: 'upper', needed: true })
  // Of a block without any stage nothing is known: two weeks after growth usually starts, protection counts as needed.
  expect(on('2026-04-15')).toContainEqual({ block: 'lower', needed: true })
})

test('no spray of the season hangs on a window from flowering or the calendar, as none of `cover` does', async () => {
  const line = ['season', '--json', '--as-of', '2026-07-20', '--ledger', example.root]
  const { data } = JSON.parse((await runHere(line)).out)
  expect(data.window).toMatchObject({ blocks: [{ why: null }, {}, {}, {}] })
  const stops = (data.cover as ReturnType<typeof cover>['data']).blocks.map((one) => one.harvestStop)
  expect(stops.map((stop) => [stop?.picking, stop?.inTime])).toEqual(stops.map(() => [null, []]))
})
