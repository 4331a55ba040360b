import { expect, test } from 'vitest'
import { roundRows } from '../../../src/facts/disease/round-rows.ts'
import type { ScoutingEntry } from '../../../src/ledger/read/ledger.ts'

const walk = (found: object) =>
  ({ date: '2026-07-10', block: 'upper', looked_at: { bunches: 100 }, found }) as unknown as ScoutingEntry

test('classes with nothing counted in them are no round that found nothing', () => {
  expect(roundRows(walk({ powdery: { classes: { '0': 0, '1-5': 0 } } }))).toEqual([])
  const [row] = roundRows(walk({ powdery: { classes: { '0': 90, '1-5': 10 } } }))
  expect(row).toMatchObject({ looked: 100, found: 10, incidence: 0.1, severity: 0.003, why: null })
})
