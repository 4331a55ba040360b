import { type CopperWindow, copperWindow } from '../../agronomy/spraying/copper-window.ts'
import { highest, lowest } from '../../agronomy/statistics/extremes.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { seasonOf } from '../../ledger/read/seasons.ts'
import { type IsoDate, yearOf } from '../../records/date.ts'
import { areaOf } from '../block-size.ts'
import { activeOf, isCopper } from './actives.ts'
import type { Application } from './applications.ts'

/** Copper metal of one application, kg per ha of the whole block; null where a figure is missing. */
export function copperOf(one: Application): number | null {
  let sum = 0
  for (const active of one.product.actives.filter(isCopper)) {
    const kilograms = activeOf(one, active)
    if (kilograms === null) return null
    sum += kilograms
  }
  return sum / areaOf(one.block)
}

/** Copper metal of several applications on one block, kg/ha; null where one of them isn't known. */
export function copperSum(list: readonly Application[]): number | null {
  const each = list.map(copperOf)
  return each.some((one) => one === null) ? null : each.reduce((sum: number, one) => sum + one!, 0)
}

/**
 * The most copper metal that a vine can have had, kg per treated ha: every spray of the whole block, the rows
 * that had most, and every spray of some vines or a share, as if it hit the same vines each time. Null where a figure
 * or the treated part of the block is unknown.
 */
export function mostCopperOnAVine(list: readonly Application[]): number | null {
  let loose = 0
  const inRows: { low: number; high: number; copper: number }[] = []
  for (const one of list) {
    const mean = copperOf(one)
    if (mean === 0) continue
    if (mean === null || !one.share) return null
    const copper = mean / one.share
    if (one.spray.rows) inRows.push({ ...one.spray.rows, copper })
    else loose += copper
  }
  const onRow = (row: number) =>
    inRows.reduce((sum, { low, high, copper }) => sum + (low <= row && row <= high ? copper : 0), 0)
  return loose + highest([0, ...inRows.map(({ low }) => onRow(low))])
}

/**
 * Calendar years whose sprays are in the ledger: those whose growing months lie in seasons with at least
 * one spray of any kind. The year of the report counts as known.
 */
function yearsOnRecord(ledger: Ledger, asOf: IsoDate): Set<number> {
  const seasons = new Set(ledger.sprays.map(({ season }) => season))
  const known = new Set([yearOf(asOf)])
  const first = Math.min(lowest(ledger.seasons), yearOf(asOf)) - 1
  for (let year = first; year < yearOf(asOf); year++) {
    const needed = new Set(MIDDLES.map((middle) => seasonOf(ledger.vineyard, `${year}-${middle}`)))
    if ([...needed].every((season) => seasons.has(season))) known.add(year)
  }
  return known
}

/** A day in each part of the year in which vines are sprayed, north or south. */
const MIDDLES = ['02-15', '04-15', '10-15']

/** Copper of one block over the years of the limit, up to a day; null where the vineyard sets no such limit. */
export function copperOverYears(
  ledger: Ledger,
  ofBlock: readonly Application[],
  asOf: IsoDate,
): (CopperWindow & { limit: number; years: number; unknownDose: boolean }) | null {
  const copper = ledger.vineyard.limits?.copper
  if (copper?.rolling === undefined || copper.years === undefined || copper.rolling === 0) return null
  const perYear = new Map([...yearsOnRecord(ledger, asOf)].map((year) => [year, 0]))
  let unknownDose = false
  for (const one of ofBlock) {
    if (one.spray.date > asOf) continue
    const kilograms = copperOf(one)
    unknownDose ||= kilograms === null
    const year = yearOf(one.spray.date)
    if (kilograms) perYear.set(year, (perYear.get(year) ?? 0) + kilograms)
  }
  const [limit, years] = [copper.rolling, Math.round(copper.years)]
  const window = copperWindow({ perYear, year: yearOf(asOf), limit, years, blockStart: copper.from })
  return { ...window, limit, years, unknownDose }
}
