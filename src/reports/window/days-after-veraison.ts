import { daysAfterVeraison as countOn, veraisonDay } from '../../agronomy/days-after-veraison.ts'
import type { Ledger, StageEntry } from '../../ledger/ledger.ts'
import { dayOf, isoDate } from '../../records/date.ts'
import { type MethodDays, type Question, unable } from './method.ts'

const METHOD = 'days-after-veraison'

/** BBCH 81 beginning of ripening, 83 berries colouring: what a note of veraison is taken from. */
const COLOURING = new Set([81, 83])

/** Usual days from veraison to ripeness. Common practice, from memory. */
const USUAL = { low: 30, high: 60 }

/** The variety's days after half of the berries have coloured; says nothing of a target other than ripeness as such. */
export function daysAfterVeraison(ledger: Ledger, question: Question): MethodDays {
  const noted = ledger.stages.filter(
    (entry) =>
      entry.block === question.block &&
      entry.season === question.season &&
      entry.date <= question.asOf &&
      COLOURING.has(entry.stage),
  )
  const best = noted.filter(isUsable).toSorted((a, b) => awayFromHalf(a) - awayFromHalf(b))[0]
  if (!best) return unable(METHOD, 'veraison (stage 81 or 83) is not noted for this block this season')
  const share = best.share === undefined ? undefined : best.share / 100
  const half = veraisonDay({ day: dayOf(best.date), ...(share === undefined ? {} : { share }) })
  const variety = ledger.varieties.get(ledger.blocks.get(question.block)?.variety ?? '')
  const range = variety?.after_veraison ?? USUAL
  const days = countOn({ veraison: half.day, within: half.within, from: range.low, to: range.high })
  const source = variety?.after_veraison
    ? `${variety.name}'s range`
    : 'the usual range (common practice, from memory)'
  const seen = share === undefined ? `stage ${best.stage}` : `stage ${best.stage} at ${best.share} %`
  const why = `half colour about ${isoDate(Math.round(half.day))} (${seen} on ${best.date}), and ${range.low} to ${range.high} days after it, ${source}`
  return { method: METHOD, ...days, why }
}

const isUsable = ({ share }: StageEntry) => share === undefined || (share > 0 && share < 100)
const awayFromHalf = ({ share }: StageEntry) => (share === undefined ? 49 : Math.abs(share - 50))
