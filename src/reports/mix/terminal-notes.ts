import { addAll } from '../../records/add-all.ts'
import type { Quantity } from '../../records/quantity.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { counted } from '../../render/text.ts'
import { display, displayRange } from '../../render/units.ts'
import type { MixProduct } from './amounts.ts'
import type { MixData } from './report.ts'

/** What to mind in mixing: order, water in the tank, rounding, time, and where means were taken. */
export function notes(data: MixData, { units }: Style): string[] {
  const lines: string[] = []
  if (data.order.length > 1)
    lines.push(
      "Fill in the numbered order, into half the water, agitating. Let each disperse before the next. Follow the label's order if it differs.",
    )
  const odd = [...new Set(data.steps.flatMap(({ disagreement }) => disagreement ?? []))]
  if (data.order.length > 1 && odd.length > 0) lines.push(`Sources disagree: ${odd.join('; ')}.`)
  for (const { product, rank, reason } of data.steps) {
    if (rank === null && (data.order.length > 1 || reason.startsWith('never')))
      lines.push(`${safeLine(product)}: ${reason}.`)
  }
  if (data.tooMuch)
    lines.push(
      `${display(data.tooMuch, units)} more is in the tank than the first fill holds: drain it, or the spray is too weak.`,
    )
  for (const product of data.products)
    addAll(lines, productNotes(product, { units, carried: isCarried(data) }))
  addAll(lines, extentNotes(data, units))
  if (data.waterBy === 'calibration')
    lines.push(
      `${display(data.waterPerHa!, units)} is what ${safeLine(data.sprayer ?? 'the sprayer')} applies by its record, as near as you can measure it out.`,
    )
  addAll(lines, paceNotes(data, units))
  if (data.offRate) {
    const { actual, flowNeeded, speedNeeded } = data.offRate
    lines.push(
      `By its record the sprayer applies ${display(actual, units)}: for ${display(data.waterPerHa!, units)} ${isCarried(data) ? 'walk at' : 'drive'} ${display(speedNeeded, units)}, or set the nozzles to ${display(flowNeeded, units)} in all.`,
    )
  }
  for (const mean of data.means) lines.push(mean)
  const { minutes, refills } = data.time
  if (minutes !== null)
    lines.push(
      `Spraying takes ${spanOf(minutes)}${refills ? ` and ${counted(refills, 'refill')}, turning and filling not counted` : ', turning not counted'}.`,
    )
  return lines
}

/** L up to which a tank is taken to be carried on the back. Common practice, no source. */
const CARRIED = 25

const isCarried = ({ tank }: MixData) => tank !== null && tank.value <= CARRIED

/** What a part or spot spray comes to for a vine, and what it can't be counted for. */
function extentNotes({ spot, area, perVine }: MixData, units: Style['units']): string[] {
  const lines: string[] = []
  if (perVine) lines.push(`That is ${display(perVine, units)} of spray a vine.`)
  if (spot && area === null && !perVine)
    lines.push(
      'Add --vines, --rows or --share with --block, so that copper and protection count for what is treated.',
    )
  return lines
}

/** `Walk at 0.5 km/h: 8.6 s a vine, 4 min 20 s a row.` */
function paceNotes(data: MixData, units: Style['units']): string[] {
  const { pace, offRate } = data
  if (!pace || (!isCarried(data) && !data.spot) || (offRate && !pace.speed)) return []
  const times = [
    ...(pace.perVine === null ? [] : [`${secondsOf(pace.perVine)} a vine`]),
    ...(pace.perRow === null ? [] : [`${secondsOf(pace.perRow)} a row`]),
  ]
  if (pace.speed === null) return [`Spray ${times.join(', ')}.`]
  const walk = `Walk at ${display(pace.speed, units)}`
  return [`${walk}${times.length > 0 ? `: ${times.join(', ')}` : ''}.`]
}

function secondsOf(seconds: number): string {
  if (seconds < 10) return `${Number(seconds.toFixed(1))} s`
  const whole = Math.round(seconds)
  if (whole < 60) return `${whole} s`
  return whole % 60 === 0 ? `${whole / 60} min` : `${Math.floor(whole / 60)} min ${whole % 60} s`
}

function productNotes(
  product: MixProduct,
  { units, carried }: { units: Style['units']; carried: boolean },
): string[] {
  const name = safeLine(product.name)
  const lines: string[] = []
  if (product.concentrationFactor !== null)
    lines.push(
      `${name}: the spray is ${Number(product.concentrationFactor.toFixed(2))} times as strong as the dilute one, ${display(product.concentration, units)}.`,
    )
  if (product.capped)
    lines.push(`${name}: the most per ground area, ${display(product.rate!, units)}, lowers the dose.`)
  if (carried && product.rate !== null && units === 'metric')
    lines.push(`${name}: ${inTenLitres(product.concentration)} in 10 L of spray.`)
  for (const limit of product.limits) {
    if (limit.inWater !== null && limit.value !== null)
      lines.push(
        `${name}: the label gives a dose per ground area only. In its minimum water, ${display({ value: limit.inWater, unit: 'L/ha' }, units)}, that is ${display({ value: limit.high, unit: limit.unit }, units)} at most.`,
      )
    if (limit.within !== false) continue
    const value = display({ value: limit.value!, unit: limit.unit }, units)
    if (limit.form === 'max_rate') {
      const most = display({ value: limit.high, unit: limit.unit }, units)
      lines.push(`${name}: ${value} is above the most per ground area, ${most} (${safeLine(limit.place)}).`)
      continue
    }
    lines.push(
      `${name}: ${value} is not within the label's ${displayRange(limit, units)} against ${safeLine(limit.against)} (${safeLine(limit.place)}).`,
    )
  }
  const { rounded } = product
  if (rounded?.why) lines.push(`${name}: a fill takes ${rounded.why}; weigh it on a finer one.`)
  else if (rounded?.effect !== null && rounded)
    lines.push(`${name}: rounding to the scale changes the total by ${signed(rounded.effect!)} %.`)
  return lines
}

const signed = (value: number) => {
  const text = value.toFixed(Math.abs(value) < 1 ? 2 : 1)
  return value > 0 ? `+${text}` : text
}

function spanOf(minutes: number): string {
  const whole = Math.max(1, Math.round(minutes))
  if (whole < 60) return `${whole} min`
  return whole % 60 === 0 ? `${whole / 60} h` : `${Math.floor(whole / 60)} h ${whole % 60} min`
}

/** What goes into 10 L of spray, as labels and people say a strength; from g/L or mL/L. */
export const inTenLitres = ({ value, unit }: Quantity): string =>
  display({ value: value / 100, unit: unit === 'g/L' ? 'kg' : 'L' }, 'metric')
