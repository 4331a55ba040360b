import { version } from '../../../package.json'
import { unitsOf } from '../../facts/ledger-units.ts'
import { makeReport } from '../../facts/report.ts'
import { UserError } from '../../records/user-error.ts'
import { safe, safeScreen } from '../../render/safe.ts'
import { PLAIN } from '../../render/style.ts'
import { wrap, wrapCommand } from '../../render/text.ts'
import type { Env } from './env.ts'
import { BrokenLedger } from './errors.ts'
import { toJson } from './json.ts'
import { errorsShown } from './line-reader.ts'
import { runCommandLine } from './program.ts'

/** Exit status of an internal fault, not caused by the user. */
const FAULT = 70

/** Runs a command line in a given environment and reports every error. @returns the exit status */
export async function run(argv: readonly string[], world: Env): Promise<number> {
  const env = safeWorld(world)
  try {
    return await runCommandLine(argv, env, version)
  } catch (error) {
    if (error instanceof BrokenLedger) return tellBroken(error, argv, env)
    if (error instanceof UserError) {
      const { message, help } = error
      env.err(`rowbook: ${safe(message)}\n${help ? `  ${safe(help)}\n` : ''}`)
      return 2
    }
    const { faultReport } = await import('../../render/fault.ts')
    env.err(faultReport(error, { version, variables: env.variables, cwd: env.cwd, command: argv[0] ?? '' }))
    return FAULT
  }
}

/**
 * The same environment, but whatever a report, a message or a library prints is made safe before it is printed: a
 * name that a renderer forgot can't steer the terminal. Messages are wrapped to the screen.
 */
function safeWorld(world: Env): Env {
  return Object.create(world, {
    out: { value: (text: string, as?: 'data') => world.out(as === 'data' ? text : safeScreen(text)) },
    err: { value: (text: string) => world.err(fitted(safeScreen(text), world.columns)) },
  }) as Env
}

/** Wraps lines that are too long for the screen, keeping their indent; a wrapped command still runs. */
const fitted = (text: string, columns: number): string =>
  text
    .split('\n')
    .map((line) => {
      const said = line.trimStart()
      if (line.length <= columns) return line
      const indent = ' '.repeat(line.length - said.length)
      return said.startsWith('rowbook ') ? wrapCommand(said, columns, indent) : wrap(said, columns, indent)
    })
    .join('\n')

function tellBroken(broken: BrokenLedger, argv: readonly string[], env: Env): number {
  const { findings, ledger, asOf } = broken
  if (argv.includes('--json')) {
    env.out(toJson(makeReport(argv[0] ?? '', { asOf, season: null }, { data: null, findings })))
    return 1
  }
  const style = { columns: env.columns, units: unitsOf(ledger), paint: PLAIN }
  const shown = errorsShown(ledger, findings, style)
  const isOne = findings.filter(({ level }) => level === 'error').length === 1
  env.err(
    `${shown}\nNo figure is given while ${isOne ? 'this record is' : 'these records are'} broken. Repair, then ask again.\n`,
  )
  return 1
}
