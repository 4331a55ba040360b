import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import type { Disease } from '../../records/disease.ts'
import type { Quantity } from '../../records/quantity.ts'
import { treatedAreaOf } from '../block-size.ts'
import { inLedgerUnits, unitsOf } from '../ledger-units.ts'
import type { ReportInput } from '../report.ts'
import { doseOf } from '../spraying/dose.ts'
import { stockOf } from '../spraying/stock.ts'
import { proposed } from './mix-command.ts'
import { bestFirst, type Remedy } from './remedies.ts'
import { amountText } from './remedy-facts.ts'

interface Job {
  blocks: readonly string[]
  disease: Disease
  rows?: { from: number; to: number } | null
}

/**
 * The remedies, each with what a spray of the blocks needs where that is more than is left, the best first. Where
 * stock or need isn't known, nothing is said.
 */
export function enoughFirst(
  input: Omit<ReportInput, 'blocks'>,
  remedies: readonly Remedy[],
  job: Job,
): Remedy[] {
  const { ledger, asOf } = input
  return remedies
    .map((remedy) => {
      const left = remedy.may ? stockOf(ledger, ledger.products.get(remedy.product)!, asOf) : null
      const needed = left?.left == null ? null : neededOf(input, { ...job, product: remedy.product })
      const isShort = needed !== null && needed.unit === left!.unit && exceeds(needed.value, left!.left!)
      const needs = isShort
        ? `this spray needs ${amountText(needed.value, needed.unit)}, more than is left`
        : null
      return { ...remedy, short: needs && inLedgerUnits(needs, unitsOf(ledger)) }
    })
    .toSorted(bestFirst(ledger))
}

/** kg or L of a product that its command needs on all of the blocks; null where that isn't known. */
function neededOf(input: Omit<ReportInput, 'blocks'>, of: Job & { product: string }): Quantity | null {
  const { dose, water } = proposed(input, { ...of, diseases: [of.disease] }) ?? {}
  if (!dose) return null
  const product = input.ledger.products.get(of.product)!
  const rows = of.rows ? { low: of.rows.from, high: of.rows.to, unit: '' } : undefined
  const spray = { blocks: [...of.blocks], ...(water && { water }), ...(rows && { rows }) }
  const blocks = of.blocks.map((id) => input.ledger.blocks.get(id)!)
  const areas = blocks.map((block) => treatedAreaOf(spray, block))
  const whole = areas.includes(null) ? null : areas.reduce((sum: number, area) => sum + area!, 0)
  const part = /\/L$|%/.test(dose.unit) ? { concentration: dose } : { rate: dose }
  const totals = blocks.map(
    (block, at) => doseOf({ spray, part, product, block, area: areas[at]!, whole }).total,
  )
  return totals.every((total) => total !== null)
    ? { value: totals.reduce((sum, { value }) => sum + value, 0), unit: totals[0]!.unit }
    : null
}
