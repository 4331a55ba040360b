import type { Finding } from '../ledger/finding.ts'
import type { Call } from './call.ts'
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
    const one = call.text('season') !== undefined && !call.flag('all')
    const input = await call.openAnyway(one ? { history: ['sprays'] } : { seasons: 'all' })
    const { check: report } = await import('../reports/check.ts')
    const wanted = await changedFiles(call, input.ledger.root)
    const result = report(input, new Set(one ? [input.season] : input.ledger.seasons), wanted)
    const { renderCheck } = await import('../render/check.ts')
    const { lineReader } = await import('./line-reader.ts')
    const lineOf: (finding: Finding) => string | null = lineReader(input.ledger.root)
    return call.print(
      result,
      (_, style) => renderCheck(result, lineOf, style),
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
  const repository = openRepository(root, call.env.variables)
  const tree = treeOf(repository, readRevisions(repository, [revision])[0] ?? null)
  return (file) => differs(tree, file, readText(root, file).text ?? null)
}
