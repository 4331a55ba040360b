import { type TableRows, tableValue } from '../statistics/table-value.ts'
import type { SpellDay } from '../weather/spell-days.ts'
import type { WetSpell } from '../weather/wet-spells.ts'

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
const blackRotHours = (temperature: number): number | null =>
  tableValue(BLACK_ROT_TABLE, (temperature * 9) / 5 + 32)

/** What the wet spells of a day can come to, the worst first. */
const WHYS = ['long enough wet', 'data missing', 'no table value', 'too short', 'not wet'] as const

interface BlackRotSpell {
  /** Null where the data or the table give no answer. */
  infection: boolean | null
  why: (typeof WHYS)[number]
  wetHours: number
  /** Hours needed at the spell's mean temperature, from the table. */
  neededHours: number | null
}

/**
 * Black rot infection on a day, from the wet spells that end or run on it, by `blackRotHours`. A dry gap
 * longer than 4 h ends a spell: common practice, no source. (Spotts 1977: leaves that dried for up to two days
 * and were wetted again could still be infected, so a spell just under the hours is no all-clear.)
 */
export function blackRotOfSpell({ spells, unknownHours }: SpellDay) {
  const dry: BlackRotSpell = {
    infection: unknownHours === 0 ? false : null,
    why: unknownHours === 0 ? 'not wet' : 'data missing',
    wetHours: 0,
    neededHours: null,
  }
  const [worst = dry] = spells.map(rate).sort((a, b) => WHYS.indexOf(a.why) - WHYS.indexOf(b.why))
  return { ...worst, complete: unknownHours === 0 && spells.every(({ complete }) => complete) }
}

function rate({ wetHours, temperature, complete }: WetSpell): BlackRotSpell {
  const neededHours = temperature === null ? null : blackRotHours(temperature)
  const facts = { wetHours, neededHours }
  if (temperature === null) return { infection: null, why: 'data missing', ...facts }
  if (neededHours === null) return { infection: null, why: 'no table value', ...facts }
  if (wetHours >= neededHours - 1e-9) return { infection: true, why: 'long enough wet', ...facts }
  if (!complete) return { infection: null, why: 'data missing', ...facts }
  return { infection: false, why: 'too short', ...facts }
}
