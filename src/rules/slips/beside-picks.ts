import { countBefore, groupedBy, type JudgedLedger } from '../../facts/judged.ts'
import { readSample } from '../../facts/ripeness/sample.ts'
import type { PickEntry, SampleEntry, StageEntry } from '../../ledger/read/ledger.ts'
import { addDays, daysBetween } from '../../records/date.ts'

/** Records to compare picks with, looked up once for all picks; each list oldest first. */
export interface Seen {
  /** By block. */
  samples: ReadonlyMap<string, SampleEntry[]>
  /** By block and season, up to the day of looking. */
  turned: ReadonlyMap<string, StageEntry>
  green: ReadonlyMap<string, StageEntry>
  picks: ReadonlyMap<string, PickEntry[]>
}

/** Looks up the records to compare picks with. */
export function beside({ ledger, asOf }: JudgedLedger): Seen {
  const stages = ledger.stages.filter(({ date }) => date <= asOf)
  const turned = stages.filter(({ stage }) => stage >= 81)
  return {
    samples: groupedBy(ledger.samples, ({ block }) => block),
    turned: new Map(turned.toReversed().map((one) => [seasonKey(one), one])),
    green: new Map(stages.filter(({ stage }) => stage < 81).map((one) => [seasonKey(one), one])),
    picks: groupedBy(
      ledger.picks.filter(({ date }) => date <= asOf),
      seasonKey,
    ),
  }
}

/** One block in one season. */
export const seasonKey = ({ block, season }: { block: string; season: number }) => `${block} ${season}`

/** The last sample of ten days up to a pick that gives a reading. */
export function sampleBefore({ samples }: Seen, { block, date }: PickEntry): SampleEntry | undefined {
  const list = samples.get(block) ?? []
  for (let at = countUpTo(list, date) - 1; at >= 0; at--) {
    const one = list[at]!
    if (daysBetween(one.date, date) > 10) return undefined
    if (readSample(one).reading !== null) return one
  }
  return undefined
}

/** How many entries of a list, oldest first, are of a day or earlier. */
export const countUpTo = (list: readonly { date: string }[], date: string): number =>
  countBefore(list, addDays(date, 1), (one) => one.date)
