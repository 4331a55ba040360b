import type { Finding } from '../../ledger/read/finding.ts'
import { type Placed, placeAt } from '../../ledger/read/source.ts'
import { SEASON_KINDS } from '../../records/kinds.ts'
import { entriesOf } from '../block-entries.ts'
import { type Asked, answersOf, type Gate } from './gate.ts'

const { pass, fail } = answersOf('records')

/** Whether the block's own records of the season, and those of its products, are free of errors. */
export function recordsGate(asked: Asked, errors: readonly Finding[]): Gate {
  const own = ownErrors(asked, errors)
  const [first] = own
  if (!first) return pass('no error in the entries of this block or in the records of its products', 'sound')
  const more = own.length === 1 ? '' : ` and ${own.length - 1} more`
  return fail(
    `${first.file}:${first.line} ${first.name}: ${first.message}${more}`,
    own.length === 1 ? '1 error' : `${own.length} errors`,
    'Run `rowbook check` and correct mistakes. If it was really done so, ask your adviser before picking.',
  )
}

/** The errors in the records that this block's verdict is based on. */
export function ownErrors({ ledger, block, season, asOf }: Asked, errors: readonly Finding[]): Finding[] {
  if (errors.length === 0) return []
  const files = new Set(errors.map(({ file }) => file))
  const sprays = ledger.sprays.filter((spray) => spray.season === season && spray.blocks.includes(block.id))
  const entries = SEASON_KINDS.flatMap((kind): Placed<object>[] => {
    if (kind === 'sprays') return sprays
    if (kind === 'weather') return []
    return entriesOf<(typeof ledger)[typeof kind][number]>(ledger[kind], { block: block.id, season, asOf })
  })
  const products = new Set(sprays.flatMap((spray) => spray.products.map(({ product }) => product)))
  const standing = [
    block,
    ledger.varieties.get(block.variety),
    ...[...products].map((id) => ledger.products.get(id)),
  ].filter((record) => record !== undefined)
  const own = linesOf([...entries, ...standing].filter(({ source }) => files.has(source.at.file)))
  return errors.filter(({ file, line }) => file === 'vineyard.yaml' || own.get(file)?.has(line))
}

/** The line numbers of records, by file. */
function linesOf(records: readonly Placed<object>[]): Map<string, Set<number>> {
  const lines = new Map<string, Set<number>>()
  for (const { source } of records) {
    const { at, node } = source
    const own = lines.get(at.file) ?? new Set()
    lines.set(at.file, own)
    const to = placeAt(at, node.end, node.end).line
    for (let line = placeAt(at, node.start, node.start).line; line <= to; line += 1) own.add(line)
  }
  return lines
}
