import { dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import type { LegalFrom } from '../spraying/legal-from.ts'
import { sayOverLabel } from '../spraying/over-label.ts'
import type { Combined } from './combine.ts'
import type { MethodDays } from './method.ts'
import type { TrendAnswer } from './sugar-trend.ts'

const NAMES = {
  'sugar-trend': 'the samples',
  'heat-sum': 'heat',
  'days-after-veraison': 'the days after veraison',
} as const

/** What stands against each other in a block's window, in sentences. */
export function conflictsOf(of: {
  methods: readonly MethodDays[]
  combined: Combined
  legal: LegalFrom
  trend: TrendAnswer
  lastBrix: number | null
  target: number
  asOf: IsoDate
}): string[] {
  return [...legalConflicts(of), ...disagreement(of), ...standingStill(of)]
}

function legalConflicts({ combined, legal }: Parameters<typeof conflictsOf>[0]): string[] {
  const lines: string[] = []
  if (legal.overLabel.length > 0) lines.push(sayOverLabel(legal.overLabel))
  if (legal.unknown.length > 0)
    lines.push(
      `The days before harvest of ${legal.unknown.join(' and ')} are not in the book; read the label before a date is set.`,
    )
  if (legal.date === null || legal.by === null) return lines
  const from = dayOf(legal.date)
  const why = `${legal.by.product}, sprayed ${spokenDate(legal.by.sprayed)}, allows picking from ${spokenDate(legal.date)}`
  if (combined.latest !== null && combined.latest < from)
    lines.push(`The window closes on ${spokenDate(isoDate(combined.latest))}, before ${why}.`)
  else if (combined.likely !== null && combined.likely < from)
    lines.push(`The likely day, ${spokenDate(isoDate(combined.likely))}, comes before ${why}.`)
  return lines
}

function disagreement({ methods, combined }: Parameters<typeof conflictsOf>[0]): string[] {
  if (!combined.disagree) return []
  const told = methods.filter(({ likely }) => likely !== null).toSorted((a, b) => a.likely! - b.likely!)
  const parts = told.map(({ method, likely }) => `${NAMES[method]} ${spokenDate(isoDate(likely!))}`)
  return [
    `The methods disagree by more than chance: ${parts.join(', ')}. The interval is widened to hold that; sample again.`,
  ]
}

function standingStill({ trend, lastBrix, target }: Parameters<typeof conflictsOf>[0]): string[] {
  if (trend.tooFar)
    return [
      `By the samples ${target} Brix is more than the horizon away; the other methods cannot know that.`,
    ]
  if (trend.likely !== null || trend.trend === null || trend.trend.used < 3) return []
  if (lastBrix !== null && lastBrix >= target) return []
  return ['Sugar has not risen beyond the noise of sampling, so that the date rests on the calendar alone.']
}
