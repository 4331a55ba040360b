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
  const source = readFileSync(file, 'latin1')
  const folder = cacheFolder(process.env)
  const cache = folder ? { folder, build: source.slice(0, source.indexOf('\n')) } : undefined
  const load = createRequire(file)
  const { enableCompileCache } = Module as { enableCompileCache?: (folder: string) => void }
  if (cache) enableCompileCache?.(cache.folder)
  if (!cache || enableCompileCache) return load(file).main(argv, cache)

  const place = join(cache.folder, `code-${process.version}-${process.arch}`)
  const cached = readCacheFile(place, cache.build) ?? Buffer.from('\n')
  const end = cached.indexOf('\n')
  const script = new Script(Module.wrap(source), { filename: file, cachedData: cached.subarray(end + 1) })
  // Before the code stand the kinds of command line that ran it, since another kind runs other functions.
  const kinds = script.cachedDataRejected ? [] : cached.toString('latin1', 0, end).split(',')
  const kind = argv.filter((word, at) => at === 0 || word === '--json' || word === '--html').join(' ')
  process.on('exit', (status) => {
    // The code that a wrong command line ran is not worth keeping.
    if (status > 1 || kinds.includes(kind)) return
    const head = Buffer.from(`${[...kinds, kind]}\n`)
    writeCacheFile(place, cache.build, Buffer.concat([head, script.createCachedData()]))
  })
  const program = { exports: {} as { main: typeof main } }
  script.runInThisContext()(program.exports, load, program)
  return program.exports.main(argv, cache)
}
