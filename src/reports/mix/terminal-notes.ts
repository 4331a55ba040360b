import { addAll } from '../../records/add-all.ts'
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
      "Fill in the order numbered, into half the water, agitating, each dispersed before the next; the label's own order wins.",
    )
  const odd = [...new Set(data.steps.flatMap(({ disagreement }) => disagreement ?? []))]
  if (data.order.length > 1 && odd.length > 0) lines.push(`Sources disagree: ${odd.join('; ')}.`)
  for (const { product, rank, reason } of data.steps) {
    if (rank === null && (data.order.length > 1 || reason.startsWith('never')))
      lines.push(`${safeLine(product)}: ${reason}.`)
  }
  if (data.tooMuch)
    lines.push(
      `${display(data.tooMuch, units)} more stands in the tank than the first fill holds: let it out, or the spray is too weak.`,
    )
  for (const product of data.products) addAll(lines, productNotes(product, units))
  if (data.waterBy === 'calibration')
    lines.push(`${display(data.waterPerHa, units)} is what the sprayer puts out by its record.`)
  if (data.offRate) {
    const { actual, flowNeeded, speedNeeded } = data.offRate
    lines.push(
      `By its record the sprayer puts out ${display(actual, units)}: for ${display(data.waterPerHa, units)} drive ${display(speedNeeded, units)}, or set the nozzles to ${display(flowNeeded, units)} in all.`,
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

function productNotes(product: MixProduct, units: Style['units']): string[] {
  const name = safeLine(product.name)
  const lines: string[] = []
  if (product.concentrationFactor !== null)
    lines.push(
      `${name}: the spray is ${Number(product.concentrationFactor.toFixed(2))} times as strong as the dilute one, ${display(product.concentration, units)}.`,
    )
  if (product.capped)
    lines.push(`${name}: the most for ground area, ${display(product.rate, units)}, lowers the dose.`)
  for (const limit of product.limits) {
    if (limit.within !== false) continue
    const value = display({ value: limit.value!, unit: limit.unit }, units)
    if (limit.form === 'max_rate') {
      const most = display({ value: limit.high, unit: limit.unit }, units)
      lines.push(`${name}: ${value} is above the most for ground area, ${most} (${safeLine(limit.place)}).`)
      continue
    }
    lines.push(
      `${name}: ${value} is not within the label's ${displayRange(limit, units)} against ${safeLine(limit.against)} (${safeLine(limit.place)}).`,
    )
  }
  const { rounded } = product
  if (rounded?.why) lines.push(`${name}: a fill takes ${rounded.why}; weigh it on a finer one.`)
  else if (rounded?.effect !== null && rounded)
    lines.push(`${name}: rounding for the scale makes ${signed(rounded.effect!)} % of the whole.`)
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
