import { makeReport } from '../../facts/report.ts'
import { planUndo, takeBack } from '../../ledger/write/undo.ts'
import { safe } from '../../render/safe.ts'
import type { Call } from '../plumbing/call.ts'
import { uninterrupted } from '../plumbing/uninterrupted.ts'
import { lines, print } from './offer.ts'
import { askOnce } from './question.ts'

/** Takes back what rowbook wrote last. Asks first on a terminal, and keeps a copy. @returns the exit status */
export async function undoEntry(call: Call): Promise<number> {
  const { root, asOf, season } = call.place()
  const plan = planUndo(root)
  const { env } = call
  const what = plan
    .map(
      ({ file, text, back }) =>
        `${safe(file)}${back === null ? '' : ' (its last change)'}\n\n${indented(file.endsWith('.csv') ? rowsOf(text, back) : text)}`,
    )
    .join('\n')
  if (call.flag('dry-run')) {
    env.out(`Would be taken back: ${what}`)
    return 0
  }
  if (call.mayAsk) {
    env.err(`Written last: ${what}\n`)
    if (!(await askOnce(call, 'Take it back?'))) {
      env.err('Nothing taken back.\n')
      return 1
    }
  }
  const kept = uninterrupted(() => takeBack(root, plan))
  const undone = plan.map(({ file, back }, at) => ({ file, kept: kept[at]!, isBack: back !== null }))
  const said = undone.map((one) =>
    one.isBack
      ? `${safe(one.file)} is again as it was before the last change. What the change wrote is kept in ${safe(one.kept)}.`
      : `Taken back: ${safe(one.file)}. It is kept in ${safe(one.kept)}: move it back to have it again.`,
  )
  const report = makeReport('note', { asOf, season }, { data: { undone }, findings: [] })
  print(call, lines(env, said), report)
  return 0
}

/** The first and last row that an import added. */
function rowsOf(text: string, back: string | null): string {
  if (back !== null && !text.startsWith(back)) {
    const isLonger = text.trim().split('\n').length > back.trim().split('\n').length
    return `${isLonger ? 'rows added, and ' : ''}readings filled in older rows\n`
  }
  const rows = text
    .slice(back?.length ?? 0)
    .trim()
    .split('\n')
  return rows.length < 4 ? rows.join('\n') : `${rows[0]}\n... ${rows.length - 2} more rows\n${rows.at(-1)}`
}

const indented = (text: string) =>
  text
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('# yaml-language-server'))
    .map((line) => `  ${safe(line)}\n`)
    .join('')
