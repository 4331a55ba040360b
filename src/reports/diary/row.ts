import { type Application, applicationsOf } from '../../facts/spraying/applications.ts'
import type { Clearance } from '../../facts/spraying/clearance.ts'
import { daysBeforeHarvest, usesFor } from '../../facts/spraying/label.ts'
import { overLabelSentence } from '../../facts/spraying/over-label.ts'
import { keepOutOf, reEntryEnd } from '../../facts/spraying/re-entry.ts'
import { earliestPick } from '../../facts/spraying/spray-end.ts'
import type { Ledger, SprayEntry } from '../../ledger/read/ledger.ts'
import { placeOf } from '../../ledger/read/source.ts'
import type { IsoDate } from '../../records/date.ts'
import type { ReEntry } from '../../records/fields/label-fields.ts'
import type { Spray } from '../../records/kinds/spray.ts'
import type { Quantity } from '../../records/quantity.ts'
import { clockText } from '../../records/typed/time-range.ts'

export interface MissingField {
  field: string
  what: string
  /** How and where to record it. */
  write: string
}

/** One product of one spray on one block, as an inspector asks for it. */
export type DiaryRow = ReturnType<typeof diaryRows>[number]

/** The rows of the sprays given, oldest first; `missing` is still empty. */
export function diaryRows(ledger: Ledger, wanted: (application: Application) => boolean) {
  const applications = applicationsOf(ledger).filter(wanted)
  const sprays = [...new Set(applications.map(({ spray }) => spray))]
  return applications.map((application) => ({
    /** Which spray of the span it belongs to, counted from 1. */
    spray: sprays.indexOf(application.spray) + 1,
    ...toRow(ledger, application),
  }))
}

function toRow(ledger: Ledger, application: Application) {
  const { spray, block, product, area, waterPerHa } = application
  const part = spray.products[application.part]!
  const days = daysBeforeHarvest(product, part.for)
  const { over, unknown, overLabel } = keepOutOf(ledger, spray)
  const isOver = overLabel.length > 0
  const cleared = over?.cleared ?? null
  const place = placeOf(spray.source, ['products', application.part])
  const { start, end } = spray.time ?? { start: null, end: null }
  const weather = spray.weather ?? {}
  return {
    date: spray.date,
    /** Clock times in the vineyard's zone; `end` on a later day carries `+1`. */
    start: start === null ? null : clockText(start),
    end: end === null ? null : `${clockText(end)}${end >= 1440 ? ' +1' : ''}`,
    block: block.id,
    blockName: block.name,
    /** Parcel number, or the file with the outline; null where neither is written. */
    place: block.location ?? (block.boundary === undefined ? null : `outline in blocks/${block.boundary}`),
    area: area === null ? null : { value: area, unit: 'ha' },
    /** How much of the block that is: `whole`, `rows 1-8`, `50 %`. */
    part: partOf(spray),
    crop: 'grapevine' as const,
    cropCode: 'VITVI' as const,
    typeOfUse: spray.method === 'closed-space' ? ('closed space' as const) : ('area' as const),
    method: spray.method ?? null,
    product: product.id,
    productName: product.name,
    formulation: product.form,
    authorisation: product.authorisation?.number ?? null,
    actives: product.actives.map(({ name, content, group }) => ({
      name,
      content: content ?? null,
      group: group ?? null,
    })),
    dose: application.perHa,
    total: application.total,
    concentration: application.concentration,
    /** What stands in the way of dose and total, in words. */
    doseMissing: application.missing,
    waterPerHa: waterPerHa === null ? null : { value: waterPerHa, unit: 'L/ha' },
    water: waterOfRow(application),
    /** What it was against, as written; null where the entry doesn't say. */
    reason: part.for ?? null,
    stage: spray.stage ?? null,
    /** Whether the label limits the use to growth stages, or the product to times of day. */
    stageNeeded: usesFor(product, part.for).some(({ use }) => use.stages !== undefined),
    startNeeded: product.hours !== undefined,
    operator: spray.operator ?? null,
    certificate: spray.certificate ?? null,
    sprayer: spray.sprayer === undefined ? null : (ledger.sprayers.get(spray.sprayer)?.name ?? spray.sprayer),
    wind: weather.wind === undefined ? null : { value: weather.wind, unit: 'm/s' },
    windFrom: weather.from ?? null,
    /** °C and % */
    temperature: weather.temperature ?? null,
    humidity: weather.humidity ?? null,
    /** Days; the day from which picking is allowed by the cautious count. */
    beforeHarvest: days,
    pickFrom: pickFromOf(application, { days, isOver, cleared }),
    /** Hours, or `until dry`, of what decides among the products of the spray; null where one of them gives none. */
    reEntry: unknown.length > 0 ? null : labelReEntry(ledger, spray),
    /** Null too where the spray was over the label: `overLabel` says so. */
    reEntryUntil: unknown.length > 0 ? null : (over?.iso ?? null),
    /** The sentence shown in place of waiting dates where a product was used over its label; else null. */
    overLabel: isOver ? overLabelSentence(overLabel) : null,
    /** What an adviser or the authority decided after a use over the label; null where there was none. */
    cleared,
    note: spray.note ?? null,
    file: place.file,
    line: place.line,
    missing: [] as MissingField[],
  }
}

/** The day from which picking is allowed: the later one of the label's and of a clearance; null where none is known. */
function pickFromOf(
  { spray }: Application,
  { days, isOver, cleared }: { days: number | null; isOver: boolean; cleared: Clearance | null },
): IsoDate | null {
  if (isOver) return null
  const byLabel = days === null ? null : earliestPick(spray, days).cautious
  if (!cleared) return byLabel
  return byLabel !== null && byLabel > cleared.pickFrom ? byLabel : cleared.pickFrom
}

/** Litres on the block; a spot spray of one block has them written, whatever its area. */
function waterOfRow({ spray, waterPerHa, area }: Application): Quantity | null {
  if (waterPerHa !== null && area !== null) return { value: waterPerHa * area, unit: 'L' }
  return spray.water?.unit === 'L' && spray.blocks.length === 1 ? spray.water : null
}

function partOf({ rows, vines, share, method }: Spray): string {
  if (vines !== undefined) return vines === 1 ? '1 vine' : `${vines} vines`
  if (method === 'spot' && rows === undefined && share === undefined) return 'spots, extent not recorded'
  if (rows) return rows.low === rows.high ? `row ${rows.low}` : `rows ${rows.low}-${rows.high}`
  return share === undefined || share === 100 ? 'whole' : `${share} %`
}

/** The re-entry interval of a mix as its labels word it: of the product that decides. */
function labelReEntry(ledger: Ledger, spray: SprayEntry): ReEntry | null {
  const products = spray.products.flatMap(({ product }) => ledger.products.get(product) ?? [])
  const end = reEntryEnd(spray, products, { zone: ledger.vineyard.timezone })
  return end && (end.hours ?? 'until dry')
}
