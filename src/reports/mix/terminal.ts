import { highest } from '../../agronomy/statistics/extremes.ts'
import { groupedBy } from '../../facts/judged.ts'
import { inLedgerUnits } from '../../facts/ledger-units.ts'
import type { Report } from '../../facts/report.ts'
import { asSentences, upperFirst } from '../../facts/sentences.ts'
import { overLabelSentence } from '../../facts/spraying/over-label.ts'
import type { Level } from '../../ledger/read/finding.ts'
import { type Columns, numbers, words } from '../../render/columns.ts'
import { daysInWords } from '../../render/days-in-words.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { COLOUR, renderTable } from '../../render/table.ts'
import { counted, sentences, underAnswer, wrap, wrapAll, wrapCommand } from '../../render/text.ts'
import { display, displayRange } from '../../render/units.ts'
import type { MixProduct } from './amounts.ts'
import type { MixData } from './report.ts'
import { follows, inTenLitres, notes } from './terminal-notes.ts'

/**
 * A tank mix on the screen: what is wrong, the answer, the amounts, notes, what follows. Of a mix over the label
 * only that is said: no amounts to weigh out, and no dates.
 */
export function renderMix(report: Report<MixData>, style: Style): string {
  const { data, cautions } = report
  const { columns } = style
  const over = overLabelText(data, style)
  const parts = over
    ? [underAnswer(over, cautions, columns), problems(report, style, ['error', 'warning', 'hint'])]
    : [
        problems(report, style, ['error', 'warning']),
        underAnswer(`${wrap(answer(data, style), columns)}\n`, cautions, columns),
        amounts(data, style),
        paragraph(notes(data, style), style),
        paragraph(follows(data, style), style),
        data.record && `Once it is sprayed, record it:\n${wrapCommand(safeLine(data.record), columns)}\n`,
        problems(report, style, ['hint']),
      ]
  return sentences(...parts).join('\n')
}

/** What to fill, in one sentence. */
export function answer(data: MixData, { units, paint }: Style): string {
  const { tank, fullTanks, lastTank, fills, even } = data
  const job = jobText(data, units)
  const filled = (fill: string) =>
    paint.strong(data.spot ? `${fill}. ${upperFirst(job)}.` : `${fill}: ${job}.`)
  if (!tank || !fills) {
    const more = data.area === null ? '' : ' Name the tank for the amount of each fill.'
    return paint.strong(`${upperFirst(job)}.${more}`)
  }
  const last = display(lastTank!, units)
  const full = display(tank, units)
  if (even && fills.length > 1)
    return filled(`${counted(fills.length, 'equal fill')} of ${display(fills[0]!, units)}`)
  if (fullTanks === 0) return filled(`One fill of ${last} in the ${full} tank`)
  const fullText = fullTanks === 1 ? `One full tank of ${full}` : `${fullTanks} full tanks of ${full}`
  return filled(lastTank!.value === 0 ? fullText : `${fullText}, then ${last}`)
}

/** `135 L for 0.45 ha at 300 L/ha`; without an area, what goes into how much. */
function jobText(
  { area, water, waterPerHa, products, spot, treated }: MixData,
  units: Style['units'],
): string {
  const litres = display(water, units)
  const [only] = products
  const what =
    (area === null || spot) && only && products.length === 1
      ? `${display(only.total!, units)} of ${nameOf(only)} in ${litres}`
      : litres
  const on = sentences(
    treated?.vines && counted(treated.vines, 'vine'),
    treated?.rows && rowsText(treated.rows),
    treated?.share && `${Number((treated.share * 100).toPrecision(3))} %`,
  )
  const where = sentences(
    on,
    area && waterPerHa && `${display(area, units)} at ${display(waterPerHa, units)}`,
  )
  const said = where.length === 0 ? what : `${what} ${on.length > 0 ? 'on' : 'for'} ${where.join(', ')}`
  return spot ? `spot spray: ${said}` : said
}

const rowsText = ({ low, high }: { low: number; high: number }) =>
  low === high ? `row ${low}` : `rows ${low} to ${high}`

/** Fills that are alike: the first of them, how many, and whether water stands in it already. */
export function kindsOfFill({ fills, toAdd }: MixData): { index: number; count: number; stands: boolean }[] {
  // Only the first and the last can differ from the others, so that those alike stand together.
  const groups = groupedBy([...(fills ?? []).keys()], (at) => `${fills![at]!.value} ${toAdd![at]!.value}`)
  return [...groups.values()].map((alike) => {
    const index = alike[0]!
    return { index, count: alike.length, stands: toAdd![index]!.value !== fills![index]!.value }
  })
}

/** The products in the order in which they go into the tank. */
export const inOrder = ({ order, products }: MixData): MixProduct[] =>
  order.map((id) => products.find(({ product }) => product === id)!)

function amounts(data: MixData, style: Style): string {
  const { units, columns: room } = style
  const { fills, toAdd, waterPerHa } = data
  const amount = (title: string, water: string, of: (product: MixProduct) => string) =>
    numbers(title, (product: MixProduct | null) => (product ? of(product) : water))
  const several = data.order.length > 1
  const name = (product: MixProduct | null, index: number) =>
    product ? `${several ? `${index}  ` : ''}${nameOf(product)}` : `${several ? '   ' : ''}water`
  const columns: Columns<MixProduct | null, string> = [
    words('', name, 26),
    ...kindsOfFill(data).map(({ index, stands }) =>
      amount(columnOf(data, index, stands), display(toAdd![index]!, units), (product) =>
        fillAmount(product, index, units),
      ),
    ),
    fills?.length !== 1 &&
      amount('in all', display(data.water, units), ({ total, rounded }) =>
        display((rounded?.total ?? total)!, units),
      ),
    waterPerHa
      ? amount(`per ${units === 'metric' ? 'ha' : 'acre'}`, perArea(waterPerHa, units), ({ rate }) =>
          perArea(rate!, units),
        )
      : units === 'metric' && amount('in 10 L', '', ({ concentration }) => inTenLitres(concentration)),
    (room >= 100 || (!waterPerHa && units !== 'metric')) &&
      amount('in the spray', '', ({ concentration }) => display(concentration, units)),
  ]
  /** The water, then the products. */
  const rows = [null, ...inOrder(data)]
  const labelled = data.products.some(({ range }) => range)
  const whole = renderTable(
    rows,
    [...columns, labelled && words('label', (product) => (product ? label(product, style) : ''))],
    style.columns,
  )
  if (!labelled || widthOf(whole) <= room) return whole
  // Where the screen is too narrow for the label's column, what it says follows the table.
  const said = data.products.flatMap((product) =>
    product.range ? [wrap(`${nameOf(product)}: ${label(product, style)} by the label.`, room)] : [],
  )
  return `${renderTable(rows, columns, style.columns)}\n${said.join('\n')}\n`
}

/** The heading of the column of a kind of fill. */
function columnOf({ fills, fullTanks, toAdd, even }: MixData, index: number, stands: boolean): string {
  const hasFirst = toAdd![0]!.value !== fills![0]!.value
  if (even && fills!.length > 1) return stands ? 'first fill' : hasFirst ? 'each later' : 'each fill'
  if (index >= fullTanks!) return index > 0 ? 'last' : 'the fill'
  return stands ? 'first tank' : fullTanks === 1 ? 'full tank' : hasFirst ? 'other full' : 'each full'
}

const widthOf = (text: string) => highest(text.split('\n').map((line) => line.replace(COLOUR, '').length))

/** What goes into a fill: rounded for the scale where that was asked for. */
export function fillAmount(product: MixProduct, index: number, units: Style['units']): string {
  const rounded = product.rounded?.perFill[index]
  return display(rounded ?? product.perFill![index]!, units)
}

export const nameOf = ({ name, form }: MixProduct) => safeLine(form ? `${name} (${form})` : name)

/** `3 of 2-6 kg/ha`, in the form that the label gives. */
function label({ limits, range }: MixProduct, { units, paint }: Style): string {
  if (!range) return ''
  const implied = limits.find(({ inWater }) => inWater !== null)
  if (implied) {
    const most = `${display({ value: implied.high, unit: implied.unit }, units)} at most`
    return implied.within ? most : paint.bad(`NOT within ${most}`)
  }
  const limit = limits.find(({ form }) => form !== 'max_rate')!
  const text = displayRange(range, units)
  if (limit.within === null) return `${text} (not comparable)`
  const off = limits.some(({ within }) => within === false)
  return off ? paint.bad(`NOT within ${text}`) : `within ${text}`
}

/** An amount for ground area without its area, for a column that names it. */
const perArea = (quantity: { value: number; unit: string }, units: Style['units']) =>
  display(quantity, units).replace(/\/(ha|acre)$/, '')

const paragraph = (lines: readonly string[], { columns }: Style) =>
  lines.length === 0 ? '' : `${wrapAll(lines, columns)}\n`

/** What is over the label, what it says of picking and entering, and the label's own dose; empty where nothing is. */
export function overLabelText({ overLabel, products }: MixData, { columns, paint, units }: Style): string {
  if (overLabel.length === 0) return ''
  const over = overLabelSentence(overLabel).replace(/^Over the label: ./, (start) =>
    start.at(-1)!.toLowerCase(),
  )
  const lines = [
    inLedgerUnits(`If it was sprayed: ${over}`, units, 'spray'),
    ...overLabel.flatMap(({ product: id }) => {
      const product = products.find(({ product }) => product === id)!
      return product.range ? `Label of ${nameOf(product)}: ${displayRange(product.range, units)}.` : []
    }),
  ]
  const first = wrap('Do not mix this: it is over the label. No amounts are given.', columns)
  return `${paint.bad(first)}\n${wrapAll(lines, columns)}\n`
}

/** What the rules say against the mix, of some of the levels. */
function problems(report: Report<MixData>, style: Style, levels: readonly Level[]): string {
  const { columns, paint, units } = style
  const lines = report.findings
    .filter(({ level }) => levels.includes(level))
    .map(({ level, name, message, help }) => {
      const said = asSentences([daysInWords(message, report.asOf.slice(0, 4)), help])
      return `${level === 'error' ? paint.bad(level) : level}  ${name}\n${wrap(inLedgerUnits(safeLine(said), units, 'spray'), columns, '  ')}`
    })
  return lines.length === 0 ? '' : `Problems:\n${lines.join('\n')}\n`
}
