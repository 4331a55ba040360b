import { inLedgerUnits } from '../../facts/ledger-units.ts'
import { numbers } from '../../render/columns.ts'
import { signed } from '../../render/figure.ts'
import { dateCell, nameOf, numberCell, spanCell } from '../../render/html/figures.ts'
import { type Content, html, section } from '../../render/html/markup.ts'
import type { PageInput, PageOf } from '../../render/html/page.ts'
import { folded, pageTable } from '../../render/html/table.ts'
import { drawCourseChart } from '../../render/svg/course-chart.ts'
import type { RipenessData, RipenessSample } from './report.ts'
import { remarksOf } from './terminal.ts'

/** How each block ripens: the rate and what to mind; its chart and samples are folded. */
export const ripenessPage: PageOf<RipenessData> = ({ data }, { names, units }) => {
  const parts = data.trends.map(({ block, perDay, perDayLow, perDayHigh, n, why }, index) => {
    const samples = data.samples.filter((sample) => sample.block === block)
    const name = nameOf(names, block)
    const chart = data.charts.find((one) => one.block === block)?.chart
    const pace =
      perDay === null || perDayLow === null || perDayHigh === null
        ? `No rate: ${why}.`
        : `Sugar: ${signed(perDay, 2)} Brix a day (${signed(perDayLow, 2)} to ${signed(perDayHigh, 2)}, 19 times in 20), from the last ${n} sampling days.`
    return section(
      name,
      html`<p>${samples.length === 0 ? 'No samples yet.' : pace}</p>\n`,
      remarks(samples, { names, units }),
      chart && folded(`Chart of ${name}`, drawCourseChart(`ripeness-${index}`, chart), { beside: true }),
      samples.length > 0 && folded(`Every sample of ${name}`, sampleTable(name, samples), { filed: true }),
    )
  })
  return { title: 'Ripeness', content: parts }
}

function sampleTable(name: string, samples: RipenessSample[]): Content {
  return pageTable({
    caption: `Samples of ${name}`,
    columns: [
      'sampled',
      ...numbers(
        'berries',
        'Brix',
        '95 % interval',
        'sugar, g/L',
        'likely alcohol, % vol',
        'acid, g/L',
        'pH',
      ),
    ],
    rows: samples.map((sample) => [
      dateCell(sample.date),
      numberCell(sample.berries, 0),
      numberCell(sample.brix, 1),
      spanCell(sample.brixLow, sample.brixHigh, 1),
      numberCell(sample.sugarPerLitre?.value ?? null, 0),
      numberCell(sample.potentialAlcohol?.likely ?? null, 1),
      numberCell(sample.ta?.value ?? null, 1),
      numberCell(sample.ph, 2),
    ]),
  })
}

function remarks(samples: RipenessSample[], { names, units }: Omit<PageInput, 'answer'>): Content {
  const lines = new Set(
    samples.flatMap((sample, index) =>
      remarksOf(sample, { nameOf: (block) => nameOf(names, block), last: index === samples.length - 1 }),
    ),
  )
  return (
    lines.size > 0 &&
    html`<ul class="plain quiet">${[...lines].map((line) => html`<li>${inLedgerUnits(line, units)}</li>\n`)}</ul>\n`
  )
}
