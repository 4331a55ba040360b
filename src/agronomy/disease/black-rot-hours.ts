import { type TableRows, tableValue } from '../statistics/table-value.ts'

/** Mean °F while wet, and hours of wetness to infect. */
const BLACK_ROT_TABLE: TableRows = [
  [50, 24],
  [55, 12],
  [60, 9],
  [65, 8],
  [70, 7],
  [75, 7],
  [80, 6],
  [85, 9],
  [90, 12],
]

/**
 * Hours of leaf wetness that black rot needs to infect at a mean of `temperature` °C; null outside the table,
 * 10.0 to 32.2 °C. Between rows no source gives a rule: on the line between them.
 * Source: Spotts 1977, Phytopathology 67:1378-1381, table as printed by Michigan State University IPM (read).
 */
export function blackRotHours(temperature: number): number | null {
  return tableValue(BLACK_ROT_TABLE, (temperature * 9) / 5 + 32)
}
