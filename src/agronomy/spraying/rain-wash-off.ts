import { type TableRows, tableValue } from '../statistics/table-value.ts'

/** mm of simulated rain and share of one-day-old ziram that it took off. */
const ZIRAM_WASH_OFF: TableRows = [
  [0, 0],
  [2.54, 0.25],
  [12.7, 0.3],
  [25.4, 0.65],
  [50.8, 0.75],
]

/**
 * Share of a fresh protectant's deposit that this much rain, in mm, may take off, straight between the trial's
 * rows; null beyond them. One product's trial: a hint, not a rule. Source: Schilder 2010, in the Missouri Grape
 * and Wine Institute's report of 29 April 2019 (read); the trial's rains were 0.1, 0.5, 1 and 2 in.
 */
export function rainWashOff(rain: number): number | null {
  return tableValue(ZIRAM_WASH_OFF, rain)
}
