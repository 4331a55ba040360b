import { highest } from '../../agronomy/statistics/extremes.ts'
import { inLedgerUnits } from '../../facts/ledger-units.ts'
import type { Report } from '../../facts/report.ts'
import { asSentences, upperFirst } from '../../facts/sentences.ts'
import { overLabelSentence } from '../../facts/spraying/over-label.ts'
import type { Level } from '../../ledger/read/finding.ts'
import { numbers } from '../../render/columns.ts'
import { daysInWords } from '../../render/days-in-words.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { COLOUR, renderTable } from '../../render/table.ts'
import { counted, sentences, underAnswer, wrap, wrapAll, wrapCommand } from '../../render/text.ts'
import { display, displayRange } from '../../render/units.ts'
import type { MixProduct } from './amounts.ts'
import type { MixData } from './report.ts'
import { follows } from './terminal-follows.ts'
import { inTenLitres, notes } from './terminal-notes.ts'

/**
 * A tank mix on the screen: what is wrong, the answer, the amounts, notes, what follows. Of a mix over the label
 * only that is said: no amounts to weigh out, and no dates.
 */
export function renderMix(report: Report<MixData>, style: Style): string {
  const over = overLabelText(report.data, style)
  const first = stands(report, style, (level) => level !== 'hint')
  const hints = stands(report, style, (level) => level === 'hint')
  const parts = over
    ? [underAnswer(over, report.cautions, style.columns), stands(report, style, () => true)]
    : [
        first,
        underAnswer(`${wrap(answer(report.data, style), style.columns)}\n`, report.cautions, style.columns),
        amounts(report.data, style),
        paragraph(notes(report.data, style), style),
        paragraph(follows(report.data, style), style),
        report.data.record === null
          ? ''
          : `Once it is sprayed, record it:\n${wrapCommand(safeLine(report.data.record), style.columns)}\n`,
        hints,
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

function amounts(data: MixData, style: Style): string {
  const { units, columns: room } = style
  const { fills, fullTanks, lastTank, toAdd, even } = data
  const cells: { title: string; water: string; of: (product: MixProduct) => string }[] = []
  const first = toAdd && fills && toAdd[0]!.value !== fills[0]!.value
  const fillCell = (title: string, index: number) => ({
    title,
    water: display((toAdd ?? [])[index]!, units),
    of: (product: MixProduct) => fillAmount(product, index, style),
  })
  if (fills && even && fills.length > 1) {
    if (first) cells.push(fillCell('first fill', 0))
    cells.push(fillCell(first ? 'each later' : 'each fill', fills.length - 1))
  } else if (fills) {
    const full = fullTanks ?? 0
    if (first && full > 0) cells.push(fillCell('first tank', 0))
    if (full > (first ? 1 : 0))
      cells.push(fillCell(full === 1 ? 'full tank' : first ? 'other full' : 'each full', first ? 1 : 0))
    if (lastTank!.value > 0) cells.push(fillCell(full > 0 ? 'last' : 'the fill', fills.length - 1))
  }
  const several = (fills?.length ?? 2) > 1
  if (several) {
    cells.push({
      title: 'in all',
      water: display(data.water, units),
      of: ({ total, rounded }) => display((rounded?.total ?? total)!, units),
    })
  }
  const isOnArea = data.waterPerHa !== null
  if (isOnArea)
    cells.push({
      title: `per ${units === 'metric' ? 'ha' : 'acre'}`,
      water: perArea(data.waterPerHa!, units),
      of: ({ rate }) => perArea(rate!, units),
    })
  else if (units === 'metric')
    cells.push({ title: 'in 10 L', water: '', of: ({ concentration }) => inTenLitres(concentration) })
  if (room >= 100 || (!isOnArea && units !== 'metric'))
    cells.push({ title: 'in the spray', water: '', of: ({ concentration }) => display(concentration, units) })
  const labelled = data.products.some(({ range }) => range)
  const table = [
    { title: '', most: 26 },
    ...numbers(...cells.map(({ title }) => title)),
    ...(labelled ? ['label'] : []),
  ]
  const byId = new Map(data.products.map((product) => [product.product, product]))
  const rows = data.order.map((id, index) => {
    const product = byId.get(id)!
    const number = data.order.length > 1 ? `${index + 1}  ` : ''
    return [`${number}${nameOf(product)}`, ...cells.map(({ of }) => of(product)), label(product, style)]
  })
  const indent = data.order.length > 1 ? '   ' : ''
  const all = [[`${indent}water`, ...cells.map(({ water }) => water), ''], ...rows]
  const whole = renderTable(table, all)
  if (!labelled || widthOf(whole) <= room) return whole
  // Where the screen is too narrow for the label's column, what it says follows the table.
  const said = data.products.flatMap((product) =>
    product.range ? [wrap(`${nameOf(product)}: ${label(product, style)} by the label.`, room)] : [],
  )
  return `${renderTable(table.slice(0, -1), all)}\n${said.join('\n')}\n`
}

const lower = (text: string) => `${text[0]!.toLowerCase()}${text.slice(1)}`

const widthOf = (text: string) => highest(text.split('\n').map((line) => line.replace(COLOUR, '').length))

/** What goes into a fill: rounded for the scale where that was asked for. */
export function fillAmount(product: MixProduct, index: number, { units }: Style): string {
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
  const doses = overLabel.flatMap(({ product: id }) => {
    const product = products.find(({ product }) => product === id)!
    return product.range ? [`Label of ${nameOf(product)}: ${displayRange(product.range, units)}.`] : []
  })
  const lines = [
    'Do not mix this: it is over the label. No amounts are given.',
    inLedgerUnits(
      `If it was sprayed: ${lower(overLabelSentence(overLabel).replace(/^Over the label: /, ''))}`,
      units,
      'spray',
    ),
    ...doses,
  ]
  return `${paint.bad(wrap(lines[0]!, columns))}\n${paragraph(lines.slice(1), { columns } as Style)}`
}

/** What the rules say against the mix, of the levels wanted. */
function stands(
  report: Report<MixData>,
  { columns, paint, units }: Style,
  wanted: (level: Level) => boolean,
): string {
  const findings = report.findings.filter(({ level }) => wanted(level))
  if (findings.length === 0) return ''
  const lines = findings.map(({ level, name, message, help }) => {
    const head = `${level === 'error' ? paint.bad(level) : level}  ${name}`
    return `${head}\n${wrap(inLedgerUnits(safeLine(asSentences([daysInWords(message, report.asOf.slice(0, 4)), help])), units, 'spray'), columns, '  ')}`
  })
  return `Problems:\n${lines.join('\n')}\n`
}
