import { degreeSign, degreesIn, heatIn, heatUnit } from '../../facts/ledger-units.ts'
import type { Names } from '../../facts/names.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { chartIn } from '../../render/chart-units.ts'
import { numbers, words } from '../../render/columns.ts'
import { dateCell, nameOf, numberCell } from '../../render/html/figures.ts'
import { type Content, section } from '../../render/html/markup.ts'
import type { PageInput, PageOf } from '../../render/html/page.ts'
import { folded, pageTable } from '../../render/html/table.ts'
import { drawDayChart } from '../../render/svg/day-chart.ts'
import type { ComparedSum } from './beside.ts'
import type { SeasonIndex } from './indices.ts'
import type { HeatData } from './report.ts'

/** The heat of a season: its sum against earlier seasons, the indices, and heat since each stage. */
export const page: PageOf<HeatData> = ({ data, season }, { names, units }) => ({
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
  const rows: { name: string; sum: number | null; days?: ComparedSum }[] = [
    { name: `${season}`, sum: beside.now.sum, days: beside.now },
    ...beside.seasons.map((one) => ({
      name: `${one.season}${one.used ? '' : ', not compared'}`,
      sum: one.sum,
      days: one,
    })),
    { name: 'mean of earlier seasons', sum: beside.mean },
  ]
  return pageTable(`${heatUnit(units)} up to ${shortDate(to)}`, rows, [
    words('season', ({ name }) => name),
    numbers(heatUnit(units), ({ sum }) => sumCell(sum, units)),
    numbers('days filled in', ({ days }) => days?.filled),
    numbers('days unknown', ({ days }) => days?.missing),
  ])
}

function dayTable({ days }: HeatData, units: Units): Content {
  return pageTable(`Temperatures and ${heatUnit(units)}`, days, [
    words('day', ({ date }) => dateCell(date)),
    numbers(`lowest, ${degreeSign(units)}`, ({ min }) => degreesCell(min, units)),
    numbers(`highest, ${degreeSign(units)}`, ({ max }) => degreesCell(max, units)),
    numbers(heatUnit(units), ({ degreeDays }) => sumCell(degreeDays, units, 1)),
  ])
}

function indexTable({ winkler, huglin, seasonMean, coolNights }: HeatData, units: Units): Content {
  const row = (name: string, index: SeasonIndex, value: Content, inWords: string | null) => ({
    name,
    index,
    value,
    inWords,
  })
  const region = winkler.region && `region ${winkler.region}`
  const mean = `mean of the growing season, ${degreeSign(units)}`
  const nights = `cool nights, ${degreeSign(units)}`
  const rows = [
    row(`Winkler, ${heatUnit(units)}`, winkler, sumCell(winkler.value, units), region),
    row('Huglin', huglin, numberCell(huglin.value, 0), huglin.class),
    row(mean, seasonMean, degreesCell(seasonMean.value, units), seasonMean.group),
    row(nights, coolNights, degreesCell(coolNights.value, units), coolNights.class),
  ]
  return pageTable('Climate indices, each over its own months', rows, [
    words('index', ({ name }) => name),
    words('over', ({ index }) => `${shortDate(index.from)} to ${shortDate(index.to)}`),
    numbers('value', ({ value }) => value),
    words('class, or what is missing', ({ index, inWords }) => inWords ?? index.why),
  ])
}

function stageTables({ stages }: HeatData, names: Names, units: Units): Content {
  return [...new Set(stages.map(({ block }) => block))].map((block) => {
    const name = nameOf(names, block)
    const own = stages.filter((stage) => stage.block === block)
    const table = pageTable(`${name}: days and ${heatUnit(units)} since each stage was first seen`, own, [
      words('stage', ({ stage, name }) => `${stage} ${name}`),
      numbers('seen', ({ date }) => dateCell(date)),
      numbers('days since', ({ days }) => days),
      numbers(`${heatUnit(units)} since`, ({ degreeDays }) => sumCell(degreeDays, units)),
    ])
    return folded(`Stages of ${name}`, table, { filed: true })
  })
}
