import { daysBetween, type IsoDate } from '../../records/date.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import type { AcidWindow } from './acid-window.ts'
import type { BlockWindow } from './block-window.ts'
import { laterText } from './ripe-day.ts'
import { HORIZON, REACHED } from './sugar-window.ts'
import type { Use } from './uses.ts'

/** Chance from which the target may be reached any day. Own choice, no source. */
const ANY_DAY = 0.25

/** What an open end means: nothing is calculated beyond. */
const MAY_NOT = `it may not get there within ${HORIZON} days`

const percent = (share: number) => `${Math.round(100 * share)} %`

/** When a block reaches its target, in one sentence that follows its name, and what comes later. */
export function windowText(window: BlockWindow): string {
  const later = window.why === null && !window.picked ? laterText(window) : null
  return later ? `${sugarText(window)}; ${later}` : sugarText(window)
}

function sugarText(window: BlockWindow): string {
  const { target, earliest, likely, latest, today } = window
  if (window.why !== null) return 'no date available'
  const goal = `${target} Brix`
  if (earliest === null) return `is unlikely to reach ${goal} within ${HORIZON} days`
  if (today !== null && today >= REACHED)
    return `has very likely reached ${goal}, about ${spokenDate(likely!)}`
  if (today !== null && today >= ANY_DAY) {
    const sure = latest === null ? `; ${MAY_NOT}` : `; 19 times in 20 by ${spokenDate(latest)}`
    const most = likely !== null && today < 0.5 ? `; most likely by ${spokenDate(likely)}` : ''
    return `may reach ${goal} any day (${percent(today)} chance that it has)${most}${sure}`
  }
  if (likely === null)
    return `is unlikely to reach ${goal} before ${spokenDate(earliest)}, and may not get there within ${HORIZON} days`
  if (latest === null)
    return `reaches ${goal} about ${spokenDate(likely)}, not before ${spokenDate(earliest)}; ${MAY_NOT}`
  return `reaches ${goal} about ${spokenDate(likely)} (${shortDate(earliest)} to ${shortDate(latest)}, 9 times in 10)`
}

const USES: Record<Use, string> = {
  samples: 'samples',
  berries: 'berries in each',
  replicates: 'spread between readings',
  temperature: 'temperature of the readings',
  'field-to-press': 'field-to-press difference',
  veraison: 'veraison',
  flowering: 'flowering and the usual time from there to veraison',
  'usual-bloom': 'the usual time of bloom here and from there to veraison',
  'past-dates': 'the dates when this block ripened in past seasons',
  weather: 'weather so far',
  forecast: 'forecast',
  'past-seasons': 'past seasons of this block',
  variety: 'past seasons of its variety',
}

/** What the window is based on, in one sentence. */
export function usesText({ uses, learnedFrom }: BlockWindow): string {
  const parts = uses.map((use) => {
    const seasons = use === 'past-seasons' || use === 'variety'
    return seasons ? `${USES[use]} (${learnedFrom.toSorted((a, b) => a - b).join(', ')})` : USES[use]
  })
  return `Based on ${parts.join(', ')}.`
}

/**
 * How much one more sample would narrow the window, in one sentence; null where none is needed. No other record narrows
 * a window as much: tests/reports/window compares it with a note of veraison, weather and more.
 */
export function nextSampleText({ next_sample: next }: BlockWindow, asOf: IsoDate): string | null {
  if (!next) return null
  const days = Math.round(next.narrows_days)
  const worth =
    days < 1
      ? 'it narrows the window by less than a day'
      : `it narrows the window by ${days} day${days === 1 ? '' : 's'}, more than any other record`
  const when = daysBetween(asOf, next.date) === 0 ? 'today' : `on ${spokenDate(next.date)}`
  return `Sample ${next.berries} berries ${when}: ${worth}.`
}

/** When acid and pH come into their ranges, one sentence each. */
export function acidText({ acid, ph }: Pick<BlockWindow, 'acid' | 'ph'>, asOf: IsoDate): string[] {
  return [
    ...(acid ? [sayRange(acid, asOf, { name: 'Acid', comes: 'falls', came: 'fallen', unit: ' g/L' })] : []),
    ...(ph ? [sayRange(ph, asOf, { name: 'pH', comes: 'rises', came: 'risen', unit: '' })] : []),
  ]
}

const figureOfPh = (ph: number) => (Number.isInteger(ph) ? ph.toFixed(1) : String(ph))

function sayRange(
  window: AcidWindow,
  asOf: IsoDate,
  { name, comes, came, unit }: { name: string; comes: string; came: string; unit: string },
): string {
  const { target, likely, reached } = window
  const isPast = likely !== null && likely <= asOf
  const verb = isPast ? `has ${reached ? '' : 'likely '}${came}` : comes
  // One sample may be there before the mean of the block likely is.
  const already = reached && !isPast ? '; the last sample was there already' : ''
  return `${name} ${verb} to ${unit === '' ? figureOfPh(target) : target}${unit} ${span(window)}${already}.`
}

function span({ earliest, likely, latest }: AcidWindow): string {
  if (earliest === null) return `not within ${HORIZON} days`
  if (likely === null)
    return `not before ${spokenDate(earliest)}, and may not get there within ${HORIZON} days`
  if (latest === null) return `about ${spokenDate(likely)}, not before ${spokenDate(earliest)}; ${MAY_NOT}`
  return `about ${spokenDate(likely)} (${shortDate(earliest)} to ${shortDate(latest)}, 9 times in 10)`
}
