import { basename, posix } from 'node:path'
import { addAll } from '../../records/add-all.ts'
import { SINGULAR, STANDING_KINDS, type StandingKind } from '../../records/kinds.ts'
import { findNamed } from '../../records/typed/named.ts'
import { errorAt, type Finding } from './finding.ts'
import type { Ledger } from './ledger.ts'
import { nearest } from './read-entry.ts'
import { type Path, type Placed, placeOf } from './source.ts'

/** The ids of the records that have a file. */
type KnownIds = ReadonlyMap<StandingKind, ReadonlySet<string>>

/**
 * Checks that every id that a record names has a file. A broken file counts as present:
 * it has its own findings, and one mistake is reported once.
 */
export function resolveReferences(
  ledger: Ledger,
  standing: readonly { kind: StandingKind; file: string }[],
): Finding[] {
  const findings: Finding[] = []
  const ids = (kind: StandingKind) =>
    standing.flatMap((one) => (one.kind === kind ? basename(one.file, '.yaml') : []))
  const known: KnownIds = new Map(STANDING_KINDS.map((kind) => [kind, new Set(ids(kind))]))
  const refer = ({ source }: Placed<object>, path: Path, kind: StandingKind, id: string) => {
    if (known.get(kind)!.has(id)) return
    findings.push(
      errorAt(placeOf(source, path), unknownId(kind, id, { isList: path[0] === 'blocks', known })),
    )
  }
  for (const block of ledger.blocks.values()) {
    refer(block, ['variety'], 'varieties', block.variety)
    if (block.boundary !== undefined) addAll(findings, boundary(ledger, block, block.boundary))
  }
  for (const product of ledger.products.values())
    for (const [index, id] of (product.with ?? []).entries()) refer(product, ['with', index], 'products', id)
  for (const spray of ledger.sprays) {
    for (const [index, id] of spray.blocks.entries()) refer(spray, ['blocks', index], 'blocks', id)
    for (const [index, part] of spray.products.entries()) {
      refer(spray, ['products', index, 'product'], 'products', part.product)
    }
    if (spray.sprayer !== undefined) refer(spray, ['sprayer'], 'sprayers', spray.sprayer)
  }
  for (const kind of ['scouting', 'samples', 'stages', 'crop', 'picks', 'work'] as const) {
    for (const entry of ledger[kind]) refer(entry, ['block'], 'blocks', entry.block)
  }
  proposeIds(ledger)
  return findings
}

/** Names for which an id is looked up; each is held against every record. */
const MOST_LOOKED_UP = 100

/** Proposes the id of the record that is meant where its name was written instead. */
function proposeIds(ledger: Ledger): void {
  const named = STANDING_KINDS.flatMap((kind): { id: string; name: string }[] => [...ledger[kind].values()])
  const known = named.map(({ id }) => id)
  for (const fault of ledger.findings.filter(({ name }) => name === 'bad-id').slice(0, MOST_LOOKED_UP)) {
    const said = /^`(.+)` is/.exec(fault.message)?.[1]
    if (said === undefined || known.some((id) => fault.help.startsWith(`write \`${id}\`:`))) continue
    const id = findNamed(said, named).found?.id
    fault.help = id ? `write \`${id}\`, its id: the name of its file` : (nearest(said, known) ?? fault.help)
  }
}

function unknownId(
  kind: StandingKind,
  id: string,
  { isList, known }: { isList: boolean; known: KnownIds },
): { name: string; message: string; help: string } {
  const noun = SINGULAR[kind]
  const ids = [...known.get(kind)!]
  const make = `${kind}/${id}.yaml${ids.length === 0 ? ' first' : ''}: \`rowbook note ${noun}\``
  const unlike = ids.length === 0 ? `write ${make}` : `known: ${ids.join(', ')}; or write ${make}`
  const each = isList ? `name each: [${ids.join(', ')}]` : 'write an entry for each block'
  const isAll = id === 'all' && kind === 'blocks' && ids.length > 0
  return {
    name: `unknown-${noun}`,
    message: `there is no ${noun} \`${id}\``,
    help: nearest(id, ids) ?? (isAll ? each : unlike),
  }
}

/** The outline must be inside the ledger, in the same folder as the block's file. */
function boundary(ledger: Ledger, block: Placed<object> & { id: string }, file: string): Finding[] {
  const path = posix.normalize(`blocks/${file}`)
  const inside = !path.startsWith('../') && !file.startsWith('/') && !file.includes('\\')
  if (inside && ledger.reader.has(path)) return []
  const fault = {
    name: 'unknown-file',
    message: inside ? `there is no file ${path}` : 'the file lies outside the ledger',
    help: 'put the GeoJSON file beside the block, in blocks/',
  }
  return [errorAt(placeOf(block.source, ['boundary']), fault)]
}
