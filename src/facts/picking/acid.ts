import { daysBetween, type IsoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { sampleDays, sampleDayText } from '../ripeness/sample-day.ts'
import { samplesOf } from '../ripeness/samples.ts'
import { type Target, targetOf } from '../ripeness/targets.ts'
import type { AcidWindow } from '../window/acid-window.ts'
import { acidText } from '../window/sentences.ts'
import { type Asked, answersOf, type Gate, OLDEST } from './gate.ts'

const { pass, wait, fail, unknown, notAsked } = answersOf('acid')

const OFS = ['ta', 'ph'] as const
type Of = (typeof OFS)[number]

/** When acid and pH come into their ranges; null where too few days were measured. */
export type AcidAhead = Record<Of, AcidWindow | null>

interface Measured {
  of: Of
  value: number
  date: IsoDate
  /** How a day's figure was made, where several samples were taken. */
  how: string
}

interface Judged extends Measured {
  target: Target
  side: 'in' | 'too-acid' | 'too-little'
}

const UNIT = { ta: ' g/L', ph: '' }
const DECIMALS = { ta: 1, ph: 2 }
const NAME = { ta: 'acid', ph: 'pH' }

/** Error of a pH meter in a cellar. Common practice, no source. */
const PH_ERROR = 0.05

/**
 * Whether acid and pH are in their ranges. Only what the grower asks for can hold up a pick: a target in the records,
 * or the usual range of the style where the value was measured. Acid too high is a reason to wait, since acid falls on
 * the vine; acid too low passes and says so, since waiting lowers it further. A pH above its range fails by itself: it
 * only rises, so that somebody has to decide now.
 *
 * @param ahead when they come into range, if wanted
 */
export function acidGate(asked: Asked, ahead?: AcidAhead): Gate {
  const { ledger, block, asOf } = asked
  const samples = samplesOf(ledger, { ...asked, block: block.id })
  const measured = OFS.flatMap((of): Measured[] => {
    const last = sampleDays(samples, of).at(-1)
    if (!last || daysBetween(last.date, asOf) > OLDEST.sample) return []
    return [{ of, value: last.mean, date: last.date, how: sampleDayText(last, DECIMALS[of]) }]
  })
  const targets = { ta: targetOf(ledger, block, 'ta'), ph: targetOf(ledger, block, 'ph') }
  const lacking = OFS.filter(
    (of) => targets[of] && targets[of].basis !== 'style' && !measured.some((one) => one.of === of),
  )
  if (lacking.length > 0) {
    const names = lacking.map((of) => NAME[of])
    return unknown(
      `no ${names.join(' and no ')} measured in the last ${OLDEST.sample} days`,
      'unknown',
      `Measure ${names.join(' and ')} of the next sample, or remove the target.`,
    )
  }
  const judged = measured.flatMap((one): Judged[] => {
    const target = targets[one.of]
    return target ? [{ ...one, target, side: sideOf(one, target) }] : []
  })
  return judged.length > 0 ? verdictOn(judged, ahead, asOf) : withoutTarget(measured)
}

function withoutTarget(measured: readonly Measured[]): Gate {
  const said = measured.map((one) => `${valueText(one)} on ${spokenDate(one.date)}${one.how}; `).join('')
  const short = measured[0] ? shortOf(measured[0]) : '-'
  return notAsked(`${said}not asked: no target of acid or pH is set`, short)
}

function verdictOn(judged: readonly Judged[], ahead: AcidAhead | undefined, asOf: IsoDate): Gate {
  const detail = judged.map(spoken).join('; ')
  const short = shortOf(judged[0]!)
  const ph = judged.find(({ of }) => of === 'ph')
  if (ph && ph.value > ph.target.high + PH_ERROR + 1e-9)
    return fail(
      detail,
      shortOf(ph),
      'pH only rises from here. Decide now with whoever makes the wine: pick and correct the acid, or another use.',
    )
  const sharp = judged.filter(({ side }) => side === 'too-acid').map(({ of }) => of)
  if (sharp.length === 0) return pass(detail, short)
  const windowOf = (of: Of) => (sharp.includes(of) && ahead?.[of]) || null
  const said = acidText({ acid: windowOf('ta'), ph: windowOf('ph') }, asOf)
  const todo = `${said.length > 0 ? said.join(' ') : 'Acid is still falling.'} Measure again with the next sample.`
  // Null where one of them is unknown, or may take months.
  const likely = sharp.map((of) => windowOf(of)?.likely ?? null)
  return { ...wait(detail, short, todo), turns: likely.includes(null) ? null : likely.sort().at(-1)! }
}

function sideOf({ of, value }: Measured, { low, high }: Target): Judged['side'] {
  if (value >= low && value <= high) return 'in'
  return (of === 'ta') === value > high ? 'too-acid' : 'too-little'
}

const valueText = ({ of, value }: Measured) => `${NAME[of]} ${value.toFixed(DECIMALS[of])}${UNIT[of]}`

const shortOf = ({ of, value }: Measured) => (of === 'ta' ? value.toFixed(1) : `pH ${value.toFixed(2)}`)

const SIDE = {
  ta: { in: 'within', 'too-acid': 'too high for', 'too-little': 'below' },
  ph: { in: 'within', 'too-acid': 'too low for', 'too-little': 'over the upper end of' },
} as const

function spoken(judged: Judged): string {
  const { of, date, how, target, side } = judged
  const only = of === 'ph' ? '; pH only rises' : '; acid only falls'
  return `${valueText(judged)} on ${spokenDate(date)}${how}, ${SIDE[of][side]} ${target.low}-${target.high} (${target.source})${side === 'too-little' ? only : ''}`
}
