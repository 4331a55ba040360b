import { daysOfHours, type EveryHour } from './weather-hours.ts'
import type { WetHours } from './wet-hours.ts'
import { spellUpTo, type WetSpell, wetSpells } from './wet-spells.ts'

/** For each day the wet spells that end or run on it. */
export function spellDays(hours: EveryHour, wetness: WetHours) {
  const spells = wetSpells(hours, wetness)
  let next = 0
  return daysOfHours(hours).map(({ day, first, last }) => {
    while (next < spells.length && spells[next]!.last < first) next++
    const onDay: WetSpell[] = []
    for (let at = next; at < spells.length && spells[at]!.first <= last; at++)
      onDay.push(spellUpTo(hours, wetness, { spell: spells[at]!, last }))
    return {
      day,
      /** The wet spells with a wet hour on this day, each as it stood at the day's last wet hour. */
      spells: onDay.filter((spell) => spell.last >= first),
      /** Hours of the day with unknown wetness. */
      unknownHours: wetness.wet.slice(first, last + 1).filter((wet) => wet === null).length,
    }
  })
}

export type SpellDay = ReturnType<typeof spellDays>[number]
