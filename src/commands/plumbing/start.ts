import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { version } from '../../../package.json'
import { nodeEnv } from './env.ts'
import { renderHelp } from './help.ts'

const HELP: ReadonlySet<string> = new Set(['--help', '-h', 'help'])
/** Their completion scripts are made at build time, since shells load them at each start. */
const SHELLS: ReadonlySet<string> = new Set(['bash', 'zsh', 'fish'])

/**
 * Runs a command line. `--version`, `--help` and completion are answered without loading the program, which takes
 * longer than the answer.
 * @param file the built program. @returns the exit status.
 */
export async function runProgram(file: string, argv: readonly string[]): Promise<number> {
  const [word = '', shell = ''] = argv
  if (argv.length === 1 && word === '--version') return print(() => `rowbook ${version}\n`)
  if (argv.length === 1 && HELP.has(word)) return print(renderHelp)
  if (argv.length === 2 && word === 'completion' && SHELLS.has(shell))
    return print(() => readFileSync(join(dirname(file), `completion.${shell}`), 'utf8'))
  return (await import('./load.ts')).loadAndRun(file, argv)
}

async function print(answer: (columns: number) => string): Promise<number> {
  const { env, flush } = nodeEnv('.')
  env.out(answer(env.columns))
  return (await flush()) ? 0 : 2
}
