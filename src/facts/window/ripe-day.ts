import type { IsoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import type { BlockWindow } from './block-window.ts'
import { HORIZON } from './sugar-window.ts'

type Of = 'acid' | 'ph'
type Windows = Pick<BlockWindow, 'likely' | Of>

const COMES = { acid: 'acid falls to', ph: 'pH rises to' } as const
const UNIT = { acid: ' g/L', ph: '' } as const

/** Which of acid and pH are known to come into range after sugar. */
const laterOf = (window: Windows): Of[] =>
  (['acid', 'ph'] as const).filter((of) => {
    const one = window[of]
    return (
      one && !one.reached && (one.likely === null || window.likely === null || one.likely > window.likely)
    )
  })

/**
 * The likely day on which sugar, and acid and pH if they have targets and three days of
 * measurements, have all reached their targets; null where one of them has no likely day.
 */
export function ripeDay(window: Windows): IsoDate | null {
  const days = [window.likely, ...laterOf(window).map((of) => window[of]!.likely)]
  return days.includes(null) ? null : (days.sort().at(-1) ?? null)
}

/** `pH rises to 3.1 later, about Fri 2 Oct`; null where nothing known comes after sugar. */
export function laterText(window: Windows): string | null {
  const said = laterOf(window).map((of) => {
    const { target, likely } = window[of]!
    const comes = `${COMES[of]} ${target}${UNIT[of]} later`
    return likely === null
      ? `${comes}, not likely within ${HORIZON} days`
      : `${comes}, about ${spokenDate(likely)}`
  })
  return said.length > 0 ? said.join('; ') : null
}
