import { NoLedger } from '../../ledger/read/find.ts'
import { safe } from '../../render/safe.ts'
import { renderLines, wrap } from '../../render/text.ts'
import { today } from '../../reports/today/report.ts'
import { oneLine, renderNext } from '../../reports/today/terminal.ts'
import { Call } from './call.ts'
import type { Env } from './env.ts'
import { BrokenLedger } from './errors.ts'

/** Most items shown where no command is typed. */
const MOST = 3

const COMMON: readonly (readonly [line: string, does: string])[] = [
  ['rowbook today', 'what is due'],
  ['rowbook note spray', 'write down a spray; also sample, scouting, stage, crop, pick, work'],
  ['rowbook mix', 'fill the tank right'],
  ['rowbook ready --all', 'which block can be picked'],
  ['rowbook check', 'what is missing or mistyped'],
]

/** Prints what to do next in this folder, where only `rowbook` was typed. @returns the exit status, which is 0. */
export function printNextStep(env: Env): number {
  try {
    env.out(
      `${firstOf(env)}\n${renderLines(COMMON, env.columns)}\n\nAll commands: rowbook help. One of them: rowbook help mix.\n`,
    )
  } catch (error) {
    if (!(error instanceof NoLedger)) throw error
    env.out(
      `There is no ledger in this folder yet.\n\n${renderLines(
        [
          ['rowbook start my-vineyard', 'begin one, with five questions'],
          ['cd my-vineyard', 'go to its folder'],
          ['rowbook sugar --brix 21.5', 'some commands need no ledger'],
          ['rowbook help', 'all commands'],
        ],
        env.columns,
      )}\n`,
    )
  }
  return 0
}

function firstOf(env: Env): string {
  try {
    const input = new Call('today', [], {}, env).open({
      history: ['sprays', 'samples', 'stages', 'picks', 'scouting'],
    })
    const { items } = today(input).data
    const name = safe(input.ledger.vineyard.name)
    if (items.length === 0) return `${name}: nothing is due today.\n`
    const first = items
      .slice(0, MOST)
      .map(
        (item) =>
          `${wrap(oneLine(item, env.columns - 2), env.columns, '  ')}\n${renderNext(safe(item.next), env.columns, '    ')}`,
      )
    const rest = items.length > MOST ? `\n  and ${items.length - MOST} more: rowbook today` : ''
    return `${name}, what comes first:\n\n${first.join('\n')}${rest}\n`
  } catch (error) {
    if (!(error instanceof BrokenLedger)) throw error
    const errors = error.findings.filter(({ level }) => level === 'error').length
    return `This ledger has ${errors === 1 ? 'a broken record' : `${errors} broken records`}. First of all:\n\n  rowbook check\n`
  }
}
