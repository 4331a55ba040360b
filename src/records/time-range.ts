/** The clock times of a job, in minutes after midnight; `end` may pass 1440 where it ended on the next day. */
export interface TimeRange {
  start: number
  /** null where only the start was written. */
  end: number | null
}

const SHAPE = /^(\d{1,2}):(\d{2})(?:\s*[-\u2013]\s*(\d{1,2}):(\d{2})(\s*\+\s*1)?)?$/

type TimeRangeResult =
  | { range: TimeRange; fault?: undefined }
  | { range?: undefined; fault: { message: string; help: string } }

/**
 * Reads `18:40-20:05`, `18:40`, or `22:30-01:10 +1` for a job that ended on the next day.
 * @returns minutes after midnight of the first day, or what is wrong and the way out.
 */
export function readTimeRange(text: string): TimeRangeResult {
  const match = SHAPE.exec(text.trim())
  if (!match) return { fault: { message: `\`${text}\` is not a time`, help: 'write it as `18:40-20:05`' } }
  const start = clock(match[1]!, match[2]!)
  const end = match[3] === undefined ? null : clock(match[3], match[4]!)
  if (start === null || (match[3] !== undefined && end === null)) {
    return {
      fault: {
        message: `\`${text}\` is not a time of day`,
        help: 'hours run from 00 to 23, minutes from 00 to 59',
      },
    }
  }
  if (end === null) return { range: { start, end } }
  if (match[5]) return { range: { start, end: end + 1440 } }
  if (end <= start) {
    return {
      fault: {
        message: `\`${text}\` ends before it starts`,
        help: `if it ended on the next day, write \`${text.trim()} +1\``,
      },
    }
  }
  return { range: { start, end } }
}

/** `18:40` from minutes after midnight, on whichever day. */
export function clockText(minutes: number): string {
  const inDay = ((minutes % 1440) + 1440) % 1440
  return `${String(Math.floor(inDay / 60)).padStart(2, '0')}:${String(inDay % 60).padStart(2, '0')}`
}

function clock(hour: string, minute: string): number | null {
  const [h, m] = [Number(hour), Number(minute)]
  return h < 24 && m < 60 ? h * 60 + m : null
}
