import type { Call, Reads } from './call.ts'
import type { Command } from './command.ts'

export const check: Command = {
  name: 'check',
  summary: 'find what is incomplete, impossible, mistyped or not allowed',
  again: true,
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
    const one = call.text('season') !== undefined && !call.flag('all')
    const { root, files, season } = await call.place()
    const reads: Reads = one ? { history: ['sprays'] } : { seasons: 'all' }
    const input = await call.openAnyway(reads)
    const { check: report } = await import('../reports/check.ts')
    const seasons = new Set(one ? [season] : input.ledger.seasons)
    const result = report(input, seasons, await changedFiles(call, root))
    const { renderCheck } = await import('../render/check.ts')
    const { lineReader } = await import('./line-reader.ts')
    return call.print(
      result,
      (_, style) => renderCheck(result, lineReader(files), style),
      result.data.errors > 0 ? 1 : 0,
    )
  },
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
  const repository = await openRepository({ root, variables: call.env.environment ?? call.env.variables })
  const [commit = null] = await readRevisions(repository, [revision])
  const tree = await treeOf(repository, commit)
  return (file) => differs(tree, file, readText(root, file).text ?? null)
}
