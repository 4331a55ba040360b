import type { EveryHour } from './weather-hours.ts'
import type { WetHours } from './wet-hours.ts'

/** A wet period; positions are those of the series. */
export type WetSpell = ReturnType<typeof measureSpell>

/** Dry hours that a spell bridges: Broome et al. 1995, Phytopathology 85:97-102, for botrytis, as read in two public research codes. */
const DRY_GAP = 4

/**
 * Wet spells of a series. A spell ends at a dry time longer than it bridges. No source says whether the bridged dry
 * hours count as wet; here they don't.
 */
export function wetSpells(hours: EveryHour, { wet }: WetHours): WetSpell[] {
  const spells: WetSpell[] = []
  for (let at = 0; at < wet.length; at++) {
    if (wet[at] !== true) continue
    const first = at
    let last = at
    for (; at < wet.length && at - last <= DRY_GAP + 1; at++) if (wet[at] === true) last = at
    const to = Math.min(last + DRY_GAP + 1, wet.length - 1)
    spells.push(measureSpell(hours, wet, { first, last, from: first - DRY_GAP - 1, to }))
    at = last
  }
  return spells
}

/** The part of a spell up to and including position `last`. */
export function spellUpTo(
  hours: EveryHour,
  { wet }: WetHours,
  { spell, last }: { spell: WetSpell; last: number },
): WetSpell {
  if (last >= spell.last) return spell
  const { first } = spell
  return measureSpell(hours, wet, { first, last, from: first - DRY_GAP - 1, to: last })
}

/** `from` and `to` enclose the hours that must be known: the spell and the dry gaps that bound it. */
function measureSpell(
  hours: EveryHour,
  wet: WetHours['wet'],
  span: { first: number; last: number; from: number; to: number },
) {
  let wetCount = 0
  let sum = 0
  let known = 0
  let rain: number | null = 0
  let last = span.first
  for (let at = span.first; at <= span.last; at++) {
    const hour = hours[at]!
    rain = rain === null || hour.rain === null ? null : rain + hour.rain
    if (wet[at] !== true) continue
    wetCount++
    last = at
    if (hour.temperature === null) continue
    sum += hour.temperature
    known++
  }
  // What came before the record is unknown.
  let complete = span.from >= 0 && known === wetCount
  for (let at = Math.max(0, span.from); at <= span.to; at++) if (wet[at] === null) complete = false
  return {
    /** First and last wet hour. */
    first: span.first,
    last,
    /** Hours wet; dry hours that the spell bridges are not counted. */
    wetHours: wetCount,
    /** Mean °C of the wet hours with a reading; null where none has one. */
    temperature: known > 0 ? sum / known : null,
    /** mm in the spell; null where an hour's rain is unknown. */
    rain,
    /** False where an unknown hour could have lengthened the spell, or a wet hour has no temperature. */
    complete,
  }
}
