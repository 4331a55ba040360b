import type { MixData } from '../reports/mix.ts'
import type { Report } from '../reports/report.ts'
import { answer, fillAmount, follows, nameOf, notes } from './mix.ts'
import { paintFor, type Style } from './style.ts'
import { renderCautions, wrap } from './text.ts'
import { display } from './units.ts'

/** The mix as one page to print: each kind of fill as a list to tick, and room for what was done. */
export function renderShed(report: Report<MixData>, style: Style): string {
  const plain: Style = { ...style, columns: Math.min(style.columns, 76), paint: paintFor(false) }
  const { data } = report
  const lines = ['TANK MIX', '', wrap(answer(data, plain), plain.columns), '']
  for (const { title, index } of kindsOfFill(data)) {
    lines.push(title.toUpperCase())
    lines.push(`  [ ] water to half         (in all ${display(data.toAdd![index]!, plain.units)})`)
    for (const id of data.order) {
      const product = data.products.find(({ product }) => product === id)!
      lines.push(`  [ ] ${nameOf(product).padEnd(34)} ${fillAmount(product, index, plain).padStart(12)}`)
    }
    lines.push(`  [ ] water to ${display(data.fills![index]!, plain.units)}`, '')
  }
  if (!data.fills)
    for (const product of data.products)
      lines.push(`  [ ] ${nameOf(product).padEnd(34)} ${display(product.total, plain.units).padStart(12)}`)
  for (const line of [...notes(data, plain), ...follows(data, plain)]) lines.push(wrap(line, plain.columns))
  for (const { level, name, message } of report.findings)
    lines.push(wrap(`${level.toUpperCase()} ${name}: ${message}`, plain.columns))
  lines.push('', 'Date __________  from ______ to ______  wind ________  by __________________')
  return `${lines.join('\n')}\n${renderCautions(report.cautions, plain.columns)}`
}

/** Fills that are alike are printed once. */
function kindsOfFill({
  fills,
  fullTanks,
  lastTank,
  toAdd,
  even,
}: MixData): { title: string; index: number }[] {
  if (!fills || !toAdd) return []
  const last = fills.length - 1
  const first = toAdd[0]!.value !== fills[0]!.value
  const kinds: { title: string; index: number }[] = []
  const same = even && fills.length > 1 ? fills.length : (fullTanks ?? 0)
  if (first) kinds.push({ title: 'First fill (water stands in it)', index: 0 })
  const alike = same - (first ? 1 : 0)
  if (alike > 0)
    kinds.push({
      title:
        alike === 1 ? 'Fill' : `${alike} fills alike: tick off ${'__ '.repeat(Math.min(alike, 12)).trim()}`,
      index: first ? 1 : 0,
    })
  if (!even && lastTank!.value > 0 && !(first && last === 0))
    kinds.push({ title: same > 0 ? 'Last fill' : 'The fill', index: last })
  return kinds
}
