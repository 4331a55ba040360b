import { inLedgerUnits } from '../../facts/ledger-units.ts'
import type { Report } from '../../facts/report.ts'
import { daysInWords } from '../../render/days-in-words.ts'
import { PLAIN, type Style } from '../../render/style.ts'
import { underAnswer, wrap } from '../../render/text.ts'
import { display } from '../../render/units.ts'
import type { MixProduct } from './amounts.ts'
import type { MixData } from './report.ts'
import { answer, fillAmount, inOrder, kindsOfFill, nameOf, overLabelText } from './terminal.ts'
import { follows, notes } from './terminal-notes.ts'

/** The mix as one page to print: each kind of fill as a list to tick, and room for what was done. */
export function renderShed(report: Report<MixData>, style: Style): string {
  const plain: Style = { ...style, columns: Math.min(style.columns, 76), paint: PLAIN }
  const { data, cautions } = report
  const over = overLabelText(data, plain)
  if (over) return underAnswer(over, cautions, plain.columns)
  const lines = [
    'TANK MIX',
    '',
    wrap(answer(data, plain), plain.columns),
    '',
    wrap(cautions.join(' '), plain.columns),
    '',
  ]
  for (const { title, index } of titledFills(data)) {
    lines.push(title.toUpperCase())
    lines.push(`  [ ] water to half         (in all ${display(data.toAdd![index]!, plain.units)})`)
    for (const product of inOrder(data))
      lines.push(tick(product, fillAmount(product, index, plain.units), plain))
    lines.push(`  [ ] water to ${display(data.fills![index]!, plain.units)}`, '')
  }
  if (!data.fills)
    for (const product of data.products)
      lines.push(tick(product, display(product.total!, plain.units), plain))
  for (const line of [...notes(data, plain), ...follows(data, plain)]) lines.push(wrap(line, plain.columns))
  for (const { level, name, message } of report.findings) {
    const said = inLedgerUnits(daysInWords(message, report.asOf.slice(0, 4)), plain.units, 'spray')
    lines.push(wrap(`${level.toUpperCase()} ${name}: ${said}`, plain.columns))
  }
  lines.push('', 'Date __________  from ______ to ______  wind ________  by __________________')
  return `${lines.join('\n')}\n`
}

/** A product to tick off with its amount, which goes below a long name. */
function tick(product: MixProduct, amount: string, { columns }: Style): string {
  const name = nameOf(product)
  const place =
    name.length > 34 ? `${wrap(name, columns - 6, '      ').trimStart()}\n${' '.repeat(40)}` : name.padEnd(34)
  return `  [ ] ${place} ${amount.padStart(12)}`
}

/** Every kind of fill, with what to call it. */
export function titledFills(data: MixData): { title: string; index: number }[] {
  const kinds = kindsOfFill(data)
  const several = data.fills !== null && data.fills.length > 1
  return kinds.map(({ index, count, stands }, at) => {
    if (stands) return { title: `${several ? 'First' : 'The'} fill (water is in it)`, index }
    if (count > 1)
      return { title: `${count} fills alike: tick off ${'__ '.repeat(Math.min(count, 12)).trim()}`, index }
    const isLast = at > 0 && at === kinds.length - 1
    return { title: isLast ? 'Last fill' : several ? 'Fill' : 'The fill', index }
  })
}
