import type { Names } from '../../facts/names.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { dateCell, nameOf, numberCell } from '../../render/html/figures.ts'
import { type Content, html } from '../../render/html/markup.ts'
import type { PageOf } from '../../render/html/page.ts'
import { folded, pageTable } from '../../render/html/table.ts'
import { drawDayChart } from '../../render/svg/day-chart.ts'
import type { ComparedSum } from './beside.ts'
import type { HeatData } from './report.ts'

/** The heat of a season: its sum against earlier seasons, the indices, and heat since each stage. */
export const heatPage: PageOf<HeatData> = ({ data, season }, { names }) => ({
  title: 'Heat',
  content: html`<section>
<h2>The sum through the season</h2>
${drawDayChart('heat-sum', data.charts.sum)}${besideTable(data, season)}</section>
<section>
<h2>Each day</h2>
${drawDayChart('heat-daily', data.charts.daily)}${folded('Every day in a table', dayTable(data))}</section>
<section>
<h2>Indices</h2>
${indexTable(data)}</section>
${
  data.stages.length > 0 &&
  html`<section>
<h2>Since each stage</h2>
${stageTable(data, names)}</section>
`
}`,
})

function besideTable({ beside, to }: HeatData, season: number | null): Content {
  if (!beside) return null
  const row = (name: string, { sum, filled, missing }: ComparedSum) => [
    name,
    numberCell(sum, 0),
    String(filled),
    String(missing),
  ]
  return pageTable({
    caption: `Degree days up to ${shortDate(to)}`,
    columns: [
      { title: 'season' },
      { title: 'degree days', number: true },
      { title: 'days filled in', number: true },
      { title: 'days unknown', number: true },
    ],
    rows: [
      row(`${season}`, beside.now),
      ...beside.seasons.map((one) => row(`${one.season}${one.used ? '' : ', not compared'}`, one)),
      ['mean of earlier seasons', numberCell(beside.mean, 0), '', ''],
    ],
  })
}

function dayTable({ days }: HeatData): Content {
  return pageTable({
    caption: 'Temperatures and degree days',
    columns: [
      { title: 'day' },
      { title: 'lowest, °C', number: true },
      { title: 'highest, °C', number: true },
      { title: 'degree days', number: true },
    ],
    rows: days.map((day) => [
      dateCell(day.date),
      numberCell(day.min, 1),
      numberCell(day.max, 1),
      numberCell(day.degreeDays, 1),
    ]),
  })
}

function indexTable({ winkler, huglin, seasonMean, coolNights }: HeatData): Content {
  const span = ({ from, to }: { from: string; to: string }) => `${shortDate(from)} to ${shortDate(to)}`
  return pageTable({
    caption: 'Climate indices, each over its own months',
    columns: [
      { title: 'index' },
      { title: 'over' },
      { title: 'value', number: true },
      { title: 'class, or what is missing' },
    ],
    rows: [
      [
        'Winkler',
        span(winkler),
        numberCell(winkler.value, 0),
        winkler.region ? `region ${winkler.region}` : winkler.why,
      ],
      ['Huglin', span(huglin), numberCell(huglin.value, 0), huglin.class ?? huglin.why],
      [
        'mean of the growing season',
        span(seasonMean),
        numberCell(seasonMean.value, 1),
        seasonMean.group ?? seasonMean.why,
      ],
      ['cool nights', span(coolNights), numberCell(coolNights.value, 1), coolNights.class ?? coolNights.why],
    ],
  })
}

function stageTable({ stages }: HeatData, names: Names): Content {
  return pageTable({
    caption: 'Days and degree days since each stage was first seen',
    columns: [
      { title: 'block' },
      { title: 'stage' },
      { title: 'seen', number: true },
      { title: 'days since', number: true },
      { title: 'degree days since', number: true },
    ],
    rows: stages.map((stage) => [
      nameOf(names, stage.block),
      `${stage.stage} ${stage.name}`,
      dateCell(stage.date),
      String(stage.days),
      numberCell(stage.degreeDays, 0),
    ]),
  })
}
