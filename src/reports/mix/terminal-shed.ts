import { groupedBy } from '../../facts/judged.ts'
import { inLedgerUnits } from '../../facts/ledger-units.ts'
import type { Report } from '../../facts/report.ts'
import { daysInWords } from '../../render/days-in-words.ts'
import { PLAIN, type Style } from '../../render/style.ts'
import { underAnswer, wrap } from '../../render/text.ts'
import { display } from '../../render/units.ts'
import type { MixData } from './report.ts'
import { answer, fillAmount, nameOf, overLabelText } from './terminal.ts'
import { follows } from './terminal-follows.ts'
import { notes } from './terminal-notes.ts'

/** The mix as one page to print: each kind of fill as a list to tick, and room for what was done. */
export function renderShed(report: Report<MixData>, style: Style): string {
  const plain: Style = { ...style, columns: Math.min(style.columns, 76), paint: PLAIN }
  const { data } = report
  const over = overLabelText(data, plain)
  const { cautions } = report
  if (over) return underAnswer(over, cautions, plain.columns)
  const lines = [
    'TANK MIX',
    '',
    wrap(answer(data, plain), plain.columns),
    '',
    wrap(cautions.join(' '), plain.columns),
    '',
  ]
  for (const { title, index } of kindsOfFill(data)) {
    lines.push(title.toUpperCase())
    lines.push(`  [ ] water to half         (in all ${display(data.toAdd![index]!, plain.units)})`)
    for (const id of data.order) {
      const product = data.products.find(({ product }) => product === id)!
      lines.push(tick(product, fillAmount(product, index, plain), plain))
    }
    lines.push(`  [ ] water to ${display(data.fills![index]!, plain.units)}`, '')
  }
  if (!data.fills)
    for (const product of data.products)
      lines.push(tick(product, display(product.total!, plain.units), plain))
  for (const line of [...notes(data, plain), ...follows(data, plain)]) lines.push(wrap(line, plain.columns))
  for (const { level, name, message } of report.findings)
    lines.push(
      wrap(
        `${level.toUpperCase()} ${name}: ${inLedgerUnits(daysInWords(message, report.asOf.slice(0, 4)), style.units, 'spray')}`,
        plain.columns,
      ),
    )
  lines.push('', 'Date __________  from ______ to ______  wind ________  by __________________')
  return `${lines.join('\n')}\n`
}

/** A product to tick off with its amount, which goes below a long name. */
function tick(product: MixData['products'][number], amount: string, { columns }: Style): string {
  const name = nameOf(product)
  const place =
    name.length > 34 ? `${wrap(name, columns - 6, '      ').trimStart()}\n${' '.repeat(40)}` : name.padEnd(34)
  return `  [ ] ${place} ${amount.padStart(12)}`
}

/** Every fill, those that are alike once: what to call them, and which is the first of them. */
export function kindsOfFill({ fills, toAdd }: MixData): { title: string; index: number }[] {
  if (!fills || !toAdd) return []
  // Only the first and the last can differ from the others, so that those alike stand together.
  const groups = groupedBy([...fills.keys()], (at) => `${fills[at]!.value} ${toAdd[at]!.value}`)
  return [...groups.values()].map(([index, ...more], at) => {
    const stands = toAdd[index!]!.value !== fills[index!]!.value
    const count = more.length + 1
    const title = stands
      ? `${fills.length > 1 ? 'First' : 'The'} fill (water is in it)`
      : count > 1
        ? `${count} fills alike: tick off ${'__ '.repeat(Math.min(count, 12)).trim()}`
        : at > 0 && at === groups.size - 1
          ? 'Last fill'
          : fills.length > 1
            ? 'Fill'
            : 'The fill'
    return { title, index: index! }
  })
}
