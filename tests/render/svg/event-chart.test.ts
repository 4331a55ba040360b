import { expect, test } from 'vitest'
import { drawEventChart } from '../../../src/render/svg/event-chart.ts'

const shown = (values: (number | null)[]) =>
  drawEventChart('id', {
    title: 'Infection',
    unit: '',
    from: '2026-06-01',
    low: 0,
    high: 1,
    values,
    combine: 'greatest',
  }).text

test.each([
  [[0, 0], 'On no day.'],
  [[0, null, null], 'On no known day. Not known on 2 days.'],
  [[0, 1, null], 'On 1 of 3 days: 2 Jun. Not known on 1 day.'],
])('a chart read aloud tells unknown days from those without an event: %j', (values, said) => {
  expect(shown(values)).toContain(`>${said}<`)
})
