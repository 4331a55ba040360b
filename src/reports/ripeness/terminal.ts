import { inLedgerUnits } from '../../facts/ledger-units.ts'
import type { Report } from '../../facts/report.ts'
import type { Rate, RipenessTrend } from '../../facts/ripeness/trend.ts'
import { upperFirst } from '../../facts/sentences.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { numbers } from '../../render/columns.ts'
import { renderCourse } from '../../render/course.ts'
import { dateOr, figure, figureOr } from '../../render/figure.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, underAnswer, wrap } from '../../render/text.ts'
import type { RipenessData, RipenessSample } from './report.ts'

interface RipenessNames {
  blocks: ReadonlyMap<string, string>
  /** Print Brix as the press would read it. */
  asPressed: boolean
}

/** The newest sample of each block first, then all samples, then what they are based on. */
export function renderRipeness(report: Report<RipenessData>, names: RipenessNames, style: Style): string {
  const { samples, trends, pressBias: bias } = report.data
  const nameOf = (block: string) => names.blocks.get(block) ?? block
  if (samples.length === 0) return `No samples in season ${report.season} up to ${spokenDate(report.asOf)}.\n`
  const first = trends.map((trend) => headline(trend, { samples, name: nameOf(trend.block) })).filter(Boolean)
  const pressed = names.asPressed && bias.mean !== null
  const table = renderTable(
    [
      'sampled',
      { title: 'block', most: 16 },
      { title: pressed ? 'Brix at\npress' : 'Brix', number: true },
      ...numbers(
        '95 %\ninterval',
        'sugar\ng/L',
        'likely\n% vol',
        'pH',
        'acid\ng/L',
        'sugar\n:acid',
        'B x\npH²',
      ),
    ],
    samples.map((sample) => row(sample, { name: nameOf(sample.block), shift: pressed ? bias.mean! : 0 })),
  )
  const courses = report.data.charts.flatMap(({ block, chart }) => {
    const course = chart ? renderCourse(chart, style) : ''
    return course === '' ? [] : [`${wrap(nameOf(block), style.columns)}\n${course}\n`]
  })
  const isLast = (sample: RipenessSample) =>
    samples.findLast(({ block }) => block === sample.block) === sample
  const notes = [...new Set(samples.flatMap((sample) => remarksOf(sample, { nameOf, last: isLast(sample) })))]
  const alcohol = samples.filter(isLast).flatMap((sample) => alcoholLine(sample, nameOf(sample.block)))
  const lines = [...rates(trends, nameOf), ...alcohol, ...notes, ...biasLine(report.data, names.asPressed)]
  const below = lines.map((line) => wrap(inLedgerUnits(line, style.units), style.columns)).join('\n')
  return underAnswer(
    `${wrap(first.join(' '), style.columns)}\n\n${table}\n${courses.join('')}${below}\n`,
    report.cautions,
    style.columns,
  )
}

/** What the newest sample of a block may ferment to: the span of the published methods, and the rough rule as such. */
function alcoholLine(
  { potentialAlcohol: alcohol, roughAlcohol: half }: RipenessSample,
  name: string,
): string[] {
  if (!alcohol || alcohol.low === null || alcohol.likely === null || alcohol.high === null) return []
  const span = `${figure(alcohol.low, 1)} to ${figure(alcohol.high, 1)} % vol`
  const rough = half === null ? '' : ` Half of Brix, a very rough rule: ${figure(half, 1)}.`
  return [
    `${name}: potential alcohol ${figure(alcohol.likely, 1)} % vol if all sugar ferments (${span} by the published methods).${rough}`,
  ]
}

function headline(
  trend: RipenessTrend,
  { samples, name }: { samples: RipenessSample[]; name: string },
): string {
  const last = samples.findLast((sample) => sample.block === trend.block && sample.brix !== null)
  if (!last) return ''
  const range =
    last.brixLow === null
      ? ''
      : ` (${figure(last.brixLow, 1)} to ${figure(last.brixHigh!, 1)}, 19 times in 20)`
  return `${name}: ${figure(last.brix!, 1)} Brix on ${spokenDate(last.date)}${range}.`
}

function row(sample: RipenessSample, { name, shift }: { name: string; shift: number }): string[] {
  const { brixLow: low, brixHigh: high, potentialAlcohol: alcohol } = sample
  return [
    dateOr(sample.date),
    name,
    sample.brix === null ? '-' : figure(sample.brix + shift, 1),
    low === null || high === null ? '-' : `${figure(low + shift, 1)}-${figure(high + shift, 1)}`,
    figureOr(sample.sugarPerLitre?.value ?? null, 0),
    figureOr(alcohol?.likely ?? null, 1),
    figureOr(sample.ph, 2),
    figureOr(sample.ta?.value ?? null, 1),
    figureOr(sample.brixAcidRatio, 0),
    figureOr(sample.brixPhSquared, 0),
  ]
}

function rates(trends: readonly RipenessTrend[], nameOf: (block: string) => string): string[] {
  return trends.flatMap((trend) => {
    if (trend.n === 0) return []
    const parts = [
      spoken('sugar', trend, { unit: ' Brix', decimals: 2 }),
      spoken('acid', trend.ta, { unit: ' g/L', decimals: 2 }),
      spoken('pH', trend.ph, { unit: '', decimals: 3 }),
    ].filter(Boolean)
    if (parts.length === 0) return [`${nameOf(trend.block)}: no rate. ${upperFirst(trend.why!)}.`]
    return [
      `${nameOf(trend.block)}, a day: ${parts.join('; ')}. Last ${counted(trend.n, 'sampling day')}; ranges 19 times in 20.`,
    ]
  })
}

function spoken(what: string, rate: Rate, { unit, decimals }: { unit: string; decimals: number }): string {
  if (rate.perDay === null) return ''
  const sign = (value: number) => `${value > 0 ? '+' : ''}${figure(value, decimals)}`
  return `${what} ${sign(rate.perDay)}${unit} (${sign(rate.perDayLow!)} to ${sign(rate.perDayHigh!)})`
}

const MORE: Readonly<Record<string, string>> = {
  reading: 'more readings',
  bag: 'more bags',
  berry: 'more berries',
  bunch: 'more bunches',
  vine: 'more vines',
}

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
  if (sample.enough === false)
    lines.push(
      `${head}: take ${counted(sample.needed!, `more ${sample.of ?? 'reading'}`, MORE[sample.of ?? 'reading'])} to be sure to ±0.5 Brix (19 times in 20).`,
    )
  if (sample.loading)
    lines.push(
      `${head}: ${figure(sample.loading.to, 0)} mg of sugar a berry, ${figure(sample.loading.rate, 1)} mg more a day. ${upperFirst(LOADING[sample.loading.state])} (3 mg rule, after Deloire; common practice).`,
    )
  const words = [sample.seeds && `seeds ${sample.seeds}`, sample.taste && `taste ${sample.taste}`].filter(
    Boolean,
  )
  if (words.length > 0) lines.push(`${head}: ${words.join('; ')}.`)
  if (sample.endPoint !== null) lines.push(`${head}: acid titrated to pH ${sample.endPoint}.`)
  return lines
}

function biasLine({ pressBias: bias }: RipenessData, asPressed: boolean): string[] {
  if (bias.mean === null) return asPressed ? [`Field-to-press difference not known: ${bias.why}.`] : []
  const range =
    bias.low === null
      ? `, ${bias.why}`
      : ` (${figure(bias.low, 1)} to ${figure(bias.high!, 1)}, 19 times in 20)`
  const applied = asPressed ? 'It is added above.' : 'Not added above; --as-pressed adds it.'
  const picks = bias.picks.length === 1 ? '1 past pick' : `${bias.picks.length} past picks`
  return [
    `Field-to-press difference: ${bias.mean > 0 ? '+' : ''}${figure(bias.mean, 1)} Brix in ${picks}${range}. ${applied}`,
  ]
}
