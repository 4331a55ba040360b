import type { SpellDay } from '../weather/spell-days.ts'
import type { WetSpell } from '../weather/wet-spells.ts'
import { botrytisInfection } from './botrytis-infection.ts'

/**
 * Botrytis on a day: of the wet spells that end or run on it, as they stood by its end, the worst. A spell without a value
 * comes after low risk and before none, so that no "none" hides it. Model and limits as in `botrytisInfection`; a dry gap
 * longer than 4 h ends a spell.
 */
export function botrytisOfSpell({ day, spells, unknownHours }: SpellDay) {
  const isKnown = unknownHours === 0
  const dry = isKnown ? botrytisInfection(0, 0) : { ...NO_VALUE, why: 'wetness unknown' as const }
  const [worst = { ...dry, wetHours: 0, temperature: null }] = spells
    .map(rate)
    .sort((a, b) => (b.logit ?? 0) - (a.logit ?? 0))
  return { day, ...worst, complete: isKnown && spells.every(({ complete }) => complete) }
}

const NO_VALUE = { logit: null, index: null, risk: null }

/** A spell's hours wet and its mean °C while wet, and what the model makes of them. */
function rate({ wetHours, temperature }: WetSpell) {
  const found =
    temperature === null
      ? { ...NO_VALUE, why: 'no temperature while wet' as const }
      : botrytisInfection(wetHours, temperature)
  return { wetHours, temperature, ...found }
}
