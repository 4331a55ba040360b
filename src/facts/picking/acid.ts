import { daysBetween, type IsoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { samplesOf } from '../ripeness/samples.ts'
import { type Target, targetOf } from '../ripeness/targets.ts'
import type { AcidWindow } from '../window/acid-window.ts'
import { acidText } from '../window/sentences.ts'
import { type Asked, answersOf, type Gate, OLDEST } from './gate.ts'

const { pass, wait, fail, unknown, notAsked } = answersOf('acid')

type Of = 'ta' | 'ph'

/** When acid and pH come into their ranges; null where too few days were measured. */
export type AcidAhead = Record<Of, AcidWindow | null>

interface Judged {
  of: Of
  value: number
  date: IsoDate
  target: Target
  side: 'in' | 'too-acid' | 'too-little'
}

const UNIT = { ta: ' g/L', ph: '' }
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
  const values = (['ta', 'ph'] as const).map((of) => ({
    of,
    target: targetOf(ledger, block, of),
    ...latest(asked, of),
  }))
  const isRecent = (date: IsoDate | null): date is IsoDate =>
    date !== null && daysBetween(date, asOf) <= OLDEST.sample
  const judged = values.flatMap(({ of, target, value, date }): Judged[] =>
    target === null || value === null || !isRecent(date)
      ? []
      : [{ of, target, value, date, side: sideOf(of, value, target) }],
  )
  const lacking = values.filter(
    ({ of, target }) => target !== null && target.basis !== 'style' && !judged.some((one) => one.of === of),
  )
  if (lacking.length > 0) {
    const names = lacking.map(({ of }) => NAME[of])
    return unknown(
      `no ${names.join(' and no ')} measured in the last ${OLDEST.sample} days`,
      'unknown',
      `Measure ${names.join(' and ')} of the next sample, or remove the target.`,
    )
  }
  if (judged.length === 0) return withoutTarget(values.flatMap((one) => (isRecent(one.date) ? [one] : [])))
  return verdictOn(judged, ahead, asOf)
}

function withoutTarget(measured: readonly { of: Of; value: number | null; date: IsoDate | null }[]): Gate {
  const values = measured.map(({ of, value, date }) => `${valueText(of, value!)} on ${spokenDate(date!)}`)
  const said = values.length > 0 ? `${values.join('; ')}; ` : ''
  const short = values.length > 0 ? shortOf(measured[0]!.of, measured[0]!.value!) : '-'
  return notAsked(`${said}not asked: no target of acid or pH is set`, short)
}

function verdictOn(judged: readonly Judged[], ahead: AcidAhead | undefined, asOf: IsoDate): Gate {
  const detail = judged.map(spoken).join('; ')
  const first = judged.find(({ of }) => of === 'ta') ?? judged[0]!
  const short = shortOf(first.of, first.value)
  const ph = judged.find(({ of }) => of === 'ph')
  if (ph && ph.value > ph.target.high + PH_ERROR + 1e-9)
    return fail(
      detail,
      shortOf('ph', ph.value),
      'pH only rises from here. Decide now with whoever makes the wine: pick and correct the acid, or another use.',
    )
  const sharp = judged.filter(({ side }) => side === 'too-acid')
  if (sharp.length > 0) {
    const windows = new Map(sharp.map(({ of }) => [of, ahead?.[of] ?? null]))
    const said = acidText({ acid: windows.get('ta') ?? null, ph: windows.get('ph') ?? null }, asOf)
    const likely = [...windows.values()].map((window) => window?.likely ?? null)
    const todo = `${said.length > 0 ? said.join(' ') : 'Acid is still falling.'} Measure again with the next sample.`
    // Null where one of them is unknown, or may take months.
    const turns = likely.includes(null) ? null : (likely.sort().at(-1) ?? null)
    return { ...wait(detail, short, todo), turns }
  }
  return pass(detail, short)
}

/** The newest value of a season, and its day. */
function latest(asked: Asked, of: Of): { value: number | null; date: IsoDate | null } {
  const sample = samplesOf(asked.ledger, { ...asked, block: asked.block.id }).findLast(
    ({ facts }) => facts[of],
  )
  return { value: sample?.facts[of]?.mean ?? null, date: sample?.entry.date ?? null }
}

function sideOf(of: Of, value: number, { low, high }: Target): Judged['side'] {
  if (value >= low && value <= high) return 'in'
  return (of === 'ta') === value > high ? 'too-acid' : 'too-little'
}

const valueText = (of: Of, value: number) => `${NAME[of]} ${value.toFixed(of === 'ta' ? 1 : 2)}${UNIT[of]}`

const shortOf = (of: Of, value: number) => (of === 'ta' ? value.toFixed(1) : `pH ${value.toFixed(2)}`)

const SIDE = {
  ta: { in: 'within', 'too-acid': 'too high for', 'too-little': 'below' },
  ph: { in: 'within', 'too-acid': 'too low for', 'too-little': 'over the upper end of' },
} as const

const spoken = ({ of, value, date, target, side }: Judged) =>
  `${valueText(of, value)} on ${spokenDate(date)}, ${SIDE[of][side]} ${target.low}-${target.high} (${target.source})${side === 'too-little' ? (of === 'ph' ? '; pH only rises' : '; acid only falls') : ''}`
