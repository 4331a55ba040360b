import { expect, test } from 'vitest'
import { pressRoom } from '../../src/facts/picking/order.ts'
import { bookOf } from './book.ts'

const order = [
  { block: 'upper', reasons: [] },
  { block: 'wide', reasons: [] },
]
const told = (crops: (number | null)[], capacity?: string) => {
  const site = `name: T\nlatitude: 51.5\ntimezone: Europe/Berlin\n${capacity ? `press: { capacity: ${capacity} }\n` : ''}`
  const ripe = crops.map((crop, at) => ({ block: order[at]!.block, crop }))
  return pressRoom(bookOf('', { 'vineyard.yaml': site }), order, ripe)
}

test('one block needs no plan for the press; two are compared with its capacity for a day, in order', () => {
  expect(told([900], '300 kg')).toBeNull()
  expect(told([100, 150], '300 kg')).toBeNull()
  expect(told([200, 150], '300 kg')).toBe(
    'The press takes 300 kg a day: with Wide it would be about 350 kg. Pick it on another day.',
  )
  expect(told([400, 150], '300 kg')).toMatch(/about 400 kg\. Pick it on several days\.$/)
})

test('missing figures are named only where two blocks wait', () => {
  expect(told([200])).toBeNull()
  expect(told([200, 150])).toMatch(/not recorded: write `press:/)
  expect(told([null, 150], '300 kg')).toMatch(/not known: count bunches/)
})
