import { addDays, daysBetween, type IsoDate } from '../../records/date.ts'
import type { CourseChart, CoursePanel, CoursePoint } from '../charts/course-chart.ts'

/** One sample's figures, for a ripening chart. */
interface RipeningPoint {
  date: IsoDate
  brix: number | null
  brixLow: number | null
  brixHigh: number | null
  /** g/L; null where not measured. */
  ta: number | null
  ph: number | null
}

interface Wanted {
  low: number
  high: number
}

export interface RipeningInput {
  title: string
  points: readonly RipeningPoint[]
  /** Rates fitted to the last samples, drawn with their spread. */
  trends?: { brix?: CoursePoint[]; ta?: CoursePoint[]; ph?: CoursePoint[] }
  targets?: { brix?: Wanted | null; ta?: Wanted | null; ph?: Wanted | null }
  /** When the sugar is expected to reach its target. */
  window?: { earliest: IsoDate | null; likely: IsoDate | null; latest: IsoDate | null }
  legalFrom?: IsoDate | null
}

/** Most days after the last sample to draw; a window may end later. */
const MOST_AHEAD = 45

/** Sugar, acid and pH of one block against time; null where nothing was measured. */
export function ripeningChart({
  title,
  points,
  trends,
  targets,
  window,
  legalFrom,
}: RipeningInput): CourseChart | null {
  const days = points.filter(({ brix, ta, ph }) => brix !== null || ta !== null || ph !== null)
  const [first, last] = [days[0]?.date, days.at(-1)?.date]
  if (first === undefined || last === undefined) return null
  const limit = addDays(last, MOST_AHEAD)
  const marks =
    legalFrom && legalFrom >= first && legalFrom <= limit
      ? [{ date: legalFrom, label: 'may be picked from' }]
      : []
  const spread = windowOf(window, { first, limit })
  const ends = [last, spread?.latest ?? last, ...marks.map(({ date }) => date)].sort()
  const plain = (of: 'ta' | 'ph') =>
    days.flatMap((day): CoursePoint[] => {
      const value = day[of]
      return value === null ? [] : [{ date: day.date, value, low: null, high: null }]
    })
  const panels: CoursePanel[] = [
    {
      name: 'Sugar',
      unit: 'Brix',
      points: days.flatMap(({ date, brix, brixLow, brixHigh }) =>
        brix === null ? [] : [{ date, value: brix, low: brixLow, high: brixHigh }],
      ),
      target: targets?.brix ?? undefined,
      trend: trendOf(trends?.brix),
    },
    {
      name: 'Acid as tartaric',
      unit: 'g/L',
      points: plain('ta'),
      target: targets?.ta ?? undefined,
      trend: trendOf(trends?.ta),
    },
    {
      name: 'pH',
      unit: '',
      points: plain('ph'),
      target: targets?.ph ?? undefined,
      trend: trendOf(trends?.ph),
    },
  ]
  const room = Math.max(1, Math.round(daysBetween(first, ends.at(-1)!) / 40))
  return {
    title,
    from: addDays(first, -room),
    to: addDays(ends.at(-1)!, room),
    panels: panels.filter((panel) => panel.points.length > 0),
    window: spread,
    marks,
  }
}

const trendOf = (points: CoursePoint[] | undefined): CoursePanel['trend'] =>
  points && points.length > 1 ? { name: 'rate, 95 % interval of the mean', points } : undefined

/** The part of the window that fits the chart; none where it is too far off or has no spread. */
function windowOf(
  window: RipeningInput['window'],
  { first, limit }: { first: IsoDate; limit: IsoDate },
): CourseChart['window'] {
  if (!window?.earliest || !window.likely || !window.latest) return undefined
  const { earliest, likely, latest } = window
  if (earliest < first || latest > limit) return undefined
  return { name: 'target reached, 90 % interval', earliest, likely, latest }
}
