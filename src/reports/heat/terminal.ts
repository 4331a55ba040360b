import { degreeSign, degreesIn, heatIn, heatUnit } from '../../facts/ledger-units.ts'
import type { Names } from '../../facts/names.ts'
import type { Report } from '../../facts/report.ts'
import { byHandText } from '../../facts/weather/by-hand.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import { numbers, words } from '../../render/columns.ts'
import { figure } from '../../render/figure.ts'
import { safeLine } from '../../render/safe.ts'
import { gridOf, overMonths, perCharacter, strip } from '../../render/strip.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, groupDigits, sentences, underAnswer, wrap, wrapAll } from '../../render/text.ts'
import type { ComparedSum, HeatBeside } from './beside.ts'
import type { SeasonIndex } from './indices.ts'
import type { HeatData } from './report.ts'

/** Heat in words, as strips and in tables; `names` are those of the blocks by id. */
export function renderHeat(
  report: Report<HeatData>,
  style: Style,
  { blocks: names }: Pick<Names, 'blocks'>,
): string {
  const { data } = report
  const parts = [wrap(answer(report, style.units), style.columns), ...strips(data, style)]
  if (data.beside) parts.push('', besideTable(report.season!, data, style).trimEnd())
  parts.push('', indexTable(data, report.asOf, style).trimEnd())
  const remarks = notes(data, style)
  if (remarks) parts.push('', remarks)
  if (data.stages.length > 0) parts.push('', stageTable(data, names, style).trimEnd())
  return underAnswer(`${parts.join('\n')}\n`, report.cautions, style.columns)
}

type Units = Style['units']

const whole = (value: number | null, units: Units) =>
  value === null ? 'unknown' : groupDigits(figure(heatIn(value, units), 0))

const temperature = (celsius: number, units: Units) =>
  `${Number(degreesIn(celsius, units).toFixed(1))} ${degreeSign(units)}`

function answer({ data, asOf }: Report<HeatData>, units: Units): string {
  const { sum, base, upper, from, to, method, why, beside, days } = data
  if (asOf < from) return `Degree days count from ${shortDate(from)}.`
  if (sum === null) return `No degree-day total from ${shortDate(from)} to ${shortDate(to)}: ${why}.`
  const limit = upper === null ? '' : ` and below ${temperature(upper, units)}`
  const head = `${whole(sum, units)} ${heatUnit(units)} above ${temperature(base, units)}${limit} from ${shortDate(from)} to ${spokenDate(to)} (${method} method).`
  const lack = why === null ? '' : ` It is at least that: ${why}.`
  const hand = data.byHand ? byHandText(days.filter((day) => day.byHand).map(({ date }) => date)) : null
  const own = hand ? ` ${hand}` : ''
  return `${head}${beside ? besideWords(beside, units) : ''}${lack}${own}`
}

function besideWords({ difference, daysAhead, seasons }: HeatBeside, units: Units): string {
  if (difference === null) return ''
  const used = seasons.filter((one) => one.used)
  const against = used.length === 1 ? `in ${used[0]!.season}` : 'the mean of earlier seasons'
  const by = ` That is ${whole(Math.abs(difference), units)} ${difference < 0 ? 'fewer' : 'more'} than ${against}`
  if (daysAhead === null || daysAhead === 0) return `${by}.`
  return `${by}: ${counted(Math.abs(daysAhead), 'day')} ${daysAhead > 0 ? 'ahead' : 'behind'}.`
}

/** The heat of each day as one line; nothing where no day is known. */
function strips({ charts, days }: HeatData, style: Style): string[] {
  if (days.every(({ degreeDays }) => degreeDays === null)) return []
  const width = 16
  const grid = gridOf(charts.daily.from, days.length, style.columns - width)
  const high = figure(heatIn(charts.daily.high, style.units), 0)
  const words = `0 to ${high} ${heatUnit(style.units)} a day; ${perCharacter(grid)}; a dot where unknown`
  return ['', overMonths([['each day', strip(charts.daily, grid)]], { grid, width, words }, style)]
}

function besideTable(season: number, { beside, to }: HeatData, { units, columns }: Style): string {
  if (!beside) return ''
  const remark = ({ filled, missing }: ComparedSum, used = true) =>
    sentences(
      filled > 0 && `${counted(filled, 'day')} filled in`,
      missing > 0 && `${counted(missing, 'day')} unknown`,
      !used && 'not compared',
    ).join(', ')
  const { now, seasons, mean, low, high } = beside
  const spread = low === high ? '' : `${whole(low, units)} to ${whole(high, units)}`
  const rows = [
    { of: season, sum: now.sum, note: remark(now) },
    ...seasons.map((one) => ({ of: one.season, sum: one.sum, note: remark(one, one.used) })),
    { of: 'mean before', sum: mean, note: spread },
  ]
  return renderTable(
    rows,
    [
      words(`to ${shortDate(to)}`, ({ of }) => of),
      numbers(heatUnit(units), ({ sum }) => whole(sum, units)),
      words('', ({ note }) => note),
    ],
    columns,
  )
}

type Say = (value: number) => string

function indexTable(data: HeatData, asOf: string, { units, columns }: Style): string {
  const { winkler, huglin, seasonMean, coolNights } = data
  const sum: Say = (value) => whole(value, units)
  // Huglin's index and its classes are a number of their own, defined in °C.
  const plain: Say = (value) => groupDigits(figure(value, 0))
  const degrees: Say = (value) => `${figure(degreesIn(value, units), 1)} ${degreeSign(units)}`
  const value = (index: SeasonIndex, say: Say) => {
    if (index.value !== null) return say(index.value)
    if (index.filled !== null) return `about ${say(index.filled)}`
    return index.to > asOf ? 'not yet' : 'unknown'
  }
  const known = (index: SeasonIndex, say: Say) =>
    index.value === null && index.filled !== null
      ? `${counted(index.missing, 'day')} filled in`
      : index.value === null && index.known !== null && index.days > 0
        ? `${say(index.known)} in ${index.days} of ${index.days + index.missing} days`
        : ''
  // Beyond 50° no coefficient is published: a sum with that of 50° is no value, and says so.
  const isBeyond = huglin.coefficient === null
  const extended =
    huglin.filled === null ? known(huglin, plain) : `about ${plain(huglin.filled)}, ${known(huglin, plain)}`
  const extension = huglin.extension === null ? extended : plain(huglin.extension)
  const huglinValue = isBeyond ? 'none' : value(huglin, plain)
  const huglinNote = isBeyond
    ? extension && `${extension}, by the coefficient for 50° latitude`
    : (huglin.class ?? known(huglin, plain))
  const row = (name: string, index: SeasonIndex, say: Say, inWords: string | null) => ({
    name,
    index,
    shown: value(index, say),
    note: inWords ?? known(index, say),
  })
  const rows = [
    row('Winkler', winkler, sum, winkler.region && `region ${winkler.region}`),
    { name: 'Huglin', index: huglin, shown: huglinValue, note: huglinNote },
    row('season mean', seasonMean, degrees, seasonMean.group),
    row('cool nights', coolNights, degrees, coolNights.class),
  ]
  return renderTable(
    rows,
    [
      words('index', ({ name }) => name),
      words('over', ({ index }) => `${shortDate(index.from)} to ${shortDate(index.to)}`),
      numbers('value', ({ shown }) => shown),
      words('', ({ note }) => note, 40),
    ],
    columns,
  )
}

function notes({ winkler, huglin, beside, days, stages }: HeatData, style: Style): string {
  const part = days.filter(({ degreeDays, complete }) => degreeDays !== null && !complete).length
  const lines = sentences(
    beside?.why && `Compared with earlier seasons: ${beside.why}. Each sum is at least that.`,
    part > 0 && `${counted(part, 'day')} ${part === 1 ? 'lacks' : 'lack'} some hours.`,
    stages.some(({ degreeDays, missing }) => degreeDays !== null && missing > 0) &&
      '+ after a figure: at least that, because some days are unknown.',
    winkler.why && `Winkler: ${winkler.why}.`,
    huglin.why && huglin.why !== winkler.why && `Huglin: ${huglin.why}.`,
  )
  return wrapAll(lines, style.columns)
}

/** Most blocks that stand side by side. */
const MOST_COLUMNS = 4

/** Days, and degree days, since each stage, the blocks side by side. */
function stageTable(data: HeatData, names: ReadonlyMap<string, string>, { units, columns }: Style): string {
  const blocks = [...new Set(data.stages.map(({ block }) => block))]
  const stages = [...new Map(data.stages.map(({ stage, name }) => [stage, name]))].sort((a, b) => a[0] - b[0])
  const since = (block: string, stage: number) => {
    const seen = data.stages.find((one) => one.block === block && one.stage === stage)
    if (!seen) return '-'
    const { days, degreeDays, missing } = seen
    const heat = degreeDays === null ? '-' : whole(degreeDays, units)
    return `${days} d ${heat.padStart(5)}${missing > 0 && degreeDays !== null ? '+' : ''}`
  }
  const stageName = (name: string) => name.split(',')[0]!.replace(' plain to see', '')
  const tables: string[] = []
  for (let at = 0; at < blocks.length; at += MOST_COLUMNS)
    tables.push(
      renderTable(
        stages,
        [
          words(
            `days and ${heatUnit(units)}\nsince stage`,
            ([stage, name]) => `${stage} ${stageName(name)}`,
            28,
          ),
          ...blocks
            .slice(at, at + MOST_COLUMNS)
            .map((id) =>
              numbers(safeLine(names.get(id) ?? id).slice(0, 12), ([stage]: [number, string]) =>
                since(id, stage),
              ),
            ),
        ],
        columns,
      ),
    )
  return tables.join('\n')
}
