import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Product } from '../../records/kinds/product.ts'
import { areaOf } from '../block-size.ts'
import { figureText } from '../sentences.ts'
import { copperIn } from './actives.ts'
import { applicationsOf } from './applications.ts'
import { copperOf, copperOverYears } from './copper.ts'

/** What one limit still leaves of a product on a block. */
interface Allowance {
  /** kg or L of product per ha of the block. */
  perHa: number
  /** What was used of it: `3.9 kg/ha of copper used this season, of 4 kg/ha`. */
  used: string
}

interface Asked {
  block: string
  product: Named<Product>
  season: number
  date: IsoDate
}

/**
 * What the label's total for a season and the vineyard's copper limits still leave of a product on a block. Empty where no
 * limit is recorded. A dose that isn't known adds nothing, so that each figure is the most that can be left.
 */
export function allowancesOf(ledger: Ledger, { block, product, season, date }: Asked): Allowance[] {
  const sprays = ledger.sprays.filter((spray) => spray.date <= date && spray.blocks.includes(block))
  const past = applicationsOf(ledger, sprays).filter((one) => one.block.id === block)
  const inSeason = past.filter(({ spray }) => spray.season === season)
  const most = product.max_total
  const own = inSeason.filter((one) => one.product.id === product.id)
  const limits: Limit[] = most
    ? [
        {
          sum: sumOf(own.map((one) => (one.total?.value ?? 0) / areaOf(one.block))),
          limit: most.value,
          unit: most.unit,
        },
      ]
    : []
  const metal = copperIn(product)
  const perSeason = ledger.vineyard.limits?.copper?.per_season
  if (metal && perSeason !== undefined)
    limits.push({ sum: sumOf(inSeason.map((one) => copperOf(one) ?? 0)), limit: perSeason, metal })
  const years = metal ? copperOverYears(ledger, past, date) : null
  if (metal && years)
    limits.push({ sum: years.sum ?? 0, limit: years.limit, metal, when: `in ${years.from}-${years.to}` })
  return limits.map(({ sum, limit, metal: part = 1, unit = 'kg/ha', when = 'this season' }) => ({
    perHa: Math.max(0, limit - sum) / part,
    used: `${figureText(sum, unit)}${part === 1 ? '' : ' of copper'} used ${when}, of ${figureText(limit, unit)}`,
  }))
}

interface Limit {
  /** What was used, and the limit, in `unit` of product, else in kg/ha of copper. */
  sum: number
  limit: number
  unit?: string
  /** kg of copper in a kg or L of product, where the limit counts copper. */
  metal?: number
  when?: string
}

const sumOf = (each: readonly number[]) => each.reduce((all, one) => all + one, 0)
