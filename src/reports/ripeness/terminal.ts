import { potentialAlcohol, roughAlcohol } from '../../agronomy/ripening/potential-alcohol.ts'
import { inLedgerUnits } from '../../facts/ledger-units.ts'
import type { Report } from '../../facts/report.ts'
import { sampleDayText } from '../../facts/ripeness/sample-day.ts'
import type { Rate, RipenessTrend } from '../../facts/ripeness/trend.ts'
import { upperFirst } from '../../facts/sentences.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { numbers, words } from '../../render/columns.ts'
import { renderCourse } from '../../render/course.ts'
import { dateOr, figure, figureOr, orDash, signed } from '../../render/figure.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, sentences, underAnswer, wrap, wrapAll } from '../../render/text.ts'
import type { RipenessData, RipenessSample } from './report.ts'

interface RipenessNames {
  blocks: ReadonlyMap<string, string>
  /** Print Brix as the press would read it. */
  asPressed: boolean
}

/** The newest sample of each block first, then all samples, then what they are based on. */
export function renderRipeness(
  report: Report<RipenessData>,
  { blocks, asPressed }: RipenessNames,
  style: Style,
): string {
  const { samples, trends, charts, pressBias } = report.data
  const nameOf = (block: string) => blocks.get(block) ?? block
  if (samples.length === 0) return `No samples in season ${report.season} up to ${spokenDate(report.asOf)}.\n`
  const first = trends.map((trend) => headline(trend, { samples, name: nameOf(trend.block) })).filter(Boolean)
  const pressed = asPressed && pressBias.mean !== null
  const shift = pressed ? pressBias.mean! : 0
  const table = renderTable(
    samples,
    [
      words('sampled', ({ date }) => dateOr(date)),
      words('block', ({ block }) => nameOf(block), 16),
      numbers(pressed ? 'Brix at\npress' : 'Brix', ({ brix }) =>
        orDash(brix, (field) => figure(field + shift, 1)),
      ),
      numbers('95 %\ninterval', ({ brixLow: low, brixHigh: high }) =>
        low === null || high === null ? '-' : `${figure(low + shift, 1)}-${figure(high + shift, 1)}`,
      ),
      numbers('sugar\ng/L', ({ sugarPerLitre }) => figureOr(sugarPerLitre?.value ?? null, 0)),
      numbers('likely\n% vol', ({ potentialAlcohol }) => figureOr(potentialAlcohol?.likely ?? null, 1)),
      numbers('pH', ({ ph }) => figureOr(ph, 2)),
      numbers('acid\ng/L', ({ ta }) => figureOr(ta?.value ?? null, 1)),
      numbers('sugar\n:acid', ({ brixAcidRatio }) => figureOr(brixAcidRatio, 0)),
      numbers('B x\npH²', ({ brixPhSquared }) => figureOr(brixPhSquared, 0)),
    ],
    style.columns,
  )
  const courses = charts.flatMap(({ block, chart }) => {
    const course = chart ? renderCourse(chart, style) : ''
    return course === '' ? [] : `${wrap(nameOf(block), style.columns)}\n${course}\n`
  })
  const last = new Set(new Map(samples.map((sample) => [sample.block, sample])).values())
  const lines = new Set([
    ...trends.flatMap((trend) => rateLine(trend, nameOf(trend.block))),
    ...trends.flatMap((trend) => alcoholLine(trend, nameOf(trend.block))),
    ...samples.flatMap((sample) => remarksOf(sample, { nameOf, last: last.has(sample) })),
    ...biasLine(pressBias, asPressed),
  ])
  const below = wrapAll(
    [...lines].map((line) => inLedgerUnits(line, style.units)),
    style.columns,
  )
  return underAnswer(
    `${wrap(first.join(' '), style.columns)}\n\n${table}\n${courses.join('')}${below}\n`,
    report.cautions,
    style.columns,
  )
}

/** What a block may ferment to by its last sampling day: the span of the published methods, and the rough rule as such. */
function alcoholLine({ lastDay }: RipenessTrend, name: string): string[] {
  if (!lastDay) return []
  const { low, likely, high } = potentialAlcohol(lastDay.brix)
  if (low === null || likely === null || high === null) return []
  const span = `${figure(low, 1)} to ${figure(high, 1)} % vol`
  const rough = ` Half of Brix, a very rough rule: ${figure(roughAlcohol(lastDay.brix), 1)}.`
  return [
    `${name}: potential alcohol ${figure(likely, 1)} % vol if all sugar ferments (${span} by the published methods).${rough}`,
  ]
}

function headline(
  trend: RipenessTrend,
  { samples, name }: { samples: RipenessSample[]; name: string },
): string {
  const day = trend.lastDay
  if (!day) return ''
  const { brixLow: low, brixHigh: high } = samples.findLast(
    (sample) => sample.block === trend.block && sample.brix !== null,
  )!
  const range = low === null ? '' : ` (${figure(low, 1)} to ${figure(high!, 1)}, 19 times in 20)`
  return `${name}: ${figure(day.brix, 1)} Brix on ${spokenDate(day.date)}${sampleDayText(day, 1) || range}.`
}

function rateLine(trend: RipenessTrend, name: string): string[] {
  if (trend.n === 0) return []
  const parts = sentences(
    rateText('sugar', trend, { unit: ' Brix', decimals: 2 }),
    rateText('acid', trend.ta, { unit: ' g/L', decimals: 2 }),
    rateText('pH', trend.ph, { unit: '', decimals: 3 }),
  )
  return parts.length === 0
    ? [`${name}: no rate. ${upperFirst(trend.why!)}.`]
    : [
        `${name}, a day: ${parts.join('; ')}. Last ${counted(trend.n, 'sampling day')}; ranges 19 times in 20.`,
      ]
}

const rateText = (
  what: string,
  { perDay, perDayLow, perDayHigh }: Rate,
  { unit, decimals }: { unit: string; decimals: number },
) =>
  perDay !== null &&
  `${what} ${signed(perDay, decimals)}${unit} (${signed(perDayLow!, decimals)} to ${signed(perDayHigh!, decimals)})`

const PLURAL: Readonly<Record<string, string>> = { berry: 'berries', bunch: 'bunches' }

const LOADING = {
  loading: 'sugar is still coming into the berries',
  plateau: 'no more sugar comes in; Brix now changes by water only',
  dilution: 'Brix fell but the sugar in a berry did not: rain or irrigation diluted it',
  loss: 'the berries hold less sugar than before',
} as const

/** What to mind about a sample; more of the last one of a block. */
export function remarksOf(
  sample: RipenessSample,
  { nameOf, last }: { nameOf: (block: string) => string; last: boolean },
): string[] {
  const head = `${dateOr(sample.date)} ${nameOf(sample.block)}`
  const lines = sample.remarks.map((remark) => `${head}: ${remark}.`)
  if (sample.why) lines.push(sample.brix === null ? `${head}: ${sample.why}.` : `${upperFirst(sample.why)}.`)
  if (!last) return lines
  const { of: what, needed, loading, seeds, taste, endPoint } = sample
  const unit = what ?? 'reading'
  const said = sentences(
    sample.enough === false &&
      `take ${counted(needed!, `more ${unit}`, `more ${PLURAL[unit] ?? `${unit}s`}`)} to be sure to ±0.5 Brix (19 times in 20)`,
    loading &&
      `${figure(loading.to, 0)} mg of sugar a berry, ${figure(loading.rate, 1)} mg more a day. ${upperFirst(LOADING[loading.state])} (3 mg rule, after Deloire; common practice)`,
    sentences(seeds && `seeds ${seeds}`, taste && `taste ${taste}`).join('; '),
    endPoint !== null && `acid titrated to pH ${endPoint}`,
  )
  return [...lines, ...said.map((one) => `${head}: ${one}.`)]
}

function biasLine(bias: RipenessData['pressBias'], asPressed: boolean): string[] {
  if (bias.mean === null) return asPressed ? [`Field-to-press difference not known: ${bias.why}.`] : []
  const range =
    bias.low === null
      ? `, ${bias.why}`
      : ` (${figure(bias.low, 1)} to ${figure(bias.high!, 1)}, 19 times in 20)`
  const applied = asPressed ? 'It is added above.' : 'Not added above; --as-pressed adds it.'
  return [
    `Field-to-press difference: ${signed(bias.mean, 1)} Brix in ${counted(bias.picks.length, 'past pick')}${range}. ${applied}`,
  ]
}
