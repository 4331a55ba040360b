import { highest, lowest } from '../../agronomy/statistics/extremes.ts'
import { dayOf, type IsoDate } from '../../records/date.ts'
import type { Disease } from '../../records/disease.ts'
import type { ReportInput } from '../report.ts'
import { listed, upperFirst } from '../sentences.ts'
import { mayShareTank } from '../spraying/keep-apart.ts'
import { ASK_FIRST, HOW_TO_CLEAR, standsOverLabel } from '../spraying/re-entry.ts'
import type { Danger, DangerJudge } from './danger.ts'
import { beganSentence, changeSentence, type FollowUp, findSentence, NEXT_ROUND } from './follow-up.ts'
import { enoughFirst } from './in-stock.ts'
import { mixCommand } from './mix-command.ts'
import { remediesFor, shedText } from './remedies.ts'

/** What to do about the disease found in a block, and the command for it. */
export interface FindAdvice {
  block: string
  diseases: Disease[]
  /** How bad, since when, products in the shed, and when to scout again; a sentence each. */
  said: string[]
  next: string
  /** Commands for further tanks, where products can't share one. */
  also: string[]
  /** The advised spray, limited to the rows where all of it was found; rows are null for the whole block. */
  spray: { rows: { from: number; to: number } | null; products: string[] } | null
}

interface AdviceFrom {
  input: ReportInput
  judge: DangerJudge
  /** The earliest likely day of picking; null where unknown. */
  picking: IsoDate | null
  /** Forecast highest °C, by day number. */
  heatAhead?: ReadonlyMap<number, number> | undefined
}

/** What to do about the disease found in one block. */
export function findAdvice(ones: readonly FollowUp[], from: AdviceFrom): FindAdvice {
  const { input, judge, picking, heatAhead } = from
  const { asOf } = input
  const { block } = ones[0]!
  const diseases = [...new Set(ones.map(({ disease }) => disease))]
  const dangers = diseases.map((disease) => judge.on(block, disease, asOf))
  const head = `${ones.map(findSentence).join('; ')}.`
  const noSpray = { block, diseases, also: [], spray: null }
  if (standsOverLabel(input, block)) return { ...noSpray, said: [head, ASK_FIRST], next: HOW_TO_CLEAR }
  const stop = stopOf(dangers, picking !== null && picking <= asOf)
  if (stop !== null) {
    const isGreen = judge.growth(block).veraisonOn(dayOf(asOf)) === 'before'
    const said = [
      head,
      `No spray: ${stop}.`,
      isGreen
        ? `Cut out what is diseased, keep the bunches airy, and scout again in ${NEXT_ROUND} days.`
        : 'Sort the fruit, or pick sooner.',
    ]
    return { ...noSpray, said, next: `rowbook ${isGreen ? 'note scouting' : 'ready'} --block ${block}` }
  }
  const stage = judge.growth(block).stageOn(dayOf(asOf))?.stage ?? null
  const rows = rowsOf(ones, input)
  const remedies = diseases.map((disease) => {
    const all = remediesFor(input, { block, disease, date: asOf, picking, stage, heatAhead })
    return enoughFirst(input, all, { blocks: [block], disease, rows })
  })
  const first = [...new Set(remedies.flatMap((list) => list.find(({ may }) => may)?.product ?? []))]
  const isOne = mayShareTank(first.map((id) => input.ledger.products.get(id)!))
  const said = [
    head,
    ...ones.flatMap((one) => [beganSentence(one), upperFirst(changeSentence(one))]),
    ...remedies.map((list, at) => shedText(list, diseases[at]!)),
    isOne ? '' : `Spray ${listed(first)} on different days: not in one tank.`,
    first.length > 0
      ? `Scout again ${NEXT_ROUND} days after treating.`
      : `Scout again in ${NEXT_ROUND} days.`,
  ]
  const about = { ...noSpray, said: [...new Set(said)].filter(Boolean) }
  if (first.length === 0) return { ...about, next: `rowbook cover --for ${diseases[0]} --block ${block}` }
  const command = (products: string[]) => {
    const own = diseases.filter((_, at) =>
      products.includes(remedies[at]!.find(({ may }) => may)?.product ?? ''),
    )
    return mixCommand(input, { blocks: [block], products, diseases: own, rows })
  }
  const [next, ...also] = isOne ? [command(first)] : first.map((product) => command([product]))
  return { ...about, next: next!, also, spray: { rows, products: first } }
}

/** The rows where all of it was found, as one span; null where a find names no rows, or the block's record has none. */
function rowsOf(ones: readonly FollowUp[], { ledger }: ReportInput): { from: number; to: number } | null {
  const spans = ones.flatMap(({ newest }) => newest.rows ?? [])
  const rows = ledger.blocks.get(ones[0]!.block)?.rows
  if (spans.length < ones.length || rows === undefined) return null
  const span = {
    from: lowest(spans.map(({ from }) => from)),
    to: highest(spans.map(({ to }) => to)),
  }
  return span.to <= rows ? span : null
}

/** Why no spray is advised; null where one may be. */
function stopOf(dangers: readonly Danger[], isRipe: boolean): string | null {
  if (isRipe) return 'harvest is due'
  return dangers.every(({ tissue }) => tissue === null) ? dangers[0]!.reasons.at(-1)! : null
}
