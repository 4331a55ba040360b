import { highest } from '../../agronomy/statistics/extremes.ts'
import type { Book } from '../../facts/book.ts'
import { judged } from '../../facts/judged.ts'
import { say } from '../../facts/say.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import type { WalkEntry, WorkEntry } from '../../ledger/read/ledger.ts'
import { ORGANS, type Organ } from '../../records/scouting.ts'
import { DISEASES } from '../../records/target.ts'
import type { Rule } from '../rule.ts'
import { outOfSeason } from './northern-month.ts'
import { odd, unusual } from './usual.ts'

const NAME = 'unlikely-walk'

/** A disease walk whose counts and severity contradict each other, and work of impossible hours. */
export const unlikelyWalk: Rule = {
  name: NAME,
  about: {
    what: 'The mean surface affected over all that were looked at cannot be more than the share that has symptoms; classes must add up to what was looked at; numbers of a walk or hours of work are far beyond what people do or the times written hold; prunings weigh more than those of any vine; or bunches or leaves were looked at in winter.',
    limits:
      'up to 2000 looked at; up to 16 h for each person and day, 480 h where nobody is counted; up to 80 mm of water at once; up to 1.1 kg of prunings a metre, a tenth above what is usual at most',
    source:
      'own rule; severity over all against affected: plain arithmetic; prunings 0.5-1.0 kg a metre of canopy: Kliewer & Dokoozlian 2005, Am. J. Enol. Vitic. 56, abstract',
    basis: 'own',
  },
  check: (book) => [
    ...judged(book, 'scouting').flatMap(ofWalk),
    ...judged(book, 'scouting').flatMap((walk) => inWinter(book, walk)),
    ...judged(book, 'work').flatMap(longerThanItsTime),
    ...judged(book, 'work').flatMap((entry) => heavyPrunings(book, entry)),
    ...judged(book, 'work').flatMap((entry) =>
      unusual(NAME, entry, [
        {
          path: ['hours'],
          value: entry.hours && entry.hours / (entry.people ?? 1),
          low: 0,
          high: entry.people === undefined ? 480 : 16,
          unit: entry.people === undefined ? 'h' : 'h for each person',
          what: 'day of work',
        },
        { path: ['water'], value: entry.water, low: 0, high: 80, unit: 'mm', what: 'irrigation' },
      ]),
    ),
  ],
}

/** Organs and the months in which they are on the vine, counted as in the north; wide on purpose. */
const HANGING = { bunches: { first: 4, last: 12 }, leaves: { first: 3, last: 12 } } as const

function inWinter({ ledger }: Book, walk: WalkEntry): Finding[] {
  const organ = (['bunches', 'leaves'] as const).find(
    (one) => walk.looked_at[one] !== undefined && outOfSeason(ledger.vineyard, walk.date, HANGING[one]),
  )
  return organ ? [odd(NAME, walk, ['date'], `there are no ${organ} on ${walk.date} to look at`)] : []
}

/** Prunings beyond what even a vine of too much growth has along its row. */
function heavyPrunings({ ledger }: Book, entry: WorkEntry): Finding[] {
  const block = ledger.blocks.get(entry.block)
  const value = block && entry.prunings && entry.prunings / block.vine_spacing
  const what = 'weight of prunings from a metre of row'
  return unusual(NAME, entry, [{ path: ['prunings'], value, low: 0, high: 1.1, unit: 'kg/m', what }])
}

/** Hours of all people that don't fit between the times written. */
function longerThanItsTime(entry: WorkEntry): Finding[] {
  const { hours, people, time } = entry
  if (hours === undefined || people === undefined || time?.end == null) return []
  const most = (people * (time.end - time.start)) / 60
  return hours > most * 1.5 + 1
    ? [
        odd(
          NAME,
          entry,
          ['hours'],
          `${say(hours, 'h')} of work, but ${people} ${people === 1 ? 'person' : 'people'} in the time written are ${say(most, 'h')}`,
        ),
      ]
    : []
}

function ofWalk(walk: WalkEntry): Finding[] {
  const organs = ORGANS
  return [
    ...unusual(
      NAME,
      walk,
      organs.map((organ) => ({
        path: ['looked_at', organ],
        value: walk.looked_at[organ],
        low: 1,
        high: 2000,
        what: `number of ${organ}`,
      })),
    ),
    ...DISEASES.flatMap((disease) => {
      const found = walk.found[disease]
      if (!found) return []
      const shareOf = (organ: Organ) =>
        found[organ] !== undefined && walk.looked_at[organ]
          ? [(found[organ] / walk.looked_at[organ]) * 100]
          : []
      const looked = (some: readonly Organ[]) => some.flatMap((organ) => walk.looked_at[organ] ?? [])
      const path = ['found', disease]
      return [
        ...scoreFaults(walk, { ...found, path, shares: organs.flatMap(shareOf), looked: looked(organs) }),
        ...organs.flatMap((organ) =>
          scoreFaults(walk, {
            ...found.scored?.[organ],
            path: [...path, 'scored', organ],
            shares: shareOf(organ),
            looked: looked([organ]),
          }),
        ),
      ]
    }),
  ]
}

/** Severity and classes against the shares with symptoms, in %, and the numbers looked at that they may be of. */
function scoreFaults(
  walk: WalkEntry,
  of: {
    severity?: number | undefined
    classes?: Readonly<Record<string, number>> | undefined
    path: string[]
    shares: readonly number[]
    looked: readonly number[]
  },
): Finding[] {
  const { severity, classes, path, shares, looked } = of
  const most = shares.length === 0 ? null : highest(shares)
  const counted = Object.values(classes ?? {}).reduce((sum, one) => sum + one, 0)
  return [
    ...(severity !== undefined && most !== null && severity > most + 1e-9
      ? [
          odd(
            NAME,
            walk,
            [...path, 'severity'],
            `${say(severity, '%')} of the surface, but only ${say(most, '%')} have symptoms; severity is the mean over all that were looked at`,
          ),
        ]
      : []),
    ...(classes && !looked.includes(counted)
      ? [
          odd(
            NAME,
            walk,
            [...path, 'classes'],
            `the classes add up to ${counted}, but ${looked.join(' and ')} were looked at`,
          ),
        ]
      : []),
  ]
}
