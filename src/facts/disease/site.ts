import type { Ledger } from '../../ledger/read/ledger.ts'
import { growingSpan } from '../heat/window.ts'
import type { ReportInput } from '../report.ts'
import { weatherOf } from '../weather/hours.ts'
import { type PressureCourse, pressureCourse, vineyardSite } from './course.ts'

const known = new WeakMap<Ledger, Map<string, PressureCourse>>()

/**
 * The pressure on the whole site from the first day of growth to the day asked for, whatever blocks a report is
 * of. Worked out once for a ledger: several parts of a report look at it.
 */
export function sitePressure({ ledger, season, asOf }: Omit<ReportInput, 'blocks'>): PressureCourse {
  const of = known.get(ledger) ?? new Map<string, PressureCourse>()
  known.set(ledger, of)
  const key = `${season} ${asOf}`
  const before = of.get(key)
  if (before) return before
  const { from, to } = growingSpan(ledger.vineyard, season)
  const input = { ledger, season, asOf, blocks: [...ledger.blocks.values()] }
  const span = { from, to: to < asOf ? to : asOf }
  const made = pressureCourse(weatherOf(ledger, season), { site: vineyardSite(input), ...span })
  of.set(key, made)
  return made
}
