import { type BetweenRows, type TableRows, tableValue } from '../statistics/table-value.ts'

/** Mean °C and hours of wetness. */
const DOWNY_GERMINATION: TableRows = [
  [6, 17],
  [8, 14],
  [13, 1.5],
  [18, 1],
  [23, 0.5],
]

/**
 * Hours of wetness that sporangia need to germinate at a mean of `temperature` °C; null outside 6-23 °C.
 * Source: WineSkills, Plumpton (read). Between rows no source gives a rule: `linear`, or `smaller`.
 */
export function downyGerminationHours(temperature: number, between: BetweenRows = 'linear'): number | null {
  return tableValue(DOWNY_GERMINATION, temperature, between)
}
