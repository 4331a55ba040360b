import { diseaseWord } from '../../records/disease.ts'
import { numbers } from '../../render/columns.ts'
import { figure } from '../../render/figure.ts'
import { dateCell, nameOf, shareCell } from '../../render/html/figures.ts'
import { type Content, html, section } from '../../render/html/markup.ts'
import type { PageOf } from '../../render/html/page.ts'
import { folded, pageTable } from '../../render/html/table.ts'
import { drawCourseChart } from '../../render/svg/course-chart.ts'
import { scoutingChart } from './chart.ts'
import type { ScoutingData } from './report.ts'

/** What scouting found, block by block, and whether it changed beyond chance. */
export const scoutingPage: PageOf<ScoutingData> = ({ data }, { names }) => {
  const blocks = [...new Set(data.walks.map(({ block }) => block))].sort()
  return {
    title: 'What scouting found',
    content: blocks.map((block, index) => {
      const name = nameOf(names, block)
      const chart = scoutingChart(data, { block, name })
      const tables = [walkTable(data, block, name), changeTable(data, block, name)]
      return section(
        name,
        chart && drawCourseChart(`scouting-${index}`, chart),
        places(data, block),
        folded('Every round in a table', tables, { filed: true }),
      )
    }),
  }
}

function walkTable({ walks }: ScoutingData, block: string, name: string): Content {
  return pageTable({
    caption: `${name}, every scouting round`,
    columns: [
      'walked',
      'disease',
      ...numbers('found', 'share', '95 % interval', 'severity, over all', 'over the affected'),
    ],
    rows: walks
      .filter((walk) => walk.block === block)
      .map((walk) => [
        dateCell(walk.date),
        `${diseaseWord(walk.disease)} on ${walk.organ}`,
        `${walk.found} of ${walk.looked}`,
        shareCell(walk.incidence, 1),
        `${figure(walk.low * 100, 1)} to ${figure(walk.high * 100, 1)} %`,
        walk.severity === null ? '-' : shareCell(walk.severity, 1),
        walk.severityAffected === null ? '-' : shareCell(walk.severityAffected, 1),
      ]),
  })
}

function changeTable({ trends }: ScoutingData, block: string, name: string): Content {
  const own = trends.filter((trend) => trend.block === block)
  if (own.length === 0) return null
  const points = (share: number) => `${share > 0 ? '+' : ''}${figure(share * 100, 1)}`
  return pageTable({
    caption: `${name}, change since the round before, in percentage points`,
    columns: ['disease', ...numbers('from', 'to', 'change', '95 % interval'), 'more than chance'],
    rows: own.map((trend) => [
      `${diseaseWord(trend.disease)} on ${trend.organ}`,
      dateCell(trend.from),
      dateCell(trend.to),
      points(trend.change),
      `${points(trend.low)} to ${points(trend.high)}`,
      trend.beyondChance ? 'yes' : 'no',
    ]),
  })
}

function places({ maps }: ScoutingData, block: string): Content {
  const own = maps.filter((map) => map.block === block)
  return (
    own.length > 0 &&
    html`<ul class="plain">${own.map(({ disease, date, from, to, rows, where }) => {
      const all = rows === null ? '' : ` of ${rows}`
      return html`<li>${diseaseWord(disease)}, ${dateCell(date)}: ${from === to ? `row ${from}` : `rows ${from} to ${to}`}${all}${where && `, ${where}`}.</li>\n`
    })}</ul>\n`
  )
}
