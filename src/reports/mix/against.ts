import { daysBeforeHarvest, shortestInterval } from '../../facts/spraying/label.ts'
import { type OverLabel, overLabelOf, withSpray } from '../../facts/spraying/over-label.ts'
import { reEntryEnd, withoutReEntry } from '../../facts/spraying/re-entry.ts'
import { earliestPick } from '../../facts/spraying/spray-end.ts'
import { type Stock, stockOf } from '../../facts/spraying/stock.ts'
import { byPlace, type Finding } from '../../ledger/read/finding.ts'
import type { Ledger, Named, SprayEntry } from '../../ledger/read/ledger.ts'
import { placed } from '../../ledger/read/source.ts'
import { addDays, type IsoDate } from '../../records/date.ts'
import type { Product } from '../../records/kinds/product.ts'
import { RULES } from '../../rules/index.ts'
import { notAuthorisedFor, offTarget } from '../../rules/label/authorisation.ts'
import { findingsOf } from '../../rules/rule.ts'
import { twinOf } from '../../rules/slips/entered-twice.ts'
import { asWritten, type MixProduct } from './amounts.ts'
import { extentFields, type MixJob, volumeOf } from './job.ts'

/** The file that findings about a mix are said to stand in: it isn't written yet. */
const THIS_MIX = 'this mix'

/** The entry that the mix would become, so that the rules can judge it before a drop is mixed. */
export function asEntry(
  job: MixJob,
  spray: Pick<SprayEntry, 'date' | 'season'> & Partial<Pick<SprayEntry, 'time' | 'sprayer'>>,
  blocks: readonly string[],
): SprayEntry {
  const entry = {
    ...spray,
    blocks: [...blocks],
    water:
      job.waterPerHa === null || job.spot
        ? { value: volumeOf(job), unit: 'L' }
        : { value: job.waterPerHa, unit: 'L/ha' },
    ...extentFields(job),
    ...(job.dilutePerHa === undefined ? {} : { dilute: job.dilutePerHa }),
    products: job.parts
      .filter(({ product }) => product !== null)
      .map(({ id, dose, targets }) => ({
        product: id,
        ...asWritten(dose),
        ...(targets ? { for: [...targets] } : {}),
      })),
  }
  return placed(entry, {
    at: { file: THIS_MIX, text: '' },
    node: { kind: 'map', start: 0, end: 0, entries: [] },
  }) as SprayEntry
}

/** The spray of the ledger that a mix was recorded as: on its day, the same products on all of its blocks; else null. */
export function recordedAs({ sprays }: Ledger, entry: SprayEntry): SprayEntry | null {
  const sameDay = sprays.filter(
    ({ date, blocks }) => date === entry.date && entry.blocks.every((id) => blocks.includes(id)),
  )
  return (twinOf('sprays', entry, sameDay)?.entry as SprayEntry | undefined) ?? null
}

/** What the rules say against the mix: findings that the ledger has only with it. */
export function against(
  ledger: Ledger,
  entry: SprayEntry,
  heatAhead?: ReadonlyMap<number, number>,
): Finding[] {
  const judgedOn = { asOf: entry.date, seasons: new Set([entry.season]), heatAhead }
  const withIt = { ...judgedOn, ledger: withSpray(ledger, entry) }
  const without = { ...judgedOn, ledger }
  return RULES.flatMap((rule) => {
    const found = findingsOf(rule, withIt)
    // What stands in the mix itself is new; only where something else is reported too need the ledger be judged without.
    if (found.every(({ file }) => file === THIS_MIX)) return found
    const before = new Set(findingsOf(rule, without).map(key))
    return found.filter((finding) => !before.has(key(finding)))
  })
    .concat(entry.blocks.length === 0 ? withoutBlock(ledger, entry) : [])
    .sort(byPlace)
}

/** What a label says against the targets of a mix for no block, which the rules, going by block, don't see. */
const withoutBlock = (ledger: Ledger, entry: SprayEntry): Finding[] =>
  entry.products.flatMap(({ product: id }, part) => {
    const product = ledger.products.get(id)
    return product && product.kind !== 'adjuvant'
      ? offTarget(entry, product, part).map((one) => ({ ...one, name: notAuthorisedFor.name }))
      : []
  })

const key = ({ name, file, line, column, message }: Finding) => [name, file, line, column, message].join('\n')

/** The products of a mix that are over their label in dose, or would be one time too many, too much or too late. */
export function overWith(dose: readonly OverLabel[], ledger: Ledger, entry: SprayEntry): OverLabel[] {
  const told = new Set(dose.map(({ product }) => product))
  const rest = overLabelOf(withSpray(ledger, entry), entry)
  return [...dose, ...rest.filter(({ product }) => !told.has(product))]
}

/** What follows from a mix when it is sprayed out at the time given. */
export type MixAfter = ReturnType<typeof afterMix> & { stock: ReturnType<typeof stockAfter> }

/** Works out what follows, from the records of the products. Over the label no date follows. */
export function afterMix(
  spray: Pick<SprayEntry, 'date' | 'time'>,
  parts: readonly { product: Named<Product>; targets: readonly string[] | undefined }[],
  ledger: Ledger,
  overLabel: readonly OverLabel[] = [],
) {
  const products = parts.map(({ product }) => product)
  const isOver = overLabel.length > 0
  const over = isOver ? null : reEntryEnd(spray, products, { zone: ledger.vineyard.timezone })
  const waits = parts.map(({ product, targets }) => ({
    product: product.id,
    days: daysBeforeHarvest(product, targets),
  }))
  const known = waits.flatMap(({ product, days }) => (days === null ? [] : { product, days }))
  const longest = known.toSorted((a, b) => b.days - a.days)[0]
  return {
    date: spray.date,
    /** Minutes after midnight at which spraying ends; null where no time was given, which counts as the end of the day. */
    ends: spray.time?.end ?? null,
    /** ISO time with offset, and hours (null: until dry); null where no label says, or over the label. */
    reEntry: over && { until: over.iso, date: over.date, minutes: over.minutes, hours: over.hours },
    /** Products whose labels give no hours of re-entry. */
    reEntryUnknown: withoutReEntry(products),
    /** First day of picking by the longest wait among the products, by both readings. */
    harvest: longest && !isOver ? { ...earliestPick(spray, longest.days), ...longest } : null,
    /** What is over the label: no waiting time holds for it, and none is named. */
    overLabel,
    harvestUnknown: waits.flatMap(({ product, days }) => (days === null ? product : [])),
    next: parts.map(({ product, targets }) => {
      const interval = shortestInterval(product, targets)
      return {
        product: product.id,
        date: isOver ? null : interval && addDays(spray.date, Math.ceil(interval.days)),
        days: interval?.days ?? null,
      }
    }),
  }
}

/** The store of each product before and after the mix. */
export function stockAfter(
  ledger: Ledger,
  asOf: IsoDate,
  products: readonly Pick<MixProduct, 'product' | 'total'>[],
): ({ product: string; after: number | null } & Stock)[] {
  return products.flatMap(({ product: id, total }) => {
    const product = ledger.products.get(id)
    const stock = product && stockOf(ledger, product, asOf)
    if (!stock) return []
    const after = stock.left === null || stock.unit !== total?.unit ? null : stock.left - total.value
    return [{ product: id, after, ...stock }]
  })
}
