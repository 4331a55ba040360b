import type { SpellDay } from '../weather/spell-days.ts'
import type { WetSpell } from '../weather/wet-spells.ts'
import { type BotrytisInfection, botrytisInfection } from './botrytis-infection.ts'

export interface BotrytisDay extends Omit<BotrytisInfection, 'why'> {
  day: number
  why: BotrytisInfection['why'] | 'no temperature while wet' | 'wetness unknown'
  wetHours: number
  /** Mean °C while wet. */
  temperature: number | null
  complete: boolean
}

/**
 * Botrytis day by day: of the wet spells that end or run on the day, as they stood by its end, the worst. A spell
 * without a value comes after low risk and before none, so that no "none" hides it. Model and limits as in
 * `botrytisInfection`; a dry gap longer than 4 h ends a spell.
 */
export function botrytisOfSpells(days: readonly SpellDay[]): BotrytisDay[] {
  return days.map(({ day, spells, unknownHours }) => {
    const complete = unknownHours === 0 && spells.every((spell) => spell.complete)
    if (spells.length === 0) return dryDay(day, unknownHours)
    const rated = spells.map((spell) => rate(spell)).sort((a, b) => (b.logit ?? 0) - (a.logit ?? 0))
    return { day, ...rated[0]!, complete }
  })
}

function dryDay(day: number, unknownHours: number): BotrytisDay {
  const dry = unknownHours === 0 ? botrytisInfection(0, 0) : { logit: null, index: null, risk: null }
  const why = unknownHours === 0 ? 'not wet' : 'wetness unknown'
  return {
    day,
    ...dry,
    why,
    wetHours: 0,
    temperature: null,
    complete: unknownHours === 0,
  }
}

function rate({ wetHours, temperature }: WetSpell) {
  const facts = { wetHours, temperature }
  if (temperature !== null) return { ...facts, ...botrytisInfection(wetHours, temperature) }
  return { ...facts, logit: null, index: null, risk: null, why: 'no temperature while wet' as const }
}
