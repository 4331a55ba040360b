import type { Ledger } from '../../ledger/read/ledger.ts'
import { addDays, type IsoDate } from '../../records/date.ts'
import type { Disease } from '../../records/target.ts'

/** From which stage a block needs cover against a disease, and from which no more. */
const STAGES: Record<Disease, { from: number; to: number }> = {
  // New infection of berries ends about veraison: Gubler, in a UCCE Central Sierra bulletin (read); leaves go on.
  powdery: { from: 13, to: 81 },
  downy: { from: 13, to: 89 },
  botrytis: { from: 61, to: 89 },
  // Fruit is susceptible from bloom to 3-5 weeks after it: Michigan State University (read); leaves from the start.
  'black-rot': { from: 13, to: 81 },
  phomopsis: { from: 7, to: 71 },
}

/** Days for which a stage too early to need cover is believed; then cover counts as needed. Our own choice. */
const STAGE_LASTS = 21

interface NeededSpan {
  from: IsoDate
  /** Last day; that of the report where nothing ended the need. */
  to: IsoDate
  /** What ended it, or why it can't be told when it began. */
  why: string
}

/** The days on which a block needs cover: by its growth stages, until it is picked. */
export function neededSpan(
  ledger: Ledger,
  {
    block,
    disease,
    season,
    start,
    asOf,
  }: { block: string; disease: Disease; season: number; start: IsoDate; asOf: IsoDate },
): NeededSpan {
  const stages = ledger.stages.filter((entry) => entry.block === block && entry.season === season)
  const { from, to } = STAGES[disease]
  const first = stages.find(({ stage, date }) => stage >= from && stage < 90 && date <= asOf)
  const over = stages.find(({ stage, date }) => stage >= to && date <= asOf)
  const picks = ledger.picks.filter(
    (entry) => entry.block === block && entry.season === season && entry.date <= asOf,
  )
  const picked = picks.at(-1)?.date
  const ends = [
    { date: asOf, why: 'still needed' },
    ...(over ? [{ date: over.date, why: `stage ${over.stage} on ${over.date}` }] : []),
    ...(picked ? [{ date: picked, why: `picked on ${picked}` }] : []),
  ]
  const end = ends.reduce((best, one) => (one.date < best.date ? one : best))
  const before = stages.findLast(({ stage, date }) => stage < from && date <= asOf)
  const otherwise = before ? addDays(before.date, STAGE_LASTS) : start
  const began = first
    ? ''
    : before
      ? `; stage ${before.stage} on ${before.date} is the last entered, so from three weeks after it`
      : `; no stage from ${from} on is entered, so from ${start}`
  return { from: first?.date ?? otherwise, to: end.date, why: end.why + began }
}
