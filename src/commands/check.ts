import type { GitObjects } from '../ledger/git/objects.ts'
import type { Tree } from '../ledger/git/trees.ts'
import type { Finding } from '../ledger/read/finding.ts'
import type { Call, Reads } from './plumbing/call.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'

export const check: CommandBody = {
  options: optionsOf([
    ['--all', 'every season, as without --season'],
    ['--changed [REV]', 'only files that differ from a revision in git, else the last commit'],
    ['--staged', 'only what the next commit would change, as git holds it for that commit'],
  ]),
  examples: [
    ['rowbook check', 'the whole ledger'],
    ['rowbook check --season 2026', 'one season, and the records that it uses'],
    ['rowbook check --changed', 'before a commit: only what is not committed, judged with all the rest'],
  ],
  async run(call) {
    const one = call.text('season') !== undefined && !call.flag('all')
    const changed = await whatDiffers(call)
    if (changed === null) {
      call.env.err('The next commit holds no ledger here, so nothing was checked.\n')
      return 0
    }
    const { files, season } = await call.place()
    const reads: Reads = one ? { history: ['sprays'] } : { seasons: 'all' }
    const input = await call.openAnyway(reads)
    const { check: report } = await import('../reports/check/report.ts')
    const seasons = new Set(one ? [season] : input.ledger.seasons)
    const result = report(input, seasons, changed)
    const { renderCheck } = await import('../reports/check/terminal.ts')
    const { lineReader } = await import('./plumbing/line-reader.ts')
    const status = result.data.errors > 0 ? 1 : 0
    return call.print(result, (_, style) => renderCheck(result, lineReader(files), style), { status })
  },
}

type Wanted = (finding: Finding) => boolean

/**
 * Which findings are reported: with --changed or --staged, those of files that differ from a revision.
 * @returns null where nothing of the ledger is staged; undefined where all are reported.
 */
async function whatDiffers(call: Call): Promise<Wanted | undefined | null> {
  const staged = call.flag('staged')
  const revision = call.text('changed') ?? (call.flag('changed') ? 'HEAD' : undefined)
  if (revision === undefined && !staged) return undefined
  if (revision !== undefined && staged)
    throw new UsageError('--changed and --staged look at different states of the ledger', 'give one')
  const [{ inRepository, readRevisions }, { treesOf }] = await Promise.all([
    import('../ledger/git/repository.ts'),
    import('../ledger/git/trees.ts'),
  ])
  const { root } = await call.place()
  return inRepository({ root, variables: call.env.variables }, async (objects) => {
    const [tree] = await treesOf(objects.place, await readRevisions(objects, [revision ?? 'HEAD']))
    return staged ? differingInIndex(call, objects, tree!) : differingOnDisk(call, tree!)
  })
}

async function differingOnDisk(call: Call, tree: Tree): Promise<Wanted> {
  const { files } = await call.place()
  const { differs } = await import('../ledger/git/files.ts')
  const textOf = (file: string) => (files.has(file) ? (files.read(file).text ?? null) : null)
  return isTold(tree, { has: files.has, differs: (file) => differs(tree, file, textOf(file)) })
}

async function differingInIndex(call: Call, objects: GitObjects, tree: Tree): Promise<Wanted | null> {
  const [{ filesOfTrees }, { stagedTree }] = await Promise.all([
    import('../ledger/git/files.ts'),
    import('../ledger/git/index-files.ts'),
  ])
  const next = await stagedTree(objects.place)
  if (!next.has('vineyard.yaml')) {
    if (![...next.keys()].some((file) => /^(?:seasons|blocks|varieties|products|sprayers)\//.test(file)))
      return null
    throw new UsageError('the next commit would hold records without vineyard.yaml', 'git add vineyard.yaml')
  }
  const [held] = await filesOfTrees(objects, [next])
  await call.readFrom(held!)
  const differs = (file: string) => tree.get(file)?.object !== next.get(file)?.object
  return isTold(tree, { has: (file) => next.has(file), differs })
}

/** Files that others name, and findings of the others where such a file was taken out. */
const NAMED = /^(?:blocks|varieties|products|sprayers)\//
const LOST = /^unknown-(?:block|variety|product|sprayer|file)$/

/** Findings of files that differ, and of others where a file was taken out that they name. */
function isTold(
  tree: Tree,
  { has, differs }: { has: (file: string) => boolean; differs: (file: string) => boolean },
): Wanted {
  const isOut = [...tree.keys()].some((file) => NAMED.test(file) && !has(file))
  return ({ file, name }) => differs(file) || (isOut && LOST.test(name))
}
