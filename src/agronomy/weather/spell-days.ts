import { daysOfHours, type EveryHour } from './weather-hours.ts'
import type { WetHours } from './wet-hours.ts'
import { spellUpTo, type WetSpell, wetSpells } from './wet-spells.ts'

export interface SpellDay {
  day: number
  /** The wet spells with a wet hour on this day, each as it stood at the day's last wet hour. */
  spells: WetSpell[]
  /** Hours of the day with unknown wetness. */
  unknownHours: number
}

/** For each day the wet spells that end or run on it. */
export function spellDays(hours: EveryHour, wetness: WetHours): SpellDay[] {
  const spells = wetSpells(hours, wetness)
  let next = 0
  return daysOfHours(hours).map(({ day, first, last }) => {
    while (next < spells.length && spells[next]!.last < first) next++
    const onDay: WetSpell[] = []
    for (let at = next; at < spells.length && spells[at]!.first <= last; at++)
      onDay.push(spellUpTo(hours, wetness, { spell: spells[at]!, last }))
    let unknownHours = 0
    for (let at = first; at <= last; at++) if (wetness.wet[at] === null) unknownHours++
    return { day, spells: onDay.filter((spell) => spell.last >= first), unknownHours }
  })
}
