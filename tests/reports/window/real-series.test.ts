import { describe, expect, test } from 'vitest'
import { dayOf, isoDate } from '../../../src/records/date.ts'
import { window } from '../../../src/reports/window/report.ts'
import { memoryLedger } from '../memory-ledger.ts'

/**
 * Weekly means of 2019, CC0, Grape Maturity Dataset 2019 (Greece).
 * Each series is cut off before its last readings; the Brix of a later reading is the target, its day the truth.
 */
const SERIES = {
  Syrah: [12.28, 16.24, 20.19, 23.33, 25.07],
  'Sauvignon blanc': [13.06, 15.08, 17.35, 19.15],
  Xinomavro: [12.14, 14.27, 16.3, 18.12, 19.33, 21.06],
}

const START = dayOf('2026-08-01')

interface Cut {
  name: string
  kept: number
  ahead: number
  held: boolean | null
}

function cutsOf(name: string, series: readonly number[]): Cut[] {
  return series.flatMap((target, at) =>
    Array.from({ length: at }, (_, index) => index + 1)
      .filter((kept) => kept >= 3)
      .map((kept) => ({
        name,
        kept,
        ahead: at - kept + 1,
        held: holds(series.slice(0, kept), { target, at }),
      })),
  )
}

function holds(known: readonly number[], { target, at }: { target: number; at: number }): boolean | null {
  const samples = known.map((brix, week) => ({ day: START + 7 * week, brix }))
  const ledger = memoryLedger({ samples, season: 2026, target: { low: target, high: target } })
  const asOf = isoDate(START + 7 * (known.length - 1))
  const report = window({ ledger, season: 2026, asOf, blocks: [...ledger.blocks.values()] })
  const { earliest, latest, likely } = report.data.blocks[0]!
  const truth = isoDate(START + 7 * at)
  return likely === null ? null : earliest! <= truth && (latest === null || truth <= latest)
}

describe('real weekly series, cut off before their last readings', () => {
  const cuts = Object.entries(SERIES).flatMap(([name, series]) => cutsOf(name, series))
  const held = cuts.filter((cut) => cut.held === true).length
  const told = cuts.filter((cut) => cut.held !== null).length
  console.log(`real series: ${held} of ${told} windows held the reading, ${cuts.length - told} untold`)

  test('every cut is told, and all but one in ten holds the reading that was kept back', () => {
    expect(told).toBe(cuts.length)
    expect(held / told).toBeGreaterThanOrEqual(0.9)
  })

  test('Syrah slows at the end, where a straight line overshoots: the fifth reading is still held', () => {
    expect(cuts.find(({ name, kept, ahead }) => name === 'Syrah' && kept === 4 && ahead === 1)!.held).toBe(
      true,
    )
  })
})
