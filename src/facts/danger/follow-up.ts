import { incidenceDifference } from '../../agronomy/disease/incidence-difference.ts'
import { addDays, type IsoDate } from '../../records/date.ts'
import { DISEASES, type Disease, diseaseWord } from '../../records/disease.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import { groupedBy } from '../judged.ts'
import type { ReportInput } from '../report.ts'
import { upperFirst } from '../sentences.ts'
import { applicationsOf } from '../spraying/applications.ts'
import { callsForAction, type DangerJudge } from './danger.ts'
import { type Find, isFresh, overText, seenRows } from './finds.ts'

/** Follow-up to the newest round that looked for a disease on an organ of a block. */
export type FollowUp = ReturnType<typeof followUp>

/** Days between two rounds after a find. Common practice, no source. */
export const NEXT_ROUND = 7

/**
 * Days from infection to symptoms. Powdery 7 to 10 (Nita 2012, read). Downy 4 to 18 (ADVID, read). Black rot 8 to 25
 * (from memory). Botrytis may stay latent for weeks, so none is given.
 */
const INCUBATION: Readonly<Partial<Record<Disease, readonly [number, number]>>> = {
  powdery: [7, 10],
  downy: [4, 18],
  'black-rot': [8, 25],
}

/** The follow-up of every disease and organ looked for this season, in the requested blocks. */
export function followUps(input: ReportInput, judge: DangerJudge): FollowUp[] {
  const rows = seenRows(input)
  return input.blocks.flatMap(({ id }) =>
    DISEASES.flatMap((disease) => {
      const own = rows.filter((row) => row.block === id && row.disease === disease)
      return [...groupedBy(own, ({ organ }) => organ).values()].map((one) => followUp(one, input, judge))
    }),
  )
}

function followUp(series: readonly Find[], input: ReportInput, judge: DangerJudge) {
  const newest = series.at(-1)!
  const { block, disease, date } = newest
  const act =
    newest.found > 0 &&
    isFresh(newest, input.asOf) &&
    (newest.over || callsForAction(disease, judge.on(block, disease, date)))
  const treated = treatments(input, { block, disease, from: date, to: input.asOf })
  const days = INCUBATION[disease]
  // If the disease was found before, infection began before the first find.
  const { date: first } = series[series.findLastIndex(({ found }) => found === 0) + 1] ?? newest
  return {
    block,
    disease,
    /** The newest row, found or not. */
    newest,
    /** Whether it needs action: over the threshold, or anything found in the critical period. */
    act,
    /** Sprays against it on the day of the round or later. */
    treated,
    /** When to scout again: a week after treating, else a week after finding (common practice, no source). */
    nextRound: act ? addDays(treated.at(-1)?.date ?? date, NEXT_ROUND) : null,
    /** When infection may have begun, counted back from the find; null where nothing was found or no figure is known. */
    began: newest.found > 0 && days ? { from: addDays(first, -days[1]), to: addDays(first, -days[0]) } : null,
    before: beforeOf(series, input),
  }
}

/** The newest earlier round that found it and was followed by a treatment before the newest round. */
function beforeOf(series: readonly Find[], input: ReportInput) {
  const newest = series.at(-1)!
  const row = series.at(-2)
  if (!row || row.found === 0) return null
  const { block, disease } = newest
  const treated = treatments(input, { block, disease, from: row.date, to: addDays(newest.date, -1) })[0]?.date
  const difference = incidenceDifference(
    { affected: row.found, looked: row.looked },
    { affected: newest.found, looked: newest.looked },
  )
  if (treated === undefined || !difference) return null
  // Reported where it was over the threshold, or changed by more than chance.
  return { row, treated, difference, told: row.over || difference.beyondChance }
}

/** The sprays of a block against a disease from one day to another, both included. */
export function treatments(
  { ledger }: ReportInput,
  of: { block: string; disease: Disease; from: IsoDate; to: IsoDate },
) {
  const sprays = ledger.sprays.filter(({ date }) => date >= of.from && date <= of.to)
  return applicationsOf(ledger, sprays)
    .filter((one) => one.block.id === of.block && one.targets.includes(of.disease))
    .map(({ spray, product }) => ({
      date: spray.date,
      product: product.id,
      rows: spray.rows ? { from: spray.rows.low, to: spray.rows.high } : null,
    }))
}

const percent = (share: number) => Math.round(share * 100)

/** `powdery on 12 of 100 bunches (7 to 20 %), found Fri 26 Jun, over the threshold of 3 %`. */
export function findSentence({ newest }: FollowUp): string {
  const { disease, found, looked, organ, low, high, date } = newest
  return `${diseaseWord(disease)} on ${found} of ${looked} ${organ} (${percent(low)} to ${percent(high)} %), found ${spokenDate(date)}${overText(newest)}`
}

/** `Powdery infection began between 16 Jun and 19 Jun.`; empty where no figure is known. */
export const beganSentence = ({ began, disease }: FollowUp): string =>
  began
    ? `${upperFirst(diseaseWord(disease))} infection began between ${shortDate(began.from)} and ${shortDate(began.to)}.`
    : ''

/**
 * `powdery on 4 of 100 bunches on 9 Jul after 12 of 100 on 26 Jun, sprayed 27 Jun: clearly fewer.`; empty without a
 * treatment between.
 */
export function changeSentence({ newest, before }: FollowUp): string {
  if (!before) return ''
  const { row, treated, difference } = before
  const word = difference.change < 0 ? 'fewer' : difference.change > 0 ? 'more' : 'as many'
  const said = difference.beyondChance ? `clearly ${word}` : `${word}, no clear change`
  return `${diseaseWord(newest.disease)} on ${newest.found} of ${newest.looked} ${newest.organ} on ${shortDate(newest.date)} after ${row.found} of ${row.looked} on ${shortDate(row.date)}, sprayed ${shortDate(treated)}: ${said}.`
}
