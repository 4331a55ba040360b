import type { Product, Use } from '../../records/product.ts'
import type { Disease } from '../../records/target.ts'
import type { ReportInput } from '../report.ts'

/**
 * The `mix` command for products on blocks, as it runs: the dose that was last used, else the label's most; water and
 * sprayer of the last spray. What isn't recorded is left out, and `mix` asks for it.
 */
export function mixCommand(
  { ledger, season, asOf }: Omit<ReportInput, 'blocks'>,
  {
    blocks,
    products,
    diseases,
  }: { blocks: readonly string[]; products: readonly string[]; diseases: readonly Disease[] },
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
    const dose = fits ? rate : label && { value: label.high, unit: label.unit }
    return [` --product "${id}${dose ? `=${dose.value} ${dose.unit}` : ''}"`]
  })
  return [
    'rowbook mix',
    ...blocks.map((id) => ` --block ${id}`),
    ...doses,
    last?.water ? ` --water "${last.water.value} L/ha"` : '',
    sprayer === undefined ? '' : ` --sprayer ${sprayer}`,
  ].join('')
}

function labelRange(product: Product, diseases: readonly Disease[]) {
  const use: Use | undefined = product.uses.find(({ against }) => diseases.includes(against as Disease))
  return use?.rate ?? use?.concentration ?? null
}
