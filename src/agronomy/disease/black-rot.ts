import type { SpellDay } from '../weather/spell-days.ts'
import type { WetSpell } from '../weather/wet-spells.ts'
import { blackRotHours } from './black-rot-hours.ts'

export interface BlackRotDay {
  day: number
  /** Null where the data or the table give no answer. */
  infection: boolean | null
  why: 'long enough wet' | 'too short' | 'not wet' | 'no table value' | 'data missing'
  wetHours: number
  /** Hours needed at the spell's mean temperature, from the table. */
  neededHours: number | null
  complete: boolean
}

/**
 * Black rot infection on a day, from the wet spells that end or run on it, by `blackRotHours`. A dry gap
 * longer than 4 h ends a spell: common practice, no source. (Spotts 1977: leaves that dried for up to two days
 * and were wetted again could still be infected, so a spell just under the hours is no all-clear.)
 */
export function blackRotOfSpell(spellDay: SpellDay): BlackRotDay {
  const worst = spellDay.spells.map(rate).sort((a, b) => RANK[a.why] - RANK[b.why])[0]
  return worst ? { day: spellDay.day, ...worst, complete: isComplete(spellDay) } : dryDay(spellDay)
}

const RANK = { 'long enough wet': 0, 'data missing': 1, 'no table value': 2, 'too short': 3, 'not wet': 4 }

const isComplete = ({ spells, unknownHours }: SpellDay) =>
  unknownHours === 0 && spells.every((spell) => spell.complete)

function rate(spell: WetSpell): Omit<BlackRotDay, 'day' | 'complete'> {
  const { wetHours, temperature, complete } = spell
  const neededHours = temperature === null ? null : blackRotHours(temperature)
  const result = (infection: boolean | null, why: BlackRotDay['why']) => ({
    infection,
    why,
    wetHours,
    neededHours,
  })
  if (temperature === null) return result(null, 'data missing')
  if (neededHours === null) return result(null, 'no table value')
  if (wetHours >= neededHours - 1e-9) return result(true, 'long enough wet')
  return complete ? result(false, 'too short') : result(null, 'data missing')
}

function dryDay({ day, unknownHours }: SpellDay): BlackRotDay {
  const complete = unknownHours === 0
  const why = complete ? 'not wet' : 'data missing'
  const infection = complete ? false : null
  return { day, infection, why, wetHours: 0, neededHours: null, complete }
}
