import { fault, type Read } from '../fault.ts'

/** The clock times of a job, in minutes after midnight; `end` may pass 1440 where it ended on the next day. */
export interface TimeRange {
  start: number
  /** null where only the start was written. */
  end: number | null
}

/** One clock time as people write it: `18:40`, `18.40`, `18h40`, `1840`, `6:40pm`, `6 pm`. */
const CLOCK = String.raw`(\d{1,2})(?:[:.h]?(\d{2})|[.](\d))?(?:\s*([ap]\.?m\.?))?`
const SHAPE = new RegExp(`^${CLOCK}(?:\\s*(?:[-\\u2013]|to)\\s*${CLOCK}(\\s*\\+\\s*1)?)?$`, 'i')

/**
 * Reads the clock times of a job: `18:40-20:05`, `18:40`, `6:30pm-7:10pm`, `6:30-7:10 pm`, `18.30`, or
 * `22:30-01:10 +1` for a job that ended on the next day. YAML drops the last zero of `18.30`: `18.3` is the same.
 * @returns minutes after midnight of the first day, or what is wrong and the way out.
 */
export function readTimeRange(text: string): Read<{ range: TimeRange }> {
  const match = SHAPE.exec(text.trim())
  if (!match) return fault(`\`${text}\` is not a time`, 'write it as `18:40-20:05`')
  const [, hour, minute, tens, half, endHour, endMinute, endTens, endHalf, next] = match
  const isOpen = endHour === undefined
  const end = isOpen ? null : clock({ hour: endHour, minute: endMinute, tens: endTens, half: endHalf })
  let start = clock({ hour: hour!, minute, tens, half: half ?? endHalf })
  if (start === null || (end === null && !isOpen))
    return fault(`\`${text}\` is not a time of day`, 'hours run from 00 to 23, minutes from 00 to 59')
  if (end === null) return { range: { start, end } }
  // Where only the end has am or pm (`11:30-1:10 pm`), the start is the last such time before it.
  const isLent = half === undefined && endHalf !== undefined
  if (isLent && start >= end && start >= 720) start -= 720
  if (next) return { range: { start, end: end + 1440 } }
  if (end <= start)
    return fault(
      `\`${text}\` ends before it starts`,
      `if it ended on the next day, write \`${text.trim()} +1\``,
    )
  return { range: { start, end } }
}

/** A range as written in a file: `18:40-20:05`, with ` +1` where it ends on the next day. */
export function timeRangeText({ start, end }: TimeRange): string {
  if (end === null) return clockText(start)
  return `${clockText(start)}-${clockText(end)}${end >= 1440 ? ' +1' : ''}`
}

/** `18:40` from minutes after midnight, on any day. */
export function clockText(minutes: number): string {
  const inDay = ((minutes % 1440) + 1440) % 1440
  return `${String(Math.floor(inDay / 60)).padStart(2, '0')}:${String(inDay % 60).padStart(2, '0')}`
}

interface Typed {
  hour: string
  minute: string | undefined
  tens: string | undefined
  /** am or pm. */
  half: string | undefined
}

function clock({ hour, minute, tens, half }: Typed): number | null {
  const typed = Number(hour)
  const minutes = tens === undefined ? Number(minute ?? 0) : Number(tens) * 10
  if (minutes > 59 || typed > 23 || (half !== undefined && (typed > 12 || typed === 0))) return null
  if (half === undefined) return typed * 60 + minutes
  return ((typed % 12) + (/^p/i.test(half) ? 12 : 0)) * 60 + minutes
}
