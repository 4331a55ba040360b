import { addDays, daysBetween, type IsoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { samplesOf } from '../ripeness/samples.ts'
import { type Target, targetOf } from '../ripeness/targets.ts'
import { trendOf } from '../ripeness/trend.ts'
import { type Asked, type Gate, OLDEST } from './gate.ts'

interface Judged {
  of: 'ta' | 'ph'
  value: number
  date: IsoDate
  target: Target
  side: 'in' | 'too-acid' | 'too-little'
}

const UNIT = { ta: ' g/L', ph: '' }
const NAME = { ta: 'acid', ph: 'pH' }

/**
 * Whether acid and pH are in their ranges. Too sharp is a reason to wait, since acid falls on the vine; too little is
 * none, since waiting takes more of it: that passes and says so. Both must be measured, or those that the records name a
 * range for.
 */
export function acidGate(asked: Asked): Gate {
  const { ledger, block, asOf } = asked
  const targets = (['ta', 'ph'] as const).flatMap((of) => {
    const target = targetOf(ledger, block, of)
    return target ? [{ of, target }] : []
  })
  const own = targets.filter(({ target }) => target.basis !== 'default')
  const values = targets.map(({ of, target }) => ({ of, target, ...latest(asked, of) }))
  const recent = values.flatMap(({ of, target, value, date }): Judged[] =>
    value === null || date === null || daysBetween(date, asOf) > OLDEST.sample
      ? []
      : [{ of, target, value, date, side: sideOf(of, value, target) }],
  )
  const wanted = own.length > 0 ? own : targets
  const judged = recent.filter(({ of }) => wanted.some((one) => one.of === of))
  const lacking = wanted.filter(({ of }) => !recent.some((one) => one.of === of))
  if (judged.length === 0 || lacking.length > 0) {
    const names = lacking.map(({ of }) => NAME[of])
    const detail =
      wanted.length === 0
        ? 'no range of acid or pH is known for the block'
        : `no ${names.join(' and no ')} measured in the last ${OLDEST.sample} days`
    return {
      gate: 'acid',
      state: 'unknown',
      detail,
      short: 'unknown',
      todo: 'Measure acid and pH of the next sample.',
    }
  }
  const detail = judged.map(spoken).join('; ')
  const ta = judged.find(({ of }) => of === 'ta') ?? judged[0]!
  const short = ta.of === 'ta' ? ta.value.toFixed(1) : `pH ${ta.value.toFixed(2)}`
  if (judged.some(({ side }) => side === 'too-acid'))
    return {
      gate: 'acid',
      state: 'wait',
      detail,
      short,
      todo: 'Acid falls on: measure again with the next sample.',
      turns: fallsBy(
        asked,
        judged.filter(({ side }) => side === 'too-acid'),
      ),
    }
  return { gate: 'acid', state: 'pass', detail, short, todo: null }
}

/**
 * The day by which acid and pH come into range at the rate of the last samples; null where a rate is not told from
 * chance, or the day is more than a month off.
 */
function fallsBy(asked: Asked, judged: readonly Judged[]): IsoDate | null {
  const trend = trendOf(asked.block.id, samplesOf(asked.ledger, { ...asked, block: asked.block.id }))
  const days = judged.map(({ of, value, date, target }) => {
    const { perDay, perDayLow, perDayHigh } = trend[of]
    const way = (of === 'ta' ? target.high : target.low) - value
    if (perDay === null || perDayLow! * perDayHigh! <= 0 || way * perDay <= 0) return null
    const ahead = Math.ceil(way / perDay)
    return ahead > 31 ? null : addDays(date, ahead)
  })
  return days.includes(null) ? null : (days.sort().at(-1) ?? null)
}

/** The newest value of a season, and its day. */
function latest(asked: Asked, of: 'ta' | 'ph'): { value: number | null; date: IsoDate | null } {
  const sample = samplesOf(asked.ledger, { ...asked, block: asked.block.id }).findLast(
    ({ facts }) => facts[of],
  )
  return { value: sample?.facts[of]?.mean ?? null, date: sample?.entry.date ?? null }
}

function sideOf(of: 'ta' | 'ph', value: number, { low, high }: Target): Judged['side'] {
  if (value >= low && value <= high) return 'in'
  return (of === 'ta') === value > high ? 'too-acid' : 'too-little'
}

const SIDE = {
  in: 'in',
  'too-acid': 'too sharp for',
  'too-little': 'with less acid than',
} as const

const spoken = ({ of, value, date, target, side }: Judged) =>
  `${NAME[of]} ${value.toFixed(of === 'ta' ? 1 : 2)}${UNIT[of]} on ${spokenDate(date)}, ${SIDE[side]} ${target.low}-${target.high} (${target.source})${side === 'too-little' ? '; waiting takes more' : ''}`
