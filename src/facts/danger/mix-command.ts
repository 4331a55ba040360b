import type { Product, Use } from '../../records/product.ts'
import type { Range } from '../../records/quantity.ts'
import type { Sprayer } from '../../records/sprayer.ts'
import type { Disease } from '../../records/target.ts'
import type { ReportInput } from '../report.ts'
import { isBicarbonate } from '../spraying/actives.ts'

/**
 * The `mix` command for products on blocks, as it runs: the dose that was last used, else the label's most; water and
 * sprayer of the last spray. What isn't recorded is left out, and `mix` asks for it. With rows it is a spot spray of
 * these, one tank of it where no water for ground area is known.
 */
export function mixCommand(
  { ledger, season, asOf }: Omit<ReportInput, 'blocks'>,
  {
    blocks,
    products,
    diseases,
    rows = null,
  }: {
    blocks: readonly string[]
    products: readonly string[]
    diseases: readonly Disease[]
    rows?: { from: number; to: number } | null
  },
): string {
  const past = ledger.sprays.filter((spray) => spray.season <= season && spray.date <= asOf)
  const last = past.findLast(
    (spray) => spray.water?.unit === 'L/ha' && spray.blocks.some((id) => blocks.includes(id)),
  )
  const sprayer = last?.sprayer ?? (ledger.sprayers.size === 1 ? [...ledger.sprayers.keys()][0] : undefined)
  const doses = products.flatMap((id) => {
    const product = ledger.products.get(id)
    const part = past.findLast(({ products: all }) => all.some((one) => one.product === id && one.rate))
    const rate = part?.products.find((one) => one.product === id)?.rate
    const label = product ? labelRange(product, diseases) : null
    const fits =
      rate && label && rate.unit === label.unit && rate.value >= label.low && rate.value <= label.high
    const dose = fits ? rate : product && label && { value: wantedOf(product, label), unit: label.unit }
    return [` --product "${id}${dose ? `=${dose.value} ${dose.unit}` : ''}"`]
  })
  return [
    rows ? 'rowbook mix --spot' : 'rowbook mix',
    ...blocks.map((id) => ` --block ${id}`),
    rows ? ` --rows ${rows.from === rows.to ? rows.from : `${rows.from}-${rows.to}`}` : '',
    ...doses,
    last?.water
      ? ` --water "${last.water.value} L/ha"`
      : rows
        ? tankful(ledger.sprayers.get(sprayer ?? ''))
        : '',
    sprayer === undefined ? '' : ` --sprayer ${sprayer}`,
  ].join('')
}

/** A tank of spray, where the sprayer's record doesn't say what it puts on a hectare. */
function tankful(sprayer: Sprayer | undefined): string {
  if (!sprayer || sprayer.water !== undefined) return ''
  return sprayer.flow !== undefined && sprayer.speed !== undefined ? '' : ` --water ${sprayer.tank}L`
}

/** g/L of bicarbonate above which it can burn leaves in heat. Common practice, no source. */
const GENTLE = 10

/** The label's most; of bicarbonate no more than what burns no leaves, where the label allows so little. */
const wantedOf = (product: Product, { low, high, unit }: Range): number =>
  isBicarbonate(product) && unit === 'g/L' ? Math.min(high, Math.max(low, GENTLE)) : high

function labelRange(product: Product, diseases: readonly Disease[]) {
  const use: Use | undefined = product.uses.find(({ against }) => diseases.includes(against as Disease))
  return use?.rate ?? use?.concentration ?? null
}
