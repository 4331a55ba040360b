import type { RoundRow } from '../../facts/disease/round-rows.ts'
import { partText } from '../../facts/protection/parts.ts'
import type { Report } from '../../facts/report.ts'
import { listed } from '../../facts/sentences.ts'
import { diseaseWord } from '../../records/disease.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import { numbers } from '../../render/columns.ts'
import { renderCourse } from '../../render/course.ts'
import { blockName, type CoverNames, productName } from '../../render/disease-words.ts'
import { figure } from '../../render/figure.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, underAnswer, wrap, wrapCommand } from '../../render/text.ts'
import { scoutingChart } from './chart.ts'
import type { RowMap, ScoutingData, ScoutingState, ScoutingTrend } from './report.ts'

/** Scouting rounds: what is over its threshold, every series with its change, where it was found, how many to look at. */
export function renderScouting(report: Report<ScoutingData>, names: CoverNames, style: Style): string {
  const { data } = report
  if (data.walks.length === 0)
    return `${wrap('No scouting round this season. Begin with `rowbook note scouting`.', style.columns)}\n`
  const name = (id: string) => blockName(id, names)
  const parts = [wrap(answer(data, name), style.columns), '', stateTable(data, name, style).trimEnd()]
  for (const { block, said, next, also } of data.finds) {
    parts.push('', wrap(`${name(block)}: ${safeLine(said.join(' '))}`, style.columns))
    for (const one of [next, ...also]) parts.push(wrapCommand(safeLine(one), style.columns))
  }
  if (data.rounds.length > 0) parts.push('', wrap(roundLine(data, name), style.columns))
  const changes = data.trends.filter(({ beyondChance }) => beyondChance)
  const severe = severityLines(data, name)
  if (severe.length > 0) parts.push('', severe.map((line) => wrap(line, style.columns)).join('\n'))
  if (data.firsts.length > 0) parts.push('', wrap(firstLine(data, name), style.columns))
  for (const line of ['', ...changeLines(changes, data, names)]) parts.push(wrap(line, style.columns))
  for (const block of new Set(data.walks.map((walk) => walk.block))) {
    const course = courseOf(data, { block, name: name(block) }, style)
    if (course !== '') parts.push('', wrap(name(block), style.columns), course.trimEnd())
  }
  if (data.maps.length > 0) parts.push('', data.maps.map((map) => rowLine(map, name, style)).join('\n'))
  const remarks = data.walks.filter(({ why }) => why !== null && why !== 'severity was not scored')
  for (const { block, disease, date, why } of remarks)
    parts.push(
      '',
      wrap(`${name(block)}, ${diseaseWord(disease)} on ${shortDate(date)}: ${why}.`, style.columns),
    )
  parts.push('', wrap(samplingLine(data), style.columns))
  return underAnswer(`${parts.join('\n')}\n`, report.cautions, style.columns)
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

function answer({ states, walks }: ScoutingData, name: NameOf): string {
  const say = (state: ScoutingState) => {
    const row = rowOf(state, walks)
    return `${name(state.block)}, ${diseaseWord(state.disease)} on ${row.found} of ${row.looked} ${state.organ} (${shortDate(state.date)})`
  }
  const over = states.filter(({ verdict }) => verdict === 'over')
  const near = states.filter(
    (state) => state.verdict === 'near' && rowOf(state, walks).incidence >= (state.threshold.share ?? 1) / 2,
  )
  if (over.length > 0) return `Over the threshold at the last scouting round: ${over.map(say).join('; ')}.`
  if (near.length > 0)
    return `Nothing clearly over its threshold; possibly over: ${near.map(say).join('; ')}.`
  // What has no threshold isn't below one.
  const unlimited = states.filter((state) => state.threshold.share === null && rowOf(state, walks).found > 0)
  return unlimited.length > 0
    ? `Found, with no threshold to go by: ${unlimited.map(say).join('; ')}. Nothing else at or over its threshold.`
    : 'Nothing at or over its threshold at the last scouting rounds.'
}

type Series = Pick<RoundRow, 'block' | 'disease' | 'organ'>

const isOf = (series: Series) => (one: Series) =>
  one.block === series.block && one.disease === series.disease && one.organ === series.organ

const rowOf = (state: ScoutingState, walks: readonly RoundRow[]) => walks.findLast(isOf(state))!

function stateTable(
  { states, walks, trends }: ScoutingData,
  name: NameOf,
  { paint, columns }: Style,
): string {
  const rows = states.map((state, at) => {
    const row = rowOf(state, walks)
    const trend = trends.findLast(isOf(state))
    const verdict =
      state.verdict === 'over'
        ? paint.bad('over')
        : state.verdict === 'near'
          ? row.found === 0
            ? 'unsure'
            : paint.doubtful('near')
          : state.verdict
    return [
      states[at - 1]?.block === state.block ? '' : name(state.block),
      diseaseWord(state.disease),
      state.organ,
      shortDate(state.date),
      `${row.found}/${row.looked}`,
      `${percent(row.incidence)} (${end(row.low)}-${end(row.high)})`,
      row.severity === null ? '-' : percent(row.severity),
      changeCell(trend),
      state.threshold.share === null ? '-' : `${verdict} ${percent(state.threshold.share)}`,
    ]
  })
  return renderTable(
    [
      { title: 'block', most: 11 },
      'disease',
      'on',
      'round',
      ...numbers('found'),
      'share\n%',
      ...numbers('sev\n%', 'change\n%'),
      'limit\n%',
    ],
    rows,
    columns,
  )
}

/** Severity at the last rounds, over all units and over those with symptoms. */
function severityLines({ states, walks }: ScoutingData, name: NameOf): string[] {
  return states.flatMap((state) => {
    const row = rowOf(state, walks)
    const { severity, severityAffected, organ, looked, found } = row
    if (severity === null || severityAffected === null) return []
    return [
      `${name(row.block)}, ${diseaseWord(row.disease)} on ${organ}, ${shortDate(row.date)}: severity ${percent(severity)} % over all ${looked}, ${percent(severityAffected)} % over the ${found} affected.`,
    ]
  })
}

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

function changeLines(
  changes: readonly ScoutingTrend[],
  { walks }: ScoutingData,
  names: CoverNames,
): string[] {
  if (changes.length === 0) return ['No clear change from one scouting round to the next.']
  const found = (trend: ScoutingTrend, date: string) => {
    const row = walks.find((walk) => walk.date === date && isOf(trend)(walk))!
    return `${row.found} of ${row.looked}`
  }
  return changes.map((trend) => {
    const word = trend.change > 0 ? 'worse' : 'better'
    const sprays = trend.sprays.map(
      ({ date, product, rows }) =>
        `${productName(product, names)} on ${shortDate(date)}${rows ? ` (${partText({ rows, share: null })})` : ''}`,
    )
    const between = sprays.length > 0 ? ` Sprayed between: ${listed(sprays)}.` : ''
    return `${blockName(trend.block, names)}, ${diseaseWord(trend.disease)} on ${trend.organ}: ${word} from ${shortDate(trend.from)} (${found(trend, trend.from)}) to ${shortDate(trend.to)} (${found(trend, trend.to)}), more than chance.${between}`
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
  const wide = states.filter(({ moreForPrecision }) => (moreForPrecision ?? 0) > 0)
  const most = Math.max(0, ...wide.map(({ moreForPrecision }) => moreForPrecision ?? 0))
  const more =
    wide.length === 0
      ? `Every series is known to ±${percent(precision)} %.`
      : `To be sure to ±${percent(precision)} % in ${counted(wide.length, 'series', 'series')}, look at up to ${most} more${wide.length === 1 ? '' : ' of each'}.`
  const known = states.filter(({ threshold }) => threshold.share !== null)
  const sources = [...new Set(known.map(({ threshold }) => threshold.source))].map((source) => {
    const of = known.filter(({ threshold }) => threshold.source === source)
    return `${listed([...new Set(of.map(({ disease }) => diseaseWord(disease)))])} by ${source}`
  })
  const limits = sources.length > 0 ? ` Limits: ${sources.join('; ')}.` : ''
  return `${CHANGE_NOTE} ${more} To find ${percent(detection.share)} % 19 times in 20, look at ${detection.units}, at random and far apart. Leaves of one vine are not independent.${limits}`
}
