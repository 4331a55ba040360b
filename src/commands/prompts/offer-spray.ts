import type { FindAdvice } from '../../facts/danger/advice.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { safe } from '../../render/safe.ts'
import { Call } from '../plumbing/call.ts'
import type { Screen } from './ask-all.ts'
import { noteEntry } from './note-entry.ts'
import { askYes } from './question.ts'

/** Options that the entry after this one keeps. */
const KEPT = ['ledger', 'asOf', 'units', 'color']

/** Asks for each block with a find whether its spray is to be recorded too, and takes that entry where it is. */
export async function offerSprays(
  call: Call,
  finds: readonly FindAdvice[],
  { blocks }: Ledger,
  screen: Screen,
): Promise<void> {
  for (const { block, spray } of finds) {
    if (!spray) continue
    const name = safe(blocks.get(block)?.name ?? block)
    const { rows } = spray
    const span = rows && (rows.from === rows.to ? `${rows.from}` : `${rows.from}-${rows.to}`)
    const where = span
      ? `row${span.includes('-') ? 's' : ''} ${span} of ${name}`
      : `${name}, the whole block, as no rows are noted`
    if (!(await askYes(`Record a spray of ${where} now?`, screen, 'n'))) continue
    const typed = span ? { block: [block], rows: span, method: 'spot' } : { block: [block] }
    const common = Object.fromEntries(KEPT.map((key) => [key, call.values[key]]))
    await noteEntry(new Call(call.command, ['spray'], { ...common, ...typed }, call.env), 'sprays', screen)
  }
}
