import { isOpen } from '../../facts/picking/gate.ts'
import { ADVICE, type PickAdvice } from '../../facts/picking/rot.ts'
import { asSentences, listed, upperFirst } from '../../facts/sentences.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import type { ReadyBlock, ReadyData } from './report.ts'

type BlockNames = ReadonlyMap<string, string>

/** What each check is called. */
export const GATE = {
  records: 'records',
  'before-harvest': 'PHI (pre-harvest interval)',
  're-entry': 'REI (re-entry interval)',
  disease: 'disease',
  sugar: 'sugar',
  acid: 'acid',
  crop: 'crop',
} as const

/** How the words of checks and verdicts are coloured. */
export const TONES = {
  pass: 'good',
  wait: 'doubtful',
  fail: 'bad',
  unknown: 'doubtful',
  'not-asked': 'good',
  ready: 'good',
  stop: 'bad',
} as const

/** Blocks that can be picked first, then by the day on which they may be ready; those already picked last. */
export function earliestFirst(blocks: readonly ReadyBlock[]): ReadyBlock[] {
  const key = ({ picked, verdict, turns, window, legalFrom }: ReadyBlock) => {
    if (picked) return '9999-12-31'
    if (verdict === 'ready') return '0000'
    const days = [turns, turns === null ? window.likely : null, legalFrom].filter((day) => day !== null)
    return days.sort().at(-1) ?? '9999'
  }
  return blocks.toSorted((a, b) => (key(a) < key(b) ? -1 : key(a) > key(b) ? 1 : 0))
}

/** Placeholder for block names in a sentence. */
const WHO = '\u0000'

/** The verdict on every block, a sentence each; blocks with the same verdict share one. */
export function answerOf(blocks: readonly ReadyBlock[], names: BlockNames): string {
  const told = new Map<string, string[]>()
  for (const block of blocks) {
    const said = headline(block)
    told.set(said, [...(told.get(said) ?? []), names.get(block.block) ?? block.block])
  }
  return [...told].map(([said, who]) => `${said.replace(WHO, () => listed(who))}.`).join(' ')
}

function headline(block: ReadyBlock): string {
  if (block.picked) return `${WHO}: picked on ${spokenDate(block.picked.date)}`
  if (block.advice) return `${WHO}: ${ADVICE[block.advice.what]}, ${block.advice.reasons[0]}`
  if (block.verdict === 'ready') {
    const sugar = block.gates.find(({ gate }) => gate === 'sugar')
    const odds = sugar?.detail.includes('about even odds') ? ', sugar at about even odds' : ''
    return `Nothing recorded forbids picking ${WHO}${odds}`
  }
  if (block.turns !== null)
    return block.verdict === 'stop'
      ? `${WHO}: do not pick before ${spokenDate(block.turns)}`
      : `${WHO} may be ready from about ${spokenDate(block.turns)}`
  const closed = block.gates.filter((gate) => !isOpen(gate))
  const [first] = closed
  if (first?.gate === 'acid' && first.state === 'fail' && closed.length === 1)
    return `${WHO}: decide now, ${first.short} is over its range and only rises`
  return `${WHO}: ${block.verdict === 'stop' ? 'do not pick' : 'wait'}. Not passed: ${listed(closed.map(({ gate }) => GATE[gate]))}`
}

/** The advice beside the verdict, with every reason. */
export const adviceText = ({ what, reasons }: PickAdvice): string =>
  `${upperFirst(ADVICE[what])}. ${asSentences(reasons)}`

/** Which block first, where more than one can be picked or has a date. */
export function orderLine({ order, press }: ReadyData, names: BlockNames): string {
  if (order.length < 2) return ''
  const told = order.map(
    ({ block, reasons }, at) => `${at + 1} ${names.get(block) ?? block} (${reasons.join(', ')})`,
  )
  return `Order of picking, what is ready by danger of rot, the rest by date: ${told.join('; ')}.${press ? ` ${press}` : ''}`
}
