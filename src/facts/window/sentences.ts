import type { IsoDate } from '../../records/date.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import { daysText } from '../sentences.ts'
import { type BlockWindow, REACHED } from './block-window.ts'
import { HORIZON } from './target-days.ts'

/** Chance from which the target may be reached any day. Own choice, no source. */
const ANY_DAY = 0.25

/** What an open end means: nothing is calculated beyond. */
const MAY_NOT = `may not get there within ${HORIZON} days`

const percent = (share: number) => `${Math.round(100 * share)} %`

const ACIDS = {
  acid: { name: 'acid', comes: 'falls to', came: 'fallen to', unit: ' g/L' },
  ph: { name: 'pH', comes: 'rises to', came: 'risen to', unit: '' },
} as const

type Acid = keyof typeof ACIDS
/** `7.5 g/L`, or a pH with one decimal at least. */
const figureOf = (of: Acid, value: number) =>
  `${of === 'ph' && Number.isInteger(value) ? value.toFixed(1) : value}${ACIDS[of].unit}`

type Windows = Pick<BlockWindow, 'likely' | Acid>

/** Which of acid and pH are known to come into range after sugar. */
const laterOf = (window: Windows) =>
  (['acid', 'ph'] as const).flatMap((of) => {
    const one = window[of]
    if (!one || one.reached) return []
    const isLater = one.likely === null || window.likely === null || one.likely > window.likely
    return isLater ? { of, target: one.target, likely: one.likely } : []
  })

/**
 * The likely day on which sugar, and acid and pH if they have targets and three days of
 * measurements, have all reached their targets; null where one of them has no likely day.
 */
export function ripeDay(window: Windows): IsoDate | null {
  const days = [window.likely, ...laterOf(window).map(({ likely }) => likely)]
  return days.includes(null) ? null : days.sort().at(-1)!
}

/** `pH rises to 3.1 later, about Fri 2 Oct`; null where nothing known comes after sugar. */
export function laterText(window: Windows): string | null {
  const said = laterOf(window).map(({ of, target, likely }) => {
    const when = likely === null ? `not likely within ${HORIZON} days` : `about ${spokenDate(likely)}`
    return `${ACIDS[of].name} ${ACIDS[of].comes} ${figureOf(of, target)} later, ${when}`
  })
  return said.length > 0 ? said.join('; ') : null
}

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
    const sure = latest === null ? `it ${MAY_NOT}` : `19 times in 20 by ${spokenDate(latest)}`
    const most = likely !== null && today < 0.5 ? `; most likely by ${spokenDate(likely)}` : ''
    return `may reach ${goal} any day (${percent(today)} chance that it has)${most}; ${sure}`
  }
  return likely === null
    ? `is unlikely to reach ${goal} before ${spokenDate(earliest)}, and ${MAY_NOT}`
    : `reaches ${goal} ${likelyText(window, likely)}`
}

/** The likely day and its range: `about Fri 2 Oct (20 Sep to 9 Oct, 9 times in 10)`. */
function likelyText(
  { earliest, latest }: { earliest: IsoDate | null; latest: IsoDate | null },
  likely: IsoDate,
): string {
  const about = `about ${spokenDate(likely)}`
  return latest === null
    ? `${about}, not before ${spokenDate(earliest!)}; it ${MAY_NOT}`
    : `${about} (${shortDate(earliest!)} to ${shortDate(latest)}, 9 times in 10)`
}

/**
 * How much one more sample would narrow the window, in one sentence; null where none is needed. No other record narrows
 * a window as much: tests/reports/window compares it with a note of veraison, weather and more.
 */
export function nextSampleText({ next_sample: next }: BlockWindow, asOf: IsoDate): string | null {
  if (!next) return null
  const days = Math.round(next.narrows_days)
  const worth = days < 1 ? 'less than a day' : `${daysText(days)}, more than any other record`
  const when = next.date === asOf ? 'today' : `on ${spokenDate(next.date)}`
  return `Sample ${next.berries} berries ${when}: it narrows the window by ${worth}.`
}

/** When acid and pH come into their ranges, one sentence each. */
export const acidText = (windows: Pick<BlockWindow, Acid>, asOf: IsoDate): string[] =>
  (['acid', 'ph'] as const).flatMap((of) => {
    const window = windows[of]
    if (!window) return []
    const { target, earliest, likely, reached } = window
    const { name, comes, came } = ACIDS[of]
    const isPast = likely !== null && likely <= asOf
    const verb = isPast ? `has ${reached ? '' : 'likely '}${came}` : comes
    const when =
      earliest === null
        ? `not within ${HORIZON} days`
        : likely === null
          ? `not before ${spokenDate(earliest)}, and ${MAY_NOT}`
          : likelyText(window, likely)
    // One sample may be there before the mean of the block likely is.
    const already = reached && !isPast ? '; the last sample was there already' : ''
    return `${name === 'acid' ? 'Acid' : name} ${verb} ${figureOf(of, target)} ${when}${already}.`
  })
