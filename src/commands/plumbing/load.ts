import { readFileSync } from 'node:fs'
import Module, { createRequire } from 'node:module'
import { join } from 'node:path'
import { setFlagsFromString } from 'node:v8'
import { Script } from 'node:vm'
import { cacheFolder, readCacheFile, writeCacheFile } from '../../ledger/cache/cache-file.ts'
import type { main } from './main.ts'

/**
 * Runs the program with the code that V8 compiled in earlier runs: compiling takes longer than most commands do.
 * @param file the built program, whose first line names the build. @returns the exit status.
 */
export function loadAndRun(file: string, argv: readonly string[]): Promise<number> {
  // A function is optimised after eighteen times as much work as by default, since most commands end before that pays:
  // at the default `today` takes half as much of the processor again. A first check of 3,400 records takes as long.
  setFlagsFromString('--interrupt-budget=1200000')
  // Most commands end before memory has to be cleared, and preparing for that takes a tenth of the time of `today`.
  setFlagsFromString('--no-incremental-marking')
  const folder = cacheFolder(process.env)
  const source = readFileSync(file, 'latin1')
  const build = source.slice(0, source.indexOf('\n'))
  const { enableCompileCache } = Module as { enableCompileCache?: (folder: string) => void }
  const program = { exports: {} as { main: typeof main } }
  if (folder && !enableCompileCache) {
    const script = compile(file, source, { folder, build, argv })
    script.runInThisContext()(program.exports, createRequire(file), program)
  } else {
    if (folder) enableCompileCache?.(folder)
    program.exports = createRequire(file)(file)
  }
  return program.exports.main(argv, folder ? { folder, build } : undefined)
}

/** The cache file begins with the kinds of command line that ran the code, since another kind runs other functions. */
function compile(
  file: string,
  source: string,
  { folder, build, argv }: { folder: string; build: string; argv: readonly string[] },
): Script {
  const place = join(folder, `code-${process.version}-${process.arch}`)
  const cached = readCacheFile(place, build) ?? Buffer.from('\n')
  const end = cached.indexOf('\n')
  const script = new Script(Module.wrap(source), { filename: file, cachedData: cached.subarray(end + 1) })
  const kinds = script.cachedDataRejected ? [] : cached.toString('latin1', 0, end).split(',')
  const kind = [argv[0], ...argv.filter((word) => word === '--json' || word === '--html')].join(' ')
  process.on('exit', (status) => {
    // The code that a wrong command line ran is not worth keeping.
    if (status > 1 || kinds.includes(kind)) return
    const code = script.createCachedData()
    writeCacheFile(place, build, Buffer.concat([Buffer.from(`${[...kinds, kind]}\n`), code]))
  })
  return script
}
