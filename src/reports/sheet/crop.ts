import type { SampleSummary } from '../../agronomy/crop/crop-estimate.ts'
import { vinesToCount } from '../../agronomy/crop/vines-to-count.ts'
import { vinesOf } from '../../facts/block-size.ts'
import { type Counts, countsOf } from '../../facts/crop/counts.ts'
import { unitsOf } from '../../facts/ledger-units.ts'
import { drawPlaces } from '../../facts/places.ts'
import type { ReportInput } from '../../facts/report.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Block } from '../../records/kinds/block.ts'
import { spokenDateAsOf } from '../../records/spoken-date.ts'
import { convert } from '../../records/units.ts'
import type { BlockSheet, SheetOptions, Wanted } from './sheet-block.ts'

/** Per cent of the crop, either way: that of `crop`. */
const ERROR = 10

/** Vines and bunches where nothing was counted yet that shows how much they differ. Common practice, no source. */
const FIRST = 20

/** A bunch count of a block: random vines to count, and one bunch of each to weigh where as many are wanted. */
export function cropSheet(
  block: Named<Block>,
  input: ReportInput,
  { seed, precision = ERROR, vines }: SheetOptions,
): BlockSheet {
  const alive = vinesOf(block).alive
  const counts = lastCounts(block.id, input)
  // Counting and weighing each bring half of the variance.
  const half = precision / 100 / Math.SQRT2
  const counted = numberFor(counts?.bunches ?? null, { error: half, vines: alive })
  const weighed = numberFor(counts?.weight ?? null, { error: half })
  const count = Math.max(1, Math.min(vines ?? counted ?? FIRST, alive))
  const why = (known: number | null, date: string | null | undefined) =>
    known === null || !date
      ? 'a first count (common practice, no source), which shows how many more you need'
      : `for the crop to ±${precision} %, if they vary as on ${spokenDateAsOf(date, input.asOf)}`
  const wanted: Wanted[] = [
    { what: 'vines to count', units: count, perVine: null, why: why(counted, counts?.counted) },
    { what: 'bunches to weigh', units: weighed ?? FIRST, perVine: null, why: why(weighed, counts?.weighed) },
  ]
  const unit = unitsOf(input.ledger) === 'metric' ? 'g' : 'oz'
  const perVine = Math.max(1, Math.ceil((weighed ?? FIRST) / count))
  return {
    last: counts ? [sayCounts(counts, { unit, asOf: input.asOf })] : [],
    wanted,
    next: [],
    leavesOut: [
      `Not in the ±${precision} %: growth from lag phase to harvest, fruit lost before picking, and miscounting.`,
    ],
    columns: [
      'bunches',
      ...Array.from({ length: Math.min(perVine, MOST_WEIGHED) }, (_, at) => `bunch ${at + 1}, ${unit}`),
    ],
    lines: drawPlaces(block, { seed, count }).map((place) => ({ label: '', places: [place] })),
    once: ['lag phase or near harvest'],
    typeIn: `rowbook note crop --block ${block.id} --at lag --bunches-per-vine __,__ --bunch-weight "__ ${unit}, __ ${unit}"`,
  }
}

/** Columns of weights that a page has room for. */
const MOST_WEIGHED = 5

/** The newest counts that show a spread: of this season, else of the newest one before. */
function lastCounts(block: string, { ledger, season, asOf }: ReportInput): Counts | null {
  const seasons = [...new Set(ledger.crop.map((entry) => entry.season))].filter((one) => one <= season)
  for (const one of seasons.sort((a, b) => b - a)) {
    const counts = countsOf(ledger, { block, season: one, asOf }).find(
      ({ bunches, weight }) => bunches || weight,
    )
    if (counts) return counts
  }
  return null
}

function numberFor(
  sample: SampleSummary | null,
  { error, vines }: { error: number; vines?: number },
): number | null {
  if (!sample || sample.n < 2 || sample.sd === null || sample.mean <= 0) return null
  return vinesToCount({ cv: sample.sd / sample.mean, error, vines })?.needed ?? null
}

function sayCounts(
  { bunches, weight, counted, weighed }: Counts,
  { unit, asOf }: { unit: 'g' | 'oz'; asOf: IsoDate },
): string {
  const parts = [
    bunches && `${bunches.mean.toFixed(1)} bunches a vine on ${bunches.n} vines`,
    weight &&
      `${convert(weight.mean, 'kg', unit).toFixed(unit === 'g' ? 0 : 1)} ${unit} a bunch, ${weight.n} weighed`,
  ].filter(Boolean)
  return `${spokenDateAsOf((counted ?? weighed)!, asOf)}: ${parts.join(', ')}`
}
