import { degreeSign, degreesIn, heatIn, heatUnit } from '../../facts/ledger-units.ts'
import type { Names } from '../../facts/names.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { chartIn } from '../../render/chart-units.ts'
import { numbers } from '../../render/columns.ts'
import { dateCell, nameOf, numberCell } from '../../render/html/figures.ts'
import { type Content, section } from '../../render/html/markup.ts'
import type { PageInput, PageOf } from '../../render/html/page.ts'
import { folded, pageTable } from '../../render/html/table.ts'
import { drawDayChart } from '../../render/svg/day-chart.ts'
import type { ComparedSum } from './beside.ts'
import type { SeasonIndex } from './indices.ts'
import type { HeatData } from './report.ts'

/** The heat of a season: its sum against earlier seasons, the indices, and heat since each stage. */
export const heatPage: PageOf<HeatData> = ({ data, season }, { names, units }) => ({
  title: 'Heat',
  content: [
    section(
      'The sum through the season',
      drawDayChart('heat-sum', chartIn(data.charts.sum, units)),
      besideTable(data, { season, units }),
    ),
    section(
      'Each day',
      drawDayChart('heat-daily', chartIn(data.charts.daily, units)),
      folded('Every day in a table', dayTable(data, units)),
    ),
    section('Indices', indexTable(data, units)),
    data.stages.length > 0 && section('Since each stage', stageTables(data, names, units)),
  ],
})

type Units = PageInput['units']

const sumCell = (sum: number | null, units: Units, decimals = 0) =>
  numberCell(sum === null ? null : heatIn(sum, units), decimals)

const degreesCell = (celsius: number | null, units: Units) =>
  numberCell(celsius === null ? null : degreesIn(celsius, units), 1)

function besideTable(
  { beside, to }: HeatData,
  { season, units }: { season: number | null; units: Units },
): Content {
  if (!beside) return null
  const row = (name: string, { sum, filled, missing }: ComparedSum) => [
    name,
    sumCell(sum, units),
    String(filled),
    String(missing),
  ]
  return pageTable({
    caption: `${heatUnit(units)} up to ${shortDate(to)}`,
    columns: [
      'season',
      { title: heatUnit(units), number: true },
      ...numbers('days filled in', 'days unknown'),
    ],
    rows: [
      row(`${season}`, beside.now),
      ...beside.seasons.map((one) => row(`${one.season}${one.used ? '' : ', not compared'}`, one)),
      ['mean of earlier seasons', sumCell(beside.mean, units), '', ''],
    ],
  })
}

function dayTable({ days }: HeatData, units: Units): Content {
  return pageTable({
    caption: `Temperatures and ${heatUnit(units)}`,
    columns: [
      'day',
      ...numbers(`lowest, ${degreeSign(units)}`, `highest, ${degreeSign(units)}`),
      { title: heatUnit(units), number: true },
    ],
    rows: days.map((day) => [
      dateCell(day.date),
      degreesCell(day.min, units),
      degreesCell(day.max, units),
      sumCell(day.degreeDays, units, 1),
    ]),
  })
}

function indexTable({ winkler, huglin, seasonMean, coolNights }: HeatData, units: Units): Content {
  const row = (name: string, { from, to, why }: SeasonIndex, value: Content, inWords: string | null) => [
    name,
    `${shortDate(from)} to ${shortDate(to)}`,
    value,
    inWords ?? why,
  ]
  const region = winkler.region && `region ${winkler.region}`
  const mean = `mean of the growing season, ${degreeSign(units)}`
  const nights = `cool nights, ${degreeSign(units)}`
  return pageTable({
    caption: 'Climate indices, each over its own months',
    columns: ['index', 'over', ...numbers('value'), 'class, or what is missing'],
    rows: [
      row(`Winkler, ${heatUnit(units)}`, winkler, sumCell(winkler.value, units), region),
      row('Huglin', huglin, numberCell(huglin.value, 0), huglin.class),
      row(mean, seasonMean, degreesCell(seasonMean.value, units), seasonMean.group),
      row(nights, coolNights, degreesCell(coolNights.value, units), coolNights.class),
    ],
  })
}

function stageTables({ stages }: HeatData, names: Names, units: Units): Content {
  return [...new Set(stages.map(({ block }) => block))].map((block) => {
    const name = nameOf(names, block)
    const table = pageTable({
      caption: `${name}: days and ${heatUnit(units)} since each stage was first seen`,
      columns: ['stage', ...numbers('seen', 'days since', `${heatUnit(units)} since`)],
      rows: stages
        .filter((stage) => stage.block === block)
        .map((stage) => [
          `${stage.stage} ${stage.name}`,
          dateCell(stage.date),
          String(stage.days),
          sumCell(stage.degreeDays, units),
        ]),
    })
    return folded(`Stages of ${name}`, table, { filed: true })
  })
}
