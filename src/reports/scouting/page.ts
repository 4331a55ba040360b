import { diseaseWord } from '../../records/disease.ts'
import { numbers, words } from '../../render/columns.ts'
import { figure } from '../../render/figure.ts'
import { dateCell, nameOf, shareCell } from '../../render/html/figures.ts'
import { type Content, html, section } from '../../render/html/markup.ts'
import type { PageOf } from '../../render/html/page.ts'
import { folded, pageTable } from '../../render/html/table.ts'
import { drawCourseChart } from '../../render/svg/course-chart.ts'
import { scoutingChart } from './chart.ts'
import type { ScoutingData } from './report.ts'

/** What scouting found, block by block, and whether it changed beyond chance. */
export const page: PageOf<ScoutingData> = ({ data }, { names }) => {
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
  const own = walks.filter((walk) => walk.block === block)
  const severity = (share: number | null) => (share === null ? '-' : shareCell(share, 1))
  return pageTable(`${name}, every scouting round`, own, [
    words('walked', ({ date }) => dateCell(date)),
    words('disease', ({ disease, organ }) => `${diseaseWord(disease)} on ${organ}`),
    numbers('found', ({ found, looked }) => `${found} of ${looked}`),
    numbers('share', ({ incidence }) => shareCell(incidence, 1)),
    numbers('95 % interval', ({ low, high }) => `${figure(low * 100, 1)} to ${figure(high * 100, 1)} %`),
    numbers('severity, over all', (walk) => severity(walk.severity)),
    numbers('over the affected', (walk) => severity(walk.severityAffected)),
  ])
}

function changeTable({ trends }: ScoutingData, block: string, name: string): Content {
  const own = trends.filter((trend) => trend.block === block)
  if (own.length === 0) return null
  const points = (share: number) => `${share > 0 ? '+' : ''}${figure(share * 100, 1)}`
  return pageTable(`${name}, change since the round before, in percentage points`, own, [
    words('disease', ({ disease, organ }) => `${diseaseWord(disease)} on ${organ}`),
    numbers('from', ({ from }) => dateCell(from)),
    numbers('to', ({ to }) => dateCell(to)),
    numbers('change', ({ change }) => points(change)),
    numbers('95 % interval', ({ low, high }) => `${points(low)} to ${points(high)}`),
    words('more than chance', ({ beyondChance }) => (beyondChance ? 'yes' : 'no')),
  ])
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
