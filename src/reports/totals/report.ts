import type { BarChart } from '../../facts/charts/bar-chart.ts'
import { CAUTION, makeReport, type Report, type ReportInput } from '../../facts/report.ts'
import type { Application } from '../../facts/spraying/applications.ts'
import { type BlockTotals, sprayedIn, type VineyardTotals } from '../../facts/spraying/season-totals.ts'
import { stockOf } from '../../facts/spraying/stock.ts'
import { sumUp } from '../../facts/spraying/sum.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { type IsoDate, yearOf } from '../../records/date.ts'

export type StockTotals = ReturnType<typeof storeOf>[number]

export interface SeasonTotals {
  season: number
  blocks: BlockTotals[]
  vineyard: VineyardTotals
  store: StockTotals[]
}

export interface TotalsData extends Omit<SeasonTotals, 'season'> {
  /** One entry for each requested season, oldest first; the rest of the data is that of the last. */
  seasons: SeasonTotals[]
}

/** What was sprayed in a season, or in each of several, by block, product, active, group and disease. */
export function totals(input: ReportInput, seasons: readonly number[] = [input.season]): Report<TotalsData> {
  const all = seasons.map((season) => ofSeason(input, season))
  const { season, ...last } = all.at(-1)!
  return makeReport(
    'totals',
    { asOf: input.asOf, season },
    { data: { ...last, seasons: all }, cautions: [CAUTION.clearance] },
  )
}

function ofSeason(input: ReportInput, season: number): SeasonTotals {
  const { day, blocks, vineyard, applications } = sprayedIn(input, season)
  return { season, blocks, vineyard, store: storeOf(input.ledger, applications, day) }
}

function storeOf(ledger: Ledger, inSeason: readonly Application[], day: IsoDate) {
  return sumUp(inSeason, 1).products.map(({ product: id, name, total }) => {
    const product = ledger.products.get(id)!
    const stock = stockOf(ledger, product, day)
    const { price } = product
    const cost =
      price && total && price.per === total.unit
        ? { value: price.value * total.value, currency: price.currency }
        : null
    const counted = product.stocked !== undefined
    return {
      product: id,
      name,
      used: total,
      cost,
      stock: product.stock ?? null,
      left: stock && counted && stock.left !== null ? { value: stock.left, unit: stock.unit } : null,
      why: !stock
        ? 'no `stock` in the record'
        : counted
          ? stock.left === null
            ? 'a use in another unit, or of unknown amount'
            : null
          : 'no day of counting (`stocked`) in the record',
    }
  })
}

/** The blocks of which a vine can have had more copper than the mean, or of which that is unknown. */
export const mostOf = (blocks: readonly BlockTotals[]): BlockTotals[] =>
  blocks.filter(
    ({ copper: { season, most } }) =>
      season !== null && season.value > 0 && (most === null || most.value > season.value * 1.005),
  )

/**
 * The earliest season whose sprays bear on the totals of a season: back to the first year of the copper limit, and
 * to the day on which a product in the store was counted. A year's first days lie in the season before, at most.
 */
export function firstSeasonOfTotals(ledger: Ledger, season: number): number {
  const copper = ledger.vineyard.limits?.copper
  const years = copper?.rolling === undefined ? undefined : copper.years
  const counted = [...ledger.products.values()].flatMap(({ stock, stocked }) =>
    stock && stocked !== undefined ? [yearOf(stocked) - 1] : [],
  )
  return Math.min(years === undefined ? season : season - Math.ceil(years) - 1, ...counted)
}

/** Copper of each block against its limits: of the season, and over the years that the limit counts. */
export function copperCharts({ blocks, vineyard }: Pick<TotalsData, 'blocks' | 'vineyard'>): {
  season: BarChart
  rolling: BarChart
} {
  const bars = (of: 'season' | 'rolling', limit: 'limitSeason' | 'limitRolling') =>
    blocks.flatMap(({ name, copper }) => {
      const value = copper[of]
      return value === null ? [] : [{ name, value: value.value, limit: copper[limit]?.value ?? null }]
    })
  const { years, window } = vineyard.copper
  const over =
    years === null || window === null ? 'over years' : `in the ${years} years ${window.from} to ${window.to}`
  return {
    season: { title: 'Copper as metal, this season', unit: 'kg/ha', bars: bars('season', 'limitSeason') },
    rolling: { title: `Copper as metal, ${over}`, unit: 'kg/ha', bars: bars('rolling', 'limitRolling') },
  }
}
