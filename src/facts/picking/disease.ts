import { incidence } from '../../agronomy/disease/incidence.ts'
import type { Ledger, Named, WalkEntry } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/block.ts'
import { daysBetween } from '../../records/date.ts'
import { ORGANS } from '../../records/scouting.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { DISEASES, type Disease } from '../../records/target.ts'
import { thresholdOf } from '../threshold.ts'
import { type Asked, type Gate, OLDEST } from './gate.ts'

interface Seen {
  disease: Disease
  organ: 'bunches' | 'leaves'
  found: number
  looked: number
  share: number
  high: number
  threshold: { share: number; source: string }
}

/** Whether the last walk is recent, looked at bunches, and found less than the threshold. */
export function diseaseGate({ ledger, block, season, asOf }: Asked): Gate {
  const walks = ledger.scouting.filter(
    (walk) => walk.block === block.id && walk.season === season && walk.date <= asOf,
  )
  const walk = walks.at(-1)
  const unknown = (detail: string, short: string): Gate => ({
    gate: 'disease',
    state: 'unknown',
    detail,
    short,
    todo: 'Walk the rows, look at 100 bunches, and enter what you find.',
  })
  if (!walk) return unknown('no walk is in the book this season', 'no walk')
  const age = daysBetween(walk.date, asOf)
  if (age > OLDEST.walk) {
    const detail = `no walk since ${spokenDate(walk.date)}, ${age} days ago; one of the last ${OLDEST.walk} days is asked for (common practice, no source)`
    return unknown(detail, `no walk\nsince ${spokenDate(walk.date).slice(4)}`)
  }
  const latest = walks.filter(({ date }) => date === walk.date)
  const seen = latest.flatMap((one) => seenOn(one, { ledger, block }))
  const bunches = Math.max(0, ...latest.map((one) => one.looked_at.bunches ?? 0))
  const above = seen.filter(({ share, threshold }) => share > threshold.share)
  if (above.length > 0) {
    const worst = above.toSorted((a, b) => b.share / b.threshold.share - a.share / a.threshold.share)[0]!
    const detail = `${above.map(spoken).join('; ')}, walked ${spokenDate(walk.date)}`
    const todo = `Sort out or leave what is ill, find how far it reaches, and ask whoever takes the grapes.`
    return { gate: 'disease', state: 'fail', detail, short: short(worst), todo }
  }
  if (bunches === 0) return unknown(`no bunches were looked at on ${spokenDate(walk.date)}`, 'no bunches')
  const uncounted = latest.flatMap(uncountedOn)
  if (uncounted.length > 0)
    return unknown(
      `${uncounted.join(' and ')} noted on ${spokenDate(walk.date)} without a count of bunches or leaves`,
      'no count',
    )
  const worst = seen.toSorted((a, b) => b.share / b.threshold.share - a.share / a.threshold.share)[0]
  const what = seen.length === 0 ? `nothing found in ${bunches} bunches` : seen.map(spoken).join('; ')
  return {
    gate: 'disease',
    state: 'pass',
    todo: null,
    detail: `${what}, walked ${spokenDate(walk.date)}, ${age} day${age === 1 ? '' : 's'} ago`,
    short: worst ? short(worst) : `0 of ${bunches}`,
  }
}

function seenOn(walk: WalkEntry, { ledger, block }: { ledger: Ledger; block: Named<Block> }): Seen[] {
  return DISEASES.flatMap((disease) =>
    (['bunches', 'leaves'] as const).flatMap((organ) => {
      const found = walk.found[disease]?.[organ]
      const looked = walk.looked_at[organ]
      if (found === undefined || looked === undefined) return []
      const { share: limit, source } = thresholdOf(ledger, { block: block.id, disease, organ })
      if (limit === null) return []
      const { incidence: share, high } = incidence(found, looked)!
      return [{ disease, organ, found, looked, share, high, threshold: { share: limit, source } }]
    }),
  )
}

/** Diseases that a walk names by surface or place alone: how many bunches have them isn't known. */
function uncountedOn({ found }: WalkEntry): Disease[] {
  return DISEASES.filter((disease) => {
    const one = found[disease]
    return one !== undefined && ORGANS.every((organ) => one[organ] === undefined)
  })
}

const percent = (share: number) => `${Number((share * 100).toFixed(1))} %`

const spoken = ({ disease, organ, found, looked, high, threshold }: Seen) =>
  `${disease} on ${found} of ${looked} ${organ} (up to ${percent(high)}, 95 %) against ${percent(threshold.share)} (${threshold.source})`

const short = ({ found, looked }: Seen) => `${found} of ${looked}`
