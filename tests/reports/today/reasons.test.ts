import { expect, test } from 'vitest'
import { today } from '../../../src/reports/today/report.ts'
import { inputOf, STAGES, WALKS, WEATHER, weather } from '../../facts/danger/book.ts'

const AS_OF = '2026-06-20'
const both = (date: string, code: number) =>
  ['upper', 'lower'].map((block) => `- { date: ${date}, block: ${block}, stage: ${code} }\n`).join('')
const GROWN = {
  [STAGES]: both('2026-06-05', 57) + both('2026-06-14', 65),
  [WEATHER]: weather(undefined, AS_OF),
}
const round = (date: string, found: number) =>
  `- { date: ${date}, block: upper, looked_at: { bunches: 100 }, found: { powdery: { bunches: ${found} } } }\n`
const treated =
  '- { date: 2026-06-19, time: 18:00-19:00, blocks: [upper], rows: 1-2, water: 300 L/ha, products: [ { product: sulphur, rate: 3 kg/ha, for: powdery } ] }\n'

test('a find is told of the block that it is of, and the newest before the older', () => {
  const rounds = round('2026-06-12', 4) + round('2026-06-18', 15)
  const input = inputOf({ ...GROWN, [WALKS]: rounds, 'seasons/2026/sprays.yaml': treated }, AS_OF)
  const said = today(input).data.items.filter(
    ({ disease, what }) => disease === 'powdery' && what === 'cover',
  )
  const upper = said.find(({ blocks }) => blocks.includes('upper'))!
  expect(upper.reasons[0]).toContain('15 of 100 bunches on 18 Jun')
  for (const { blocks, text } of said)
    if (blocks.includes('lower')) expect(text).not.toMatch(/\. Powdery on 15 of 100/)
})

test('a file that lacks hours is not said to end where they begin to lack', () => {
  const lacking = weather((date, hour) => (date > '2026-06-15' && hour < 8 ? null : {}), AS_OF)
  const pressure = (text: string) =>
    today(inputOf({ ...GROWN, [WEATHER]: text }, AS_OF)).data.items.find(({ what }) => what === 'pressure')!
      .text
  expect(pressure(lacking)).toContain('Hours of weather are missing since Tue 16 Jun')
  expect(pressure(weather(undefined, '2026-06-15'))).toContain('The weather ends Mon 15 Jun, 5 days ago')
})
