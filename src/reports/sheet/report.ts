import { vinesOf } from '../../facts/block-size.ts'
import { blocksInOrder } from '../../facts/entry-order.ts'
import { CAUTION, makeReport, type Report, type ReportInput } from '../../facts/report.ts'
import { enteringStops } from '../../facts/spraying/re-entry.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/kinds/block.ts'
import { cropSheet } from './crop.ts'
import { samplingSheet } from './sampling.ts'
import { scoutingSheet } from './scouting.ts'
import type { SheetBlock, SheetKind, SheetOptions } from './sheet-block.ts'

export type { SheetBlock } from './sheet-block.ts'

export interface SheetData {
  kind: SheetKind
  seed: string
  /** The command that makes the same sheet again from the same records. */
  again: string
  blocks: SheetBlock[]
}

const OF = { scouting: scoutingSheet, sampling: samplingSheet, crop: cropSheet }

/** A sheet to print and write on in the rows: where to go, how many to look at, what was found last, boxes to fill. */
export function sheet(input: ReportInput, options: SheetOptions): Report<SheetData> {
  const wanted = new Set(input.blocks.map(({ id }) => id))
  const chosen = blocksInOrder(input.ledger).filter(({ id }) => wanted.has(id))
  const blocks = chosen.map((block) => sheetOf(block, input, options))
  const all = chosen.length === input.ledger.blocks.size
  const data = {
    kind: options.kind,
    seed: options.seed,
    again: again(options, { asOf: input.asOf, blocks: all ? [] : chosen.map(({ id }) => id) }),
    blocks,
  }
  return makeReport('sheet', input, { data, cautions: [CAUTION.clearance, CAUTION.estimate] })
}

function sheetOf(block: Named<Block>, input: ReportInput, options: SheetOptions): SheetBlock {
  const variety = input.ledger.varieties.get(block.variety)?.name ?? block.variety
  const own = OF[options.kind](block, input, options)
  const about = { block: block.id, variety, rows: block.rows ?? null, vines: vinesOf(block).alive }
  return { ...about, stops: enteringStops(input, block), ...own }
}

function again(options: SheetOptions, from: { asOf: string; blocks: readonly string[] }): string {
  const { kind, seed, precision, vines, organs } = options
  const parts = ['rowbook', 'sheet', kind, '--seed', seed, '--as-of', from.asOf]
  for (const id of from.blocks) parts.push('--block', id)
  if (precision !== undefined) parts.push('--precision', String(precision))
  if (vines !== undefined) parts.push('--vines', String(vines))
  for (const organ of organs ?? []) parts.push('--organ', organ)
  return parts.join(' ')
}
