import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { COMMANDS } from '../commands/whole-table.ts'
import { NEEDED, runHere, WRITERS } from '../faults/in-process.ts'

export interface Screen {
  /** The command line that showed it. */
  line: string
  text: string
}

const DAYS = ['2026-06-15', '2026-09-14']

/** Command lines beside the plain ones that show sentences of their own. */
const MORE: readonly (readonly string[])[] = [
  ['mix', '--block', 'top-terrace', '--product', 'sulphur-80=3kg/ha', '--sprayer', 'mounted'],
  ['mix', '--block', 'top-terrace', '--product', 'sulphur-80=30kg/ha', '--sprayer', 'mounted'],
  ['note', 'stage', '--block', 'top-terrace', '--stage', '65', '--dry-run'],
  ['scouting', '--all'],
  ['ready', '--all'],
  ['sheet', 'sampling'],
  ['sheet', 'crop'],
  ['diary', '--form', 'eu'],
  ['diary', '--form', 'us'],
  ['window', '--backtest'],
  ['totals', '--units', 'us'],
  ['label'],
]

/** What every command prints over a ledger, on two days of the year, and the help of each. */
export async function screens(ledger: string): Promise<Screen[]> {
  const shown: Screen[] = []
  const cache = mkdtempSync(join(tmpdir(), 'rowbook-cache-'))
  const show = async (args: readonly string[]): Promise<void> => {
    const { out, err } = await runHere(args, ledger, undefined, undefined, cache)
    shown.push({ line: `rowbook ${args.join(' ')}`, text: `${out}${err}` })
  }
  await show(['--help'])
  for (const { name } of COMMANDS) await show([name, '--help'])
  for (const day of DAYS) {
    for (const { name } of COMMANDS) {
      if (SILENT.has(name)) continue
      await show([name, ...(NEEDED[name] ?? []), ...(TIMELESS.has(name) ? [] : ['--as-of', day])])
    }
    for (const args of MORE) await show([...args, '--as-of', day])
  }
  return shown
}

/** Commands that write or ask, and those whose output is for programs alone or lists names. */
const SILENT = new Set([
  ...WRITERS,
  'schema',
  'completion',
  'explain',
  'calendar',
  'export',
  'changes',
  'sheet',
])
const TIMELESS = new Set(['manual', 'sugar', 'calibrate'])
