import { highest, lowest } from '../../agronomy/statistics/extremes.ts'
import type { SprayEntry } from '../../ledger/read/ledger.ts'
import type { Disease } from '../../records/disease.ts'
import type { Product } from '../../records/kinds/product.ts'
import type { Sprayer } from '../../records/kinds/sprayer.ts'
import type { Quantity, Range } from '../../records/quantity.ts'
import { typedIn, type Units, unitsOf } from '../ledger-units.ts'
import type { ReportInput } from '../report.ts'
import { isBicarbonate } from '../spraying/actives.ts'
import { allowancesOf } from '../spraying/allowance.ts'
import { stockOf } from '../spraying/stock.ts'

interface Mix {
  blocks: readonly string[]
  products: readonly string[]
  diseases: readonly Disease[]
  rows?: { from: number; to: number } | null
}

/**
 * The `mix` command for products on blocks, ready to run: the dose within the label that was last used there, else
 * anywhere, else the label's maximum; the water and sprayer last used on most of the blocks. What isn't
 * recorded is left out, and `mix` asks for it. With rows it is a spot spray of those rows, one tank where no water per
 * ground area is known.
 */
export function mixCommand(
  input: Omit<ReportInput, 'blocks'>,
  { blocks, products, diseases, rows = null }: Mix,
): string {
  const { ledger } = input
  const units = unitsOf(ledger)
  const last = usualSpray(pastSprays(input), blocks)
  const sprayer = last?.sprayer ?? (ledger.sprayers.size === 1 ? [...ledger.sprayers.keys()][0] : undefined)
  const doses = withPartners(products, input).map((id) => {
    const { dose, label } = proposed(input, { product: id, blocks, diseases }) ?? {}
    return ` --product "${id}${dose ? `=${typedIn(dose, units, { digits: DIGITS, within: label! })}` : ''}"`
  })
  const water = last?.water
    ? typedIn({ value: last.water.value, unit: 'L/ha' }, units, { digits: DIGITS })
    : rows && tankful(ledger.sprayers.get(sprayer ?? ''), units)
  return [
    rows ? 'rowbook mix --spot' : 'rowbook mix',
    ...blocks.map((id) => ` --block ${id}`),
    rows ? ` --rows ${rows.from === rows.to ? rows.from : `${rows.from}-${rows.to}`}` : '',
    ...doses,
    water ? ` --water "${water}"` : '',
    sprayer === undefined ? '' : ` --sprayer ${sprayer}`,
  ].join('')
}

const pastSprays = ({ ledger, season, asOf }: Omit<ReportInput, 'blocks'>): SprayEntry[] =>
  ledger.sprays.filter((spray) => spray.season <= season && spray.date <= asOf)

/** The dose of a product that its command gives, the doses that it may have, and the water; null where none is known. */
export function proposed(
  input: Omit<ReportInput, 'blocks'>,
  { product: id, blocks, diseases }: Omit<Mix, 'products' | 'rows'> & { product: string },
) {
  const { ledger, season, asOf } = input
  const product = ledger.products.get(id)
  if (!product) return null
  const past = pastSprays(input)
  const water = usualSpray(past, blocks)?.water
  const left = blocks.flatMap((block) => allowancesOf(ledger, { block, product, season, date: asOf }))
  const label = labelRange(product, { diseases, water: water?.value, left })
  if (label === null) return null
  const usual = usualDose(past, { product: id, label, blocks }) ?? label.high
  return { dose: { value: gentle(product, label, usual), unit: label.unit }, label, water }
}

/** Products with the partners that their labels require: for each, the first that is recorded and not used up. */
function withPartners(
  products: readonly string[],
  { ledger, asOf }: Pick<ReportInput, 'ledger' | 'asOf'>,
): string[] {
  const isThere = (id: string) => {
    const product = ledger.products.get(id)
    return product !== undefined && (stockOf(ledger, product, asOf)?.left ?? 1) > 0
  }

  const partners = products.flatMap((id) => {
    const needed = ledger.products.get(id)?.with ?? []
    return needed.some((one) => products.includes(one)) ? [] : (needed.find(isThere) ?? [])
  })
  return [...new Set([...products, ...partners])]
}

/** The newest spray with the water and sprayer last used on most of the blocks; sprays of whole blocks come first. */
function usualSpray(past: readonly SprayEntry[], blocks: readonly string[]): SprayEntry | undefined {
  const lasts = blocks.flatMap((block) => {
    const own = past.filter((spray) => spray.water?.unit === 'L/ha' && spray.blocks.includes(block))
    return own.findLast(isWhole) ?? own.at(-1) ?? []
  })
  const like = (one: SprayEntry) =>
    lasts.filter((other) => other.sprayer === one.sprayer && other.water!.value === one.water!.value).length
  return lasts.toSorted((a, b) => like(b) - like(a) || (a.date < b.date ? 1 : -1))[0]
}

const isWhole = ({ rows, share, vines, method }: SprayEntry) =>
  rows === undefined && share === undefined && vines === undefined && method !== 'spot'

/** The dose within the label last used on one of the blocks, else anywhere; null where there is none. */
function usualDose(
  past: readonly SprayEntry[],
  { product, label, blocks }: { product: string; label: Range; blocks: readonly string[] },
): number | null {
  const doses = past.flatMap((spray) =>
    spray.products.flatMap((part) => {
      const dose = part.product === product ? (part.rate ?? part.concentration) : undefined
      const fits = dose && dose.unit === label.unit && dose.value >= label.low && dose.value <= label.high
      return fits ? [{ dose, here: spray.blocks.some((id) => blocks.includes(id)) }] : []
    }),
  )
  return (doses.findLast(({ here }) => here) ?? doses.at(-1))?.dose.value ?? null
}
/** Significant digits of a dose, as many as labels give. */
const DIGITS = 3

/** One tank of spray, where the sprayer's record gives no water per hectare; null where it does, or there is none. */
const tankful = (sprayer: Sprayer | undefined, units: Units): string | null =>
  !sprayer || sprayer.water !== undefined || (sprayer.flow !== undefined && sprayer.speed !== undefined)
    ? null
    : typedIn({ value: sprayer.tank, unit: 'L' }, units)

/** g/L of bicarbonate above which it can burn leaves in heat. Common practice, no source. */
const GENTLE = 10

/** The dose; for bicarbonate capped below what burns leaves, where the label allows so little. */
const gentle = (product: Product, { low, unit }: Range, dose: number): number =>
  isBicarbonate(product) && unit === 'g/L' ? Math.min(dose, Math.max(low, GENTLE)) : dose

/**
 * The doses that the label allows against all of the diseases, and its total and the copper limits still leave, in the
 * label's own unit; null where there are none.
 */
function labelRange(
  product: Product,
  from: { diseases: readonly Disease[]; water: number | undefined; left: readonly { perHa: number }[] },
): Range | null {
  const { diseases, water, left } = from
  const own = product.uses.filter(({ against }) => diseases.includes(against as Disease))
  // A partner's label need not name the disease.
  const uses = own.length > 0 ? own : product.uses.slice(0, 1)
  const first = uses[0]?.rate ?? uses[0]?.concentration
  if (!first) return null
  const { unit } = first
  const all = uses.flatMap(({ rate, concentration, max_rate: most }) => [
    ...[rate, concentration].flatMap((one) => (one?.unit === unit ? one : [])),
    ...(most === undefined ? [] : mostIn(unit, most, water)),
    ...left.flatMap(({ perHa }) => mostIn(unit, { value: perHa, unit: GROUND[unit] ?? '' }, water)),
  ])
  return { low: highest(all.map(({ low }) => low)), high: lowest(all.map(({ high }) => high)), unit }
}

/** The unit for ground area of doses in a unit. */
const GROUND: Readonly<Record<string, string>> = {
  'kg/ha': 'kg/ha',
  'L/ha': 'L/ha',
  'g/L': 'kg/ha',
  'mL/L': 'L/ha',
}

/** A maximum for ground area as a limit in the unit of its doses, for the water sprayed. */
function mostIn(unit: string, { value, unit: perHa }: Quantity, water: number | undefined): Range[] {
  if (perHa === unit) return [{ low: 0, high: value, unit }]
  return GROUND[unit] === perHa && water ? [{ low: 0, high: (value * 1000) / water, unit }] : []
}
