import { highest } from '../../agronomy/statistics/extremes.ts'
import { type JudgedLedger, judged } from '../../facts/judged.ts'
import { figureText, listed } from '../../facts/sentences.ts'
import type { ScoutingEntry, WorkEntry } from '../../ledger/read/ledger.ts'
import { DISEASES } from '../../records/disease.ts'
import { ORGANS, type Organ } from '../../records/kinds/scouting.ts'
import { longDate } from '../../records/spoken-date.ts'
import type { Rule } from '../rule.ts'
import { outOfSeason, type Slips, SWAPPED, slipsIn } from './usual.ts'

/** A scouting round whose counts and severity contradict each other, and work of impossible hours. */
export const unlikelyWalk: Rule = {
  name: 'unlikely-walk',
  what: "A figure of a scouting round or of work can't be right. Mean severity can't exceed the share with symptoms, nor be 0 where something was found. Classes must add up to what was looked at. Numbers or hours are far beyond what people do, or than the recorded times allow. Prunings weigh more than any vine's. Or bunches or leaves were looked at, or worked on, in winter.",
  limits:
    'Usual are: up to 2000 looked at; up to 16 h for each person and day, 480 h where nobody is counted; up to 80 mm of water at once; up to 1.1 kg of prunings a metre, a tenth above the usual maximum.',
  source:
    'own rule; severity over all against affected: plain arithmetic; prunings 0.5-1.0 kg a metre of canopy: Kliewer & Dokoozlian 2005, Am. J. Enol. Vitic. 56, abstract',
  basis: 'own',
  check: (input) => [
    ...slipsIn(judged(input, 'scouting'), (slips, walk) => ofWalk(slips, input, walk)),
    ...slipsIn(judged(input, 'work'), (slips, entry) => ofWork(slips, input, entry)),
  ],
}

/** Work on shoots and leaves. */
const GREEN_WORK =
  /\b(?:leaf removal|leaf thinning|shoot (?:thinning|positioning)|tucking|hedging|topping)\b/i

/** First and last month in which they are on the vine or done, counted as in the north; wide on purpose. */
const MONTHS = { bunches: [4, 12], leaves: [3, 12], green: [4, 11] } as const

function ofWork(slips: Slips, { ledger }: JudgedLedger, entry: WorkEntry): void {
  const { hours, people, prunings, time, job, date } = entry
  const most = people !== undefined && time?.end != null ? (people * (time.end - time.start)) / 60 : Infinity
  if (hours !== undefined && hours > most * 1.5 + 1)
    slips.odd(
      ['hours'],
      `${figureText(hours, 'h')} of work, but ${people} ${people === 1 ? 'person' : 'people'} in the recorded time make ${figureText(most, 'h')}`,
      '`hours` are those of all people together; check people and time',
    )
  const block = ledger.blocks.get(entry.block)
  const perMetre = block && prunings && prunings / block.vine_spacing
  // More than even an overgrown vine has along its row.
  slips.unusual(['prunings'], perMetre, 'weight of prunings from a metre of row', [0, 1.1, 'kg/m'])
  const day = people === undefined ? ([0, 480, 'h'] as const) : ([0, 16, 'h for each person'] as const)
  slips.unusual(['hours'], hours && hours / (people ?? 1), 'day of work', day)
  slips.compare({ water: ['irrigation', 0, 80, 'mm'] })
  if (GREEN_WORK.test(job) && outOfSeason(ledger.vineyard, date, MONTHS.green))
    slips.odd(['date'], `${job} on ${longDate(date)}, when vines have no leaves`, SWAPPED)
}

function ofWalk(slips: Slips, { ledger }: JudgedLedger, { looked_at, date, found }: ScoutingEntry): void {
  for (const organ of ORGANS)
    slips.unusual(['looked_at', organ], looked_at[organ], `number of ${organ}`, [1, 2000])
  for (const disease of DISEASES) {
    const seen = found[disease]
    if (!seen) continue
    const of = (organs: readonly Organ[]) => {
      const looked = organs.flatMap((organ) => looked_at[organ] ?? [])
      const shares = organs.flatMap((organ) =>
        seen[organ] !== undefined && looked_at[organ] ? [(seen[organ] / looked_at[organ]) * 100] : [],
      )
      return { looked, most: shares.length === 0 ? null : highest(shares) }
    }
    scoreFaults(slips, ['found', disease], { ...seen, ...of(ORGANS) })
    for (const organ of ORGANS)
      scoreFaults(slips, ['found', disease, 'scored', organ], { ...seen.scored?.[organ], ...of([organ]) })
  }
  const missing = (['bunches', 'leaves'] as const).find(
    (organ) => looked_at[organ] !== undefined && outOfSeason(ledger.vineyard, date, MONTHS[organ]),
  )
  if (missing) slips.odd(['date'], `vines have no ${missing} on ${longDate(date)}`, SWAPPED)
}

/** Severity and classes against the largest share with symptoms, in %, and the numbers looked at. */
function scoreFaults(
  slips: Slips,
  path: string[],
  of: {
    severity?: number | undefined
    classes?: Readonly<Record<string, number>> | undefined
    most: number | null
    looked: readonly number[]
  },
): void {
  const { severity, classes, most, looked } = of
  const counted = Object.values(classes ?? {}).reduce((sum, one) => sum + one, 0)
  if (severity === 0 && most !== null && most > 0)
    slips.odd(
      [...path, 'severity'],
      `0 % of the surface, but ${figureText(most, '%')} have symptoms`,
      'write the mean severity over all that were looked at, or leave it out',
    )
  if (severity !== undefined && most !== null && severity > most + 1e-9)
    slips.odd(
      [...path, 'severity'],
      `${figureText(severity, '%')} of the surface, but only ${figureText(most, '%')} have symptoms; severity is the mean over all that were looked at`,
      'multiply the severity of those affected by their share, or check how many were found',
    )
  if (classes && !looked.includes(counted))
    slips.odd(
      [...path, 'classes'],
      `the classes add up to ${counted}, but ${listed(looked.map(String))} were looked at`,
      'count the classes again, the healthy ones (class 0) among them',
    )
}
