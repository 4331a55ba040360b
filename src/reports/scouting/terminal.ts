import { highest } from '../../agronomy/statistics/extremes.ts'
import type { RoundRow } from '../../facts/disease/round-rows.ts'
import { partText } from '../../facts/protection/parts.ts'
import type { Report } from '../../facts/report.ts'
import { listed } from '../../facts/sentences.ts'
import { diseaseWord } from '../../records/disease.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import { numbers, words } from '../../render/columns.ts'
import { renderCourse } from '../../render/course.ts'
import { blockName, type CoverNames, productName } from '../../render/disease-words.ts'
import { figure, orDash } from '../../render/figure.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, sentences, underAnswer, wrap, wrapAll, wrapCommand } from '../../render/text.ts'
import { scoutingChart } from './chart.ts'
import type { RowMap, ScoutingData, ScoutingTrend } from './report.ts'

/** A series with its newest row and its newest change. */
type Series = ReturnType<typeof seriesOf>[number]

const seriesOf = ({ states, walks, trends }: ScoutingData) =>
  states.map((state) => ({
    ...walks.findLast(isOf(state))!,
    ...state,
    trend: trends.findLast(isOf(state)),
  }))

type Seen = Pick<RoundRow, 'block' | 'disease' | 'organ'>

const isOf = (series: Seen) => (one: Seen) =>
  one.block === series.block && one.disease === series.disease && one.organ === series.organ

/** Scouting rounds: what is over its threshold, every series with its change, where it was found, how many to look at. */
export function renderScouting(report: Report<ScoutingData>, style: Style, names: CoverNames): string {
  const { data } = report
  const { columns } = style
  if (data.walks.length === 0)
    return `${wrap('No scouting round this season. Begin with `rowbook note scouting`.', columns)}\n`
  const name = (id: string) => blockName(id, names)
  const series = seriesOf(data)
  const finds = data.finds.map(({ block, said, next, also }) => [
    wrap(`${name(block)}: ${safeLine(said.join(' '))}`, columns),
    ...[next, ...also].map((one) => wrapCommand(safeLine(one), columns)),
  ])
  const courses = [...new Set(data.walks.map(({ block }) => block))].map((block) => {
    const course = courseOf(data, { block, name: name(block) }, style)
    return course && `${wrap(name(block), columns)}\n${course.trimEnd()}`
  })
  const remarks = data.walks
    .filter(({ why }) => why !== null && why !== 'severity was not scored')
    .map(
      ({ block, disease, date, why }) =>
        `${name(block)}, ${diseaseWord(disease)} on ${shortDate(date)}: ${why}.`,
    )
  const parts = sentences(
    wrap(answer(series, name), columns),
    stateTable(series, name, style).trimEnd(),
    finds.map((lines) => lines.join('\n')),
    data.rounds.length > 0 && wrap(roundLine(data, name), columns),
    wrapAll(severityLines(series, name), columns),
    data.firsts.length > 0 && wrap(firstLine(data, name), columns),
    wrapAll(changeLines(data, names), columns),
    courses.filter(Boolean),
    data.maps.map((map) => rowLine(map, name, style)).join('\n'),
    remarks.map((line) => wrap(line, columns)),
    wrap(samplingLine(data), columns),
  )
  return underAnswer(`${parts.join('\n\n')}\n`, report.cautions, columns)
}

/** When to scout again after treating. */
function roundLine({ rounds }: ScoutingData, name: NameOf): string {
  const said = rounds.map(
    ({ block, disease, organ, treated, due }) =>
      `${name(block)} (${diseaseWord(disease)} on ${organ}, treated ${shortDate(treated)}) by ${spokenDate(due)}`,
  )
  return `Scout again after treating: ${[...new Set(said)].join('; ')}.`
}

/** What was found from round to round, for what was found at all. */
function courseOf(data: ScoutingData, of: { block: string; name: string }, style: Style): string {
  const chart = scoutingChart(data, of)
  if (!chart) return ''
  const panels = chart.panels.filter(({ points }) => points.some(({ value }) => value > 0))
  return renderCourse({ ...chart, panels }, style)
}

type NameOf = (id: string) => string

const percent = (share: number) => {
  const value = share * 100
  return figure(value, value > 0 && value < 1 ? 1 : 0)
}

/** An end of an interval, in whole per cent. */
const end = (share: number) => (share > 0 && share < 0.01 ? '<1' : figure(share * 100, 0))

function answer(all: readonly Series[], name: NameOf): string {
  const say = (those: readonly Series[]) =>
    those
      .map(
        ({ block, disease, found, looked, organ, date }) =>
          `${name(block)}, ${diseaseWord(disease)} on ${found} of ${looked} ${organ} (${shortDate(date)})`,
      )
      .join('; ')
  const over = all.filter(({ verdict }) => verdict === 'over')
  const near = all.filter(
    ({ verdict, incidence, threshold }) => verdict === 'near' && incidence >= (threshold.share ?? 1) / 2,
  )
  if (over.length > 0) return `Over the threshold at the last scouting round: ${say(over)}.`
  if (near.length > 0) return `Nothing clearly over its threshold; possibly over: ${say(near)}.`
  // What has no threshold isn't below one.
  const unlimited = all.filter(({ threshold, found }) => threshold.share === null && found > 0)
  return unlimited.length > 0
    ? `Found, with no threshold to go by: ${say(unlimited)}. Nothing else at or over its threshold.`
    : 'Nothing at or over its threshold at the last scouting rounds.'
}

function stateTable(all: readonly Series[], name: NameOf, { paint, columns }: Style): string {
  const near = (found: number) => (found === 0 ? 'unsure' : paint.doubtful('near'))
  const verdictOf = ({ verdict, found }: Series) =>
    verdict === 'over' ? paint.bad(verdict) : verdict === 'near' ? near(found) : verdict
  return renderTable(
    all,
    [
      words('block', ({ block }, at) => (all[at - 1]?.block === block ? '' : name(block)), 11),
      words('disease', ({ disease }) => diseaseWord(disease)),
      words('on', ({ organ }) => organ),
      words('round', ({ date }) => shortDate(date)),
      numbers('found', ({ found, looked }) => `${found}/${looked}`),
      words('share\n%', ({ incidence, low, high }) => `${percent(incidence)} (${end(low)}-${end(high)})`),
      numbers('sev\n%', ({ severity }) => orDash(severity, percent)),
      numbers('change\n%', ({ trend }) => changeCell(trend)),
      words('limit\n%', (one) =>
        orDash(one.threshold.share, (share) => `${verdictOf(one)} ${percent(share)}`),
      ),
    ],
    columns,
  )
}

/** Severity at the last rounds, over all units and over those with symptoms. */
const severityLines = (all: readonly Series[], name: NameOf): string[] =>
  all.flatMap(({ block, disease, organ, date, severity, severityAffected, looked, found }) =>
    severity === null || severityAffected === null
      ? []
      : `${name(block)}, ${diseaseWord(disease)} on ${organ}, ${shortDate(date)}: severity ${percent(severity)} % over all ${looked}, ${percent(severityAffected)} % over the ${found} affected.`,
  )

function changeCell(trend: ScoutingTrend | undefined): string {
  if (!trend) return 'first'
  if (!trend.beyondChance) return 'unclear'
  return `${trend.change > 0 ? '+' : '-'}${percent(Math.abs(trend.change))}`
}

function firstLine({ firsts }: ScoutingData, name: NameOf): string {
  const first = ({ disease, block, organ, date, found, looked }: RoundRow) =>
    `${diseaseWord(disease)} in ${name(block)} on ${shortDate(date)} (${found} of ${looked} ${organ})`
  return `First seen this season: ${firsts.map(first).join('; ')}.`
}

function changeLines({ walks, trends }: ScoutingData, names: CoverNames): string[] {
  const changes = trends.filter(({ beyondChance }) => beyondChance)
  if (changes.length === 0) return ['No clear change from one scouting round to the next.']
  const found = (trend: ScoutingTrend, date: string) => {
    const row = walks.find((walk) => walk.date === date && isOf(trend)(walk))!
    return `${shortDate(date)} (${row.found} of ${row.looked})`
  }
  return changes.map((trend) => {
    const { block, disease, organ, change, from, to } = trend
    const sprays = trend.sprays.map(
      ({ date, product, rows }) =>
        `${productName(product, names)} on ${shortDate(date)}${rows ? ` (${partText({ rows, share: null })})` : ''}`,
    )
    const between = sprays.length > 0 ? ` Sprayed between: ${listed(sprays)}.` : ''
    return `${blockName(block, names)}, ${diseaseWord(disease)} on ${organ}: ${change > 0 ? 'worse' : 'better'} from ${found(trend, from)} to ${found(trend, to)}, more than chance.${between}`
  })
}

/** Rows of the block as a strip: full where it was found. */
function rowLine(
  { block, disease, date, rows, from, to, where }: RowMap,
  name: NameOf,
  style: Style,
): string {
  const said = `${name(block)}, ${diseaseWord(disease)} ${shortDate(date)}: `
  // A long name stands on a line of its own.
  const label = said.length > style.columns / 2 ? '  ' : said
  const place = where ? `, ${safeLine(where)}` : ''
  const words = `${from === to ? `row ${from}` : `rows ${from} to ${to}`}${rows === null ? '' : ` of ${rows}`}${place}`
  if (rows === null || to > rows) return wrap(said + words, style.columns)
  const room = style.columns - label.length
  const each = Math.ceil(rows / Math.max(10, room))
  const strip = Array.from({ length: Math.ceil(rows / each) }, (_, at) => {
    const first = at * each + 1
    return first + each - 1 >= from && first <= to ? '█' : '▁'
  }).join('')
  return `${label === said ? '' : `${wrap(said.trimEnd(), style.columns)}\n`}${label}${strip}\n${wrap(words, style.columns, ' '.repeat(Math.min(label.length, 30)))}`
}

/** What the columns of the table mean. */
const CHANGE_NOTE =
  'Change: percentage points since the round before; "unclear" means no clear change, "first" the first round. Limit: "near" and "unsure" mean that it is within the error.'

function samplingLine({ detection, precision, states }: ScoutingData): string {
  const wide = states.flatMap(({ moreForPrecision: more }) => (more > 0 ? more : []))
  const more =
    wide.length === 0
      ? `Every series is known to ±${percent(precision)} %.`
      : `To be sure to ±${percent(precision)} % in ${counted(wide.length, 'series', 'series')}, look at up to ${highest(wide)} more${wide.length === 1 ? '' : ' of each'}.`
  const known = states.filter(({ threshold }) => threshold.share !== null)
  const sources = [...new Set(known.map(({ threshold }) => threshold.source))].map((source) => {
    const of = known.filter(({ threshold }) => threshold.source === source)
    return `${listed([...new Set(of.map(({ disease }) => diseaseWord(disease)))])} by ${source}`
  })
  const limits = sources.length > 0 ? ` Limits: ${sources.join('; ')}.` : ''
  return `${CHANGE_NOTE} ${more} To find ${percent(detection.share)} % 19 times in 20, look at ${detection.units}, at random and far apart. Leaves of one vine are not independent.${limits}`
}
