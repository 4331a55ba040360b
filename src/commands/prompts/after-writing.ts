import type { FindAdvice } from '../../facts/danger/advice.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { safe } from '../../render/safe.ts'
import { wrap } from '../../render/text.ts'
import type { Noted } from '../../reports/note/report.ts'
import { Call } from '../plumbing/call.ts'
import { askYes, type Screen } from './question.ts'

/** Options that the next entry takes over from this one. */
const KEPT = ['ledger', 'asOf', 'units', 'color']

/** Records one more spray; a spot spray where a part of the block is named. */
type TakeSpray = (call: Call, part: string | undefined) => Promise<number>

/** Names the files written, and offers to record the sprays that their finds call for. */
export async function reportWritten(
  call: Call,
  { files, all, ledger }: { files: readonly string[]; all: readonly Noted[]; ledger: Ledger },
  { screen, takeSpray }: { screen: Screen; takeSpray: TakeSpray },
): Promise<void> {
  const said = files.map((file) => `${wrap(`Written: ${file}`, call.env.columns)}\n`).join('')
  const finds = all.flatMap(({ report }) => report.data.finds ?? []).filter(({ spray }) => spray)
  if (finds.length === 0) return call.env.out(said)
  // `out` prints at the end of a command. Questions follow here, so this has to be printed before them.
  call.env.err(`${said}\n`)
  await offerSprays(call, finds, ledger, { screen, takeSpray })
}

/** Asks for each block with a find whether to record its spray now, and records it if so. */
async function offerSprays(
  call: Call,
  finds: readonly FindAdvice[],
  { blocks }: Ledger,
  { screen, takeSpray }: { screen: Screen; takeSpray: TakeSpray },
): Promise<void> {
  for (const { block, spray } of finds) {
    const name = safe(blocks.get(block)?.name ?? block)
    const rows = spray?.rows
    const span = rows && (rows.from === rows.to ? `${rows.from}` : `${rows.from}-${rows.to}`)
    const ask = span
      ? `Record a spray of row${span.includes('-') ? 's' : ''} ${span} of ${name} now?`
      : `No rows are noted. Record a spray of all of ${name} now?`
    if (!(await askYes(ask, screen, 'n'))) continue
    const common = Object.fromEntries(KEPT.map((key) => [key, call.values[key]]))
    const next = new Call(call.command, ['spray'], { ...common, block: [block] }, call.env)
    await takeSpray(next, span ? `spot ${/-/.test(span) ? 'rows' : 'row'} ${span}` : undefined)
  }
}
