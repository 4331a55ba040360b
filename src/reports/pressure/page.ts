import type { PressureDay } from '../../facts/disease/days.ts'
import { inLedgerUnits } from '../../facts/ledger-units.ts'
import { byHandText } from '../../facts/weather/by-hand.ts'
import { numbers, words } from '../../render/columns.ts'
import { dateCell, numberCell, shareCell } from '../../render/html/figures.ts'
import { type Content, html, list, section } from '../../render/html/markup.ts'
import type { PageOf } from '../../render/html/page.ts'
import { folded, pageTable } from '../../render/html/table.ts'
import { drawDayChart } from '../../render/svg/day-chart.ts'
import { drawEventChart } from '../../render/svg/event-chart.ts'
import { counted } from '../../render/text.ts'
import type { PressureData } from './report.ts'
import { oosporeLine, worstLine } from './terminal-sentences.ts'

/** What each rule judges. */
const OF = {
  powdery: 'Powdery index',
  ascospores: 'Powdery ascospores',
  downy: 'Downy primary infection',
  oospores: 'Downy oospores',
  secondary: 'Downy infection from oil spots',
  botrytis: 'Botrytis',
  blackRot: 'Black rot',
  wetness: 'Leaf wetness',
} as const

/** How likely each disease was, day by day, and by which rules the days were judged. */
export const page: PageOf<PressureData> = ({ data }, { units }) => {
  const { charts } = data
  const said = (line: string) => inLedgerUnits(line, units)
  const hand = byHandText(data.byHand)
  if (data.days.length === 0) return { title: 'Disease pressure', content: null }
  return {
    title: 'Disease pressure',
    content: [
      data.worstFortnight && html`<p>${said(worstLine(data.worstFortnight))}</p>\n`,
      section('Powdery mildew', drawDayChart('powdery', charts.powdery)),
      section(
        'Downy mildew',
        drawEventChart('downy', charts.downy),
        html`<p>${said(oosporeLine(data.oospores))}</p>\n`,
        incubationTable(data),
      ),
      section('Botrytis', drawDayChart('botrytis', charts.botrytis)),
      section('Black rot', drawEventChart('black-rot', charts.blackRot)),
      section(
        'Day by day',
        hand && html`<p>${hand}</p>\n`,
        folded('Every day in a table', dayTable(data.days)),
      ),
      section(
        'Rules used',
        folded(
          counted(data.rules.length, 'rule'),
          list(
            data.rules.map(
              ({ index, rule, source }) =>
                html`${OF[index]}: ${said(rule)} <span class="quiet">(${source})</span>`,
            ),
          ),
          { filed: true },
        ),
      ),
    ],
  }
}

function incubationTable({ incubations }: PressureData): Content {
  if (incubations.length === 0) return null
  return pageTable('When oil spots are due after each spell', incubations, [
    words('infection possible', ({ from, to }) =>
      from === to ? dateCell(from) : html`${dateCell(from)} to ${dateCell(to)}`,
    ),
    numbers('spots from', ({ earliest }) => (earliest === null ? 'not yet' : dateCell(earliest))),
    numbers('to', ({ latest }) => (latest === null ? 'not yet' : dateCell(latest))),
    numbers('hours unknown', ({ missing }) => missing),
  ])
}

const yesNo = (value: boolean | null) => (value === null ? 'unknown' : value ? 'yes' : 'no')

function dayTable(days: readonly PressureDay[]): Content {
  return pageTable('Disease pressure of each day', days, [
    words('day', ({ date }) => dateCell(date)),
    numbers('powdery, index', ({ powdery }) => numberCell(powdery.index, 0)),
    words('downy, primary', ({ downy }) => yesNo(downy.primary)),
    words('botrytis', ({ botrytis }) => botrytis.risk ?? 'unknown'),
    numbers('berries infected', ({ botrytis }) => shareCell(botrytis.index)),
    words('black rot', ({ blackRot }) => yesNo(blackRot.infection)),
  ])
}
