import { potentialAlcohol, roughAlcohol } from '../../agronomy/ripening/potential-alcohol.ts'
import { brixAcidRatio, brixPhSquared } from '../../agronomy/ripening/ripeness-index.ts'
import { sugarPerLitre } from '../../agronomy/ripening/sugar-content.ts'
import { type SugarLoading, sugarLoading, sugarPerBerry } from '../../agronomy/ripening/sugar-per-berry.ts'
import { readingsNeeded } from '../../agronomy/statistics/sample-size.ts'
import type { CourseChart } from '../../facts/charts/course-chart.ts'
import { CAUTION, makeReport, type Report, type ReportInput } from '../../facts/report.ts'
import { blockChart } from '../../facts/ripeness/chart.ts'
import { type PressBias, pressBias } from '../../facts/ripeness/press-bias.ts'
import { type BlockSample, samplesOf } from '../../facts/ripeness/samples.ts'
import { type RipenessTrend, trendOf } from '../../facts/ripeness/trend.ts'
import { upperFirst } from '../../facts/sentences.ts'
import { windowOf } from '../../facts/window/block-window.ts'
import { dayOf } from '../../records/date.ts'

/** Half-width of the 95 % interval, in Brix, that a sample is to have. */
const WANTED_MARGIN = 0.5

export type RipenessSample = ReturnType<typeof describe>

export interface RipenessData {
  samples: RipenessSample[]
  trends: RipenessTrend[]
  pressBias: PressBias
  charts: { block: string; chart: CourseChart | null }[]
}

interface RipenessOptions {
  /** Draws each block's window into its chart, by the records that `window` reads. */
  windows?: boolean | undefined
}

/** The samples of the season, how fast the blocks ripen, and the field-to-press difference. */
export function ripeness(input: ReportInput, options: RipenessOptions = {}): Report<RipenessData> {
  const { ledger, season, asOf, blocks } = input
  const bias = pressBias(ledger, asOf)
  const perBlock = blocks.map((block) => ({
    block,
    samples: samplesOf(ledger, { block: block.id, season, asOf }),
  }))
  const samples = perBlock.flatMap(({ samples }) => {
    const earlier = lastWeighed(samples)
    return samples.map((sample, index) => describe(sample, { earlier: earlier[index]!, bias }))
  })
  const data = {
    samples: samples.sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0)),
    trends: perBlock.map(({ block, samples }) => trendOf(block.id, samples)),
    pressBias: bias,
    charts: blocks.map((block) => {
      const window = options.windows ? windowOf(block, input) : undefined
      const title = `${block.name}: sugar, acid and pH${window?.likely ? `, and when ${window.target} Brix is reached` : ''}`
      return { block: block.id, chart: blockChart(block, input, { title, window }) }
    }),
  }
  return makeReport('ripeness', input, { data, cautions: [CAUTION.estimate] })
}

function describe(
  { entry, facts }: BlockSample,
  { earlier, bias }: { earlier: BlockSample | null; bias: PressBias },
) {
  const brix = facts.brix?.mean ?? null
  const grams = brix === null ? null : sugarPerLitre(brix).value
  const alcohol = brix === null ? null : potentialAlcohol(brix)
  const ta = facts.ta?.mean ?? null
  const ph = facts.ph?.mean ?? null
  const sound = brix !== null && brix > 0
  return {
    date: entry.date,
    block: entry.block,
    berries: entry.berries ?? null,
    /** How many readings the mean is based on, and what one was taken of. */
    readings: facts.readings.length,
    of: entry.of ?? null,
    brix,
    brixLow: facts.brix?.low ?? null,
    brixHigh: facts.brix?.high ?? null,
    /** Brix with the field-to-press difference of past picks; null without any. */
    brixAtPress: brix === null || bias.mean === null ? null : brix + bias.mean,
    sugarPerLitre: grams === null ? null : { value: grams, unit: 'g/L' },
    potentialAlcohol: alcohol && { low: alcohol.low, likely: alcohol.likely, high: alcohol.high },
    roughAlcohol: brix === null ? null : roughAlcohol(brix),
    ph,
    ta: ta === null ? null : { value: ta, unit: 'g/L' },
    endPoint: facts.endPoint,
    brixAcidRatio: sound && ta !== null && ta > 0 ? brixAcidRatio(brix, ta) : null,
    brixPhSquared: sound && ph !== null ? brixPhSquared(brix, ph) : null,
    /** g, and mg of sugar in a berry. */
    berryWeight: facts.berryWeight,
    sugarPerBerry:
      brix === null || facts.berryWeight === null ? null : sugarPerBerry(facts.berryWeight, brix),
    /** What happened to the sugar of the berries since the sample before. */
    loading: loadingOf({ entry, facts }, earlier),
    seeds: entry.seeds ?? null,
    taste: entry.taste ?? null,
    ...sufficiency({ entry, facts }),
    remarks: facts.remarks,
  }
}

/** Whether the mean is known to 0.5 Brix, and how many readings more it takes; null where `why` says so. */
function sufficiency({ facts }: BlockSample): {
  enough: boolean | null
  needed: number | null
  why: string | null
} {
  if (!facts.brix) return { enough: null, needed: null, why: facts.why ?? 'no sugar measured' }
  const { n, low, mean, sd } = facts.brix
  if (low === null || sd === null) {
    const pooled =
      n === 1
        ? 'one pooled reading shows no spread, so it has no interval'
        : 'two readings are too few for an interval'
    const rule =
      'read five bags of 100 berries one by one for about ±0.5 Brix (Fiola, University of Maryland Extension)'
    return { enough: null, needed: null, why: `${pooled}. ${upperFirst(rule)}` }
  }
  const total = readingsNeeded({ sd, margin: WANTED_MARGIN })
  return { enough: mean - low <= WANTED_MARGIN, needed: Math.max(0, total - n), why: null }
}

/** For each sample of a block, oldest first, the last one of an earlier day that has sugar and a berry weight. */
function lastWeighed(samples: readonly BlockSample[]): (BlockSample | null)[] {
  let before: BlockSample | null = null
  let today: BlockSample | null = null
  let date = ''
  return samples.map((sample) => {
    if (sample.entry.date !== date) {
      before = today ?? before
      today = null
      date = sample.entry.date
    }
    if (sample.facts.brix && sample.facts.berryWeight !== null) today = sample
    return before
  })
}

function loadingOf({ entry, facts }: BlockSample, last: BlockSample | null): SugarLoading | null {
  if (!last || !facts.brix || facts.berryWeight === null) return null
  const berry = (sample: BlockSample) => ({
    day: dayOf(sample.entry.date),
    weight: sample.facts.berryWeight!,
    brix: sample.facts.brix!.mean,
  })
  return sugarLoading(berry(last), berry({ entry, facts }))
}
