import type { Finding } from '../ledger/finding.ts'
import type { Style } from '../render/style.ts'
import type { Call, Reads } from './call.ts'
import type { Command } from './command.ts'

export const check: Command = {
  name: 'check',
  summary: 'find what is incomplete, impossible, mistyped or not allowed',
  options: [
    { flags: '--all', what: 'every season (also what is done without --season)' },
    { flags: '--changed [REV]', what: 'only files that differ from a revision in git, else the last commit' },
  ],
  examples: [
    ['rowbook check', 'the whole book'],
    ['rowbook check --season 2026', 'one season and what it rests on'],
    ['rowbook check --changed', 'before a commit: only what is not committed, judged with all the rest'],
  ],
  async run(call) {
    const { result, units } = await answer(call)
    const { root } = await call.place()
    const { renderCheck } = await import('../render/check.ts')
    const { lineReader } = await import('./line-reader.ts')
    const lineOf: (finding: Finding) => string | null = lineReader(root)
    const printed = await call.style(units)
    return call.print(
      result,
      (_, style) => renderCheck(result, lineOf, { ...style, units: printed.units }),
      result.data.errors > 0 ? 1 : 0,
    )
  },
}

type Result = ReturnType<typeof import('../reports/check.ts').check>

interface Answer {
  result: Result
  units: Style['units']
}

/** The report, from an earlier run where nothing that it rests on has changed since. */
async function answer(call: Call): Promise<Answer> {
  const one = call.text('season') !== undefined && !call.flag('all')
  const { root, files, asOf, season } = await call.place()
  const { answerCache } = await import('./ledger-files.ts')
  // What git holds is no part of the files that are compared; a page and the names of blocks ask the ledger itself.
  const isPlain = !['changed', 'html', 'block'].some((name) => call.flag(name) || call.texts(name).length > 0)
  const cache = isPlain ? answerCache(root, call.env) : null
  const name = one ? `check-${season}` : 'check'
  const kept = cache?.find(name, asOf, files)
  if (kept) return kept as Answer
  const reads: Reads = one ? { history: ['sprays'] } : { seasons: 'all' }
  const input = await call.openAnyway(reads, cache?.noting(files))
  const { check: report } = await import('../reports/check.ts')
  const seasons = new Set(one ? [season] : input.ledger.seasons)
  const result = report(input, seasons, await changedFiles(call, root))
  const found: Answer = { result, units: input.ledger.vineyard.units }
  if (cache) call.env.later?.(() => cache.keep(name, asOf, found))
  return found
}

/** Which files are told of: with --changed, those that differ from the revision. */
async function changedFiles(call: Call, root: string): Promise<((file: string) => boolean) | undefined> {
  const revision = call.text('changed') ?? (call.flag('changed') ? 'HEAD' : undefined)
  if (revision === undefined) return undefined
  const [{ openRepository, readRevisions }, { differs, treeOf }, { readText }] = await Promise.all([
    import('../ledger/git.ts'),
    import('../ledger/git-files.ts'),
    import('../ledger/read-file.ts'),
  ])
  const repository = await openRepository(root, call.env.variables)
  const [commit = null] = await readRevisions(repository, [revision])
  const tree = await treeOf(repository, commit)
  return (file) => differs(tree, file, readText(root, file).text ?? null)
}
