import type { Report } from '../../facts/report.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import { figure, figureOr } from '../../render/figure.ts'
import { safeLine } from '../../render/safe.ts'
import { gridOf, months, perCharacter, strip } from '../../render/strip.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, groupDigits, underAnswer, wrap } from '../../render/text.ts'
import type { ComparedSum } from './beside.ts'
import type { SeasonIndex } from './indices.ts'
import type { HeatData } from './report.ts'

/** Heat in words, as strips and in tables; `names` are those of the blocks by id. */
export function renderHeat(
  report: Report<HeatData>,
  names: ReadonlyMap<string, string>,
  style: Style,
): string {
  const { data } = report
  const parts = [wrap(answer(data), style.columns), '', strips(data, style)]
  if (data.beside) parts.push('', besideTable(report.season!, data).trimEnd())
  parts.push('', indexTable(data, report.asOf).trimEnd())
  const remarks = notes(data, style)
  if (remarks) parts.push('', remarks)
  if (data.stages.length > 0) parts.push('', stageTable(data, names).trimEnd())
  return underAnswer(`${parts.join('\n')}\n`, report.cautions, style.columns)
}

const whole = (value: number | null) => (value === null ? 'unknown' : groupDigits(figure(value, 0)))

function answer({ sum, base, upper, from, to, method, why, beside }: HeatData): string {
  if (sum === null) return `No heat can be summed up from ${shortDate(from)} to ${shortDate(to)}: ${why}.`
  const limit = upper === null ? '' : ` and below ${upper} °C`
  const head = `${whole(sum)} degree days above ${base} °C${limit} from ${shortDate(from)} to ${spokenDate(to)}`
  const lack = why === null ? '' : `; at least that, since ${why}`
  if (!beside || beside.difference === null) return `${head} by the ${method} method${lack}.`
  const { difference, daysAhead } = beside
  const by = `${whole(Math.abs(difference))} ${difference < 0 ? 'fewer' : 'more'} than the mean of earlier seasons`
  const days =
    daysAhead === null || daysAhead === 0
      ? ''
      : `, ${Math.abs(daysAhead)} ${Math.abs(daysAhead) === 1 ? 'day' : 'days'} ${daysAhead > 0 ? 'ahead' : 'behind'}`
  return `${head} by the ${method} method, ${by}${days}${lack}.`
}

function strips({ charts, days }: HeatData, style: Style): string {
  const grid = gridOf(charts.daily.from, days.length, style.columns - 16)
  const high = figure(charts.daily.high, 0)
  return [
    `each day        ${strip(charts.daily, grid)}`,
    `                ${months(grid)}`,
    style.paint.faint(`                0 to ${high} degree days, ${perCharacter(grid)}, a dot where unknown`),
  ].join('\n')
}

function besideTable(season: number, { beside, to }: HeatData): string {
  if (!beside) return ''
  const remark = ({ filled, missing }: ComparedSum) => [
    filled > 0 ? `${counted(filled, 'day')} filled in` : '',
    missing > 0 ? `${counted(missing, 'day')} unknown` : '',
  ]
  const said = (parts: string[]) => parts.filter(Boolean).join(', ')
  const rows = [
    [String(season), whole(beside.now.sum), said(remark(beside.now))],
    ...beside.seasons.map((one) => [
      String(one.season),
      whole(one.sum),
      said([...remark(one), one.used ? '' : 'not compared']),
    ]),
    [
      'mean before',
      whole(beside.mean),
      beside.low === beside.high ? '' : `${whole(beside.low)} to ${whole(beside.high)}`,
    ],
  ]
  return renderTable(
    [{ title: `to ${shortDate(to)}` }, { title: 'degree days', align: 'right' }, { title: '' }],
    rows,
  )
}

function indexTable({ winkler, huglin, seasonMean, coolNights }: HeatData, asOf: string): string {
  const span = ({ from, to }: SeasonIndex) => `${shortDate(from)} to ${shortDate(to)}`
  const value = (index: SeasonIndex, decimals: number) => {
    if (index.value !== null) return groupDigits(figure(index.value, decimals))
    if (index.filled !== null) return `about ${groupDigits(figure(index.filled, decimals))}`
    return index.to > asOf ? 'not yet' : 'unknown'
  }
  const known = (index: SeasonIndex, decimals: number) =>
    index.value === null && index.filled !== null
      ? `${counted(index.missing, 'day')} filled in`
      : index.value === null && index.known !== null && index.days > 0
        ? `${groupDigits(figure(index.known, decimals))} in ${index.days} of ${index.days + index.missing} days`
        : ''
  // Beyond 50° no coefficient is published: what is reckoned with that of 50° is no value, and says so.
  const isBeyond = huglin.coefficient === null
  const extended =
    huglin.filled === null
      ? known(huglin, 0)
      : `about ${groupDigits(figure(huglin.filled, 0))}, ${known(huglin, 0)}`
  const extension = huglin.extension === null ? extended : groupDigits(figure(huglin.extension, 0))
  const huglinValue = isBeyond ? 'none' : value(huglin, 0)
  const huglinNote = isBeyond
    ? extension && `${extension}, with K of 50°`
    : (huglin.class ?? known(huglin, 0))
  return renderTable(
    [{ title: 'index' }, { title: 'over' }, { title: 'value', align: 'right' }, { title: '', most: 40 }],
    [
      [
        'Winkler',
        span(winkler),
        value(winkler, 0),
        winkler.region ? `region ${winkler.region}` : known(winkler, 0),
      ],
      ['Huglin', span(huglin), huglinValue, huglinNote],
      ['season mean', span(seasonMean), value(seasonMean, 1), seasonMean.group ?? known(seasonMean, 1)],
      ['cool nights', span(coolNights), value(coolNights, 1), coolNights.class ?? known(coolNights, 1)],
    ],
  )
}

function notes({ winkler, huglin, beside, days, stages }: HeatData, style: Style): string {
  const lines: string[] = []
  if (beside?.why) lines.push(`Beside earlier seasons: ${beside.why}, so a sum is at least what it says.`)
  const part = days.filter(({ degreeDays, complete }) => degreeDays !== null && !complete).length
  if (part > 0)
    lines.push(`${counted(part, 'day')} ${part === 1 ? 'rests' : 'rest'} on fewer hours than a day has.`)
  if (stages.some(({ degreeDays, missing }) => degreeDays !== null && missing > 0))
    lines.push('Since a stage, marked +: at least, since days are unknown.')
  if (winkler.why) lines.push(`Winkler: ${winkler.why}.`)
  if (huglin.why && huglin.why !== winkler.why) lines.push(`Huglin: ${huglin.why}.`)
  return lines.map((line) => wrap(line, style.columns)).join('\n')
}

/** Most blocks that stand side by side. */
const MOST_COLUMNS = 4

/** Days, and degree days, since each stage, the blocks side by side. */
function stageTable(data: HeatData, names: ReadonlyMap<string, string>): string {
  const blocks = [...new Set(data.stages.map(({ block }) => block))]
  const stages = [...new Map(data.stages.map(({ stage, name }) => [stage, name]))].sort((a, b) => a[0] - b[0])
  const tables: string[] = []
  for (let at = 0; at < blocks.length; at += MOST_COLUMNS) {
    const some = blocks.slice(at, at + MOST_COLUMNS)
    const rows = stages.map(([stage, name]) => [
      `${stage} ${name.split(',')[0]!.replace(' plain to see', '')}`,
      ...some.map((id) => {
        const seen = data.stages.find((one) => one.block === id && one.stage === stage)
        return seen
          ? `${seen.days} d ${figureOr(seen.degreeDays, 0).padStart(5)}${seen.missing > 0 && seen.degreeDays !== null ? '+' : ''}`
          : '-'
      }),
    ])
    const columns = some.map((id) => ({
      title: safeLine(names.get(id) ?? id).slice(0, 12),
      align: 'right' as const,
    }))
    tables.push(renderTable([{ title: 'since stage', most: 28 }, ...columns], rows))
  }
  return tables.join('\n')
}
