import { readFileSync } from 'node:fs'
import Module, { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { setFlagsFromString } from 'node:v8'
import { Script } from 'node:vm'
import { version } from '../../../package.json'
import { cacheFolder, readCacheFile, writeCacheFile } from '../../ledger/cache/cache-file.ts'
import { nodeEnv } from './env.ts'
import { renderHelp } from './help.ts'
import type { main } from './main.ts'

interface Program {
  main: typeof main
}

/**
 * Runs the program with what V8 compiled of it in earlier runs: compiling takes longer than most commands do.
 * @param file the built program, whose first line names the build. @returns the exit status.
 */
export function runProgram(file: string, argv: readonly string[]): Promise<number> {
  const [word] = argv
  if (argv.length === 1 && word === '--version') return tell(() => `rowbook ${version}\n`)
  if (argv.length === 1 && HELP.has(word!)) return tell(renderHelp)
  if (argv.length === 2 && word === 'completion' && SHELLS.has(argv[1]!))
    return tell(() => readFileSync(join(dirname(file), `completion.${argv[1]}`), 'utf8'))
  // A function is optimised after eighteen times as much work as by default, since most commands end before that pays:
  // at the default `today` takes half as much of the processor again. A first check of 3,400 records takes as long.
  setFlagsFromString('--interrupt-budget=1200000')
  const folder = cacheFolder(process.env)
  const source = readFileSync(file, 'latin1')
  const build = source.slice(0, source.indexOf('\n'))
  if (folder === null) return (createRequire(file)(file) as Program).main(argv)
  const program =
    'enableCompileCache' in Module ? byNode(file, folder) : byScript(file, source, { folder, build, argv })
  return program.main(argv, { folder, build })
}

const HELP: ReadonlySet<string> = new Set(['--help', '-h', 'help'])
/** Their scripts are written when the program is built, since shells ask for them each time that they start. */
const SHELLS: ReadonlySet<string> = new Set(['bash', 'zsh', 'fish'])

/** What asks for no ledger is reported without the rest of the program, which takes longer to load than to answer. */
async function tell(answer: (columns: number) => string): Promise<number> {
  const { env, flush } = nodeEnv('.')
  env.out(answer(env.columns))
  return (await flush()) ? 0 : 2
}

/** Newer Nodes keep compiled code by themselves. */
function byNode(file: string, folder: string): Program {
  ;(Module as unknown as { enableCompileCache(folder: string): void }).enableCompileCache(folder)
  return createRequire(file)(file)
}

/** In front of the code stand the kinds of command line that ran it, one a line of ours; another kind runs other functions. */
function byScript(
  file: string,
  source: string,
  { folder, build, argv }: { folder: string; build: string; argv: readonly string[] },
): Program {
  const place = join(folder, `code-${process.version}-${process.arch}`)
  const kept = readCacheFile(place, build)
  const end = kept?.indexOf('\n') ?? -1
  const cachedData = kept?.subarray(end + 1)
  const script = new Script(source, { filename: file, cachedData })
  const kinds = new Set(script.cachedDataRejected ? [] : kept?.toString('latin1', 0, end).split(','))
  const kind = [argv[0], ...argv.filter((word) => word === '--json' || word === '--html')].join(' ')
  process.on('exit', (status) => {
    // A command line that was wrong names no command whose code will be wanted again.
    if (status > 1 || kinds.has(kind)) return
    const code = script.createCachedData()
    writeCacheFile(place, build, Buffer.concat([Buffer.from(`${[...kinds, kind].join()}\n`), code]))
  })
  const module = { exports: {} as Program }
  script.runInThisContext()(module.exports, createRequire(file), module)
  return module.exports
}
