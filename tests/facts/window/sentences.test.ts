import { expect, test } from 'vitest'
import { acidText, laterText } from '../../../src/facts/window/sentences.ts'

const days = { earliest: '2026-09-10', likely: '2026-09-13', latest: '2026-09-20', open: false }
const acid = (reached: boolean, more = {}) => ({ target: 9, ...days, reached, ...more })
const said = (asOf: string, reached: boolean, more = {}) =>
  acidText({ acid: acid(reached, more), ph: null }, asOf).join(' ')
const SPAN = 'about Sun 13 Sep (10 Sep to 20 Sep, 9 times in 10)'

test('what has happened is worded as past, what is to come as future', () => {
  expect(said('2026-09-15', true)).toBe(`Acid has fallen to 9 g/L ${SPAN}.`)
  expect(said('2026-09-15', false)).toBe(`Acid has likely fallen to 9 g/L ${SPAN}.`)
  expect(said('2026-09-12', false)).toBe(`Acid falls to 9 g/L ${SPAN}.`)
})

test('a sample on target before the block likely is does not make it past', () => {
  expect(said('2026-09-12', true)).toBe(`Acid falls to 9 g/L ${SPAN}; the last sample was there already.`)
  expect(said('2026-09-12', true, { likely: null, latest: null })).toBe(
    'Acid falls to 9 g/L not before Thu 10 Sep, and may not get there within 60 days; the last sample was there already.',
  )
  expect(said('2026-09-12', false, { latest: null })).toBe(
    'Acid falls to 9 g/L about Sun 13 Sep, not before Thu 10 Sep; it may not get there within 60 days.',
  )
  const ph = { ...acid(true), target: 3.1 }
  expect(acidText({ acid: null, ph }, '2026-09-12')).toEqual([
    `pH rises to 3.1 ${SPAN}; the last sample was there already.`,
  ])
})

test('a pH has a decimal wherever it is named', () => {
  const ph = { ...acid(false), target: 3 }
  expect(acidText({ acid: null, ph }, '2026-09-12')).toEqual([`pH rises to 3.0 ${SPAN}.`])
  expect(laterText({ likely: '2026-09-01', acid: null, ph })).toBe('pH rises to 3.0 later, about Sun 13 Sep')
})
