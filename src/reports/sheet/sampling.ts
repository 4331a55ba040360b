import { readingsNeeded } from '../../agronomy/statistics/sample-size.ts'
import { vinesOf } from '../../facts/block-size.ts'
import { drawPlaces } from '../../facts/places.ts'
import type { ReportInput } from '../../facts/report.ts'
import { sampleDays } from '../../facts/ripeness/sample-day.ts'
import { type BlockSample, samplesOf } from '../../facts/ripeness/samples.ts'
import { windowOf } from '../../facts/window/block-window.ts'
import { nextSampleText } from '../../facts/window/sentences.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Block } from '../../records/kinds/block.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import type { BlockSheet, SheetLine, SheetOptions } from './sheet-block.ts'

/** Half width of the interval wanted, Brix: that of `ripeness`. */
const MARGIN = 0.5

/** Bags and berries of each that give about ±0.5 Brix, read one by one (Fiola, University of Maryland Extension). */
const BAGS = 5
const BERRIES = 100

/** Vines that the berries of a bag come from. Common practice, no source. */
const VINES = 10

/** A berry sample of a block: bags or single readings, where each is taken, and what is read of it. */
export function samplingSheet(block: Named<Block>, input: ReportInput, options: SheetOptions): BlockSheet {
  const { ledger, season, asOf } = input
  const samples = samplesOf(ledger, { block: block.id, season, asOf })
  const last = samples.at(-1)
  const readings = readingsFor(samples, options.precision ?? MARGIN)
  const bags = readings.what === 'bag'
  const each = bags ? Math.min(options.vines ?? VINES, vinesOf(block).alive) : 1
  const next = nextSampleText(windowOf(block, input), asOf)
  return {
    last: last ? [sayLast(samples, last.entry.date)] : [],
    next: next ? [next] : [],
    wanted: [
      {
        what: PLURAL[readings.what],
        units: readings.units,
        perVine: bags ? Math.ceil(BERRIES / each) : 1,
        why: readings.why,
      },
    ],
    leavesOut: [],
    columns: ['Brix', 'pH', 'TA g/L'],
    lines: linesOf(block, { seed: options.seed, count: readings.units, each, word: readings.what }),
    once: ['temperature of the juice', 'seeds and skins', 'taste'],
    typeIn: `rowbook note sample --block ${block.id} --of ${readings.what}${bags ? ` --berries ${readings.units * BERRIES}` : ''} --brix __,__ --ph __ --ta "__ g/L"`,
  }
}

/** What the readings are taken of, in words. */
const PLURAL = { bag: `bags of ${BERRIES} berries`, berry: 'berries', bunch: 'bunches', vine: 'vines' }

type ReadingOf = keyof typeof PLURAL

/** How many readings the wanted margin takes, by the newest sample that shows a spread; else the bags of the handbook. */
function readingsFor(
  samples: readonly BlockSample[],
  margin: number,
): { what: ReadingOf; units: number; why: string } {
  const spread = samples.findLast(
    ({ entry, facts }) => facts.brix && facts.brix.sd !== null && facts.brix.n >= 3 && entry.of,
  )
  if (!spread)
    return {
      what: 'bag',
      units: BAGS,
      why: 'for about ±0.5 Brix, each bag read by itself (Fiola, University of Maryland Extension)',
    }
  const { sd } = spread.facts.brix!
  return {
    what: spread.entry.of!,
    units: readingsNeeded({ sd: sd!, margin }),
    why: `for ±${margin} Brix, if they vary as on ${spokenDate(spread.entry.date)}`,
  }
}

/** The places are drawn together and dealt out to the bags in turn, so that every bag comes from the whole block. */
function linesOf(
  block: Named<Block>,
  { seed, count, each, word }: { seed: string; count: number; each: number; word: string },
): SheetLine[] {
  const places = drawPlaces(block, { seed, count: count * each })
  return Array.from({ length: count }, (_, line) => ({
    label: `${word} ${line + 1}`,
    places: places.filter((_, index) => index % count === line),
  }))
}

/** What the samples of a day measured. */
function sayLast(samples: readonly BlockSample[], day: IsoDate): string {
  const [brix, ph, ta] = (['brix', 'ph', 'ta'] as const).map((of) =>
    sampleDays(samples, of).find(({ date }) => date === day),
  )
  const parts = [
    brix && `${brix.mean.toFixed(1)} Brix`,
    ph && `pH ${ph.mean.toFixed(2)}`,
    ta && `TA ${ta.mean.toFixed(1)} g/L`,
  ].filter(Boolean)
  return `${spokenDate(day)}: ${parts.length > 0 ? parts.join(', ') : 'no sugar or acid measured'}`
}
