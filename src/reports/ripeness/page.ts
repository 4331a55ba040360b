import { inLedgerUnits } from '../../facts/ledger-units.ts'
import { numbers, words } from '../../render/columns.ts'
import { signed } from '../../render/figure.ts'
import { dateCell, nameOf, numberCell, spanCell } from '../../render/html/figures.ts'
import { type Content, html, section } from '../../render/html/markup.ts'
import type { PageInput, PageOf } from '../../render/html/page.ts'
import { folded, pageTable } from '../../render/html/table.ts'
import { drawCourseChart } from '../../render/svg/course-chart.ts'
import type { RipenessData, RipenessSample } from './report.ts'
import { remarksOf } from './terminal.ts'

/** How each block ripens: the rate and what to mind; its chart and samples are folded. */
export const page: PageOf<RipenessData> = ({ data }, { names, units }) => {
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
  return pageTable(`Samples of ${name}`, samples, [
    words('sampled', ({ date }) => dateCell(date)),
    numbers('berries', ({ berries }) => numberCell(berries, 0)),
    numbers('Brix', ({ brix }) => numberCell(brix, 1)),
    numbers('95 % interval', ({ brixLow, brixHigh }) => spanCell(brixLow, brixHigh, 1)),
    numbers('sugar, g/L', ({ sugarPerLitre }) => numberCell(sugarPerLitre?.value ?? null, 0)),
    numbers('likely alcohol, % vol', ({ potentialAlcohol }) =>
      numberCell(potentialAlcohol?.likely ?? null, 1),
    ),
    numbers('acid, g/L', ({ ta }) => numberCell(ta?.value ?? null, 1)),
    numbers('pH', ({ ph }) => numberCell(ph, 2)),
  ])
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
