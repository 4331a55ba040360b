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
  const revision = call.text('changed') ?? (call.flag('changed') || staged ? 'HEAD' : undefined)
  if (revision === undefined) return undefined
  if (staged && (call.flag('changed') || call.text('changed') !== undefined))
    throw new UsageError('--changed and --staged look at different states of the ledger', 'give one')
  const { inRepository } = await import('../ledger/git/repository.ts')
  const { root } = await call.place()
  const place = { root, variables: call.env.variables }
  return inRepository(place, (objects) => differingFrom(call, objects, { revision, staged }))
}

async function differingFrom(
  call: Call,
  objects: GitObjects,
  { revision, staged }: { revision: string; staged: boolean },
): Promise<Wanted | null> {
  const [{ readRevisions }, { treesOf }, { differs, filesOfTrees }] = await Promise.all([
    import('../ledger/git/repository.ts'),
    import('../ledger/git/trees.ts'),
    import('../ledger/git/files.ts'),
  ])
  const { files } = await call.place()
  const tree = (await treesOf(objects.place, await readRevisions(objects, [revision])))[0]!
  if (!staged) {
    const textOf = (file: string) => (files.has(file) ? (files.read(file).text ?? null) : null)
    return isTold(tree, { has: files.has, differs: (file) => differs(tree, file, textOf(file)) })
  }
  const { stagedTree } = await import('../ledger/git/index-files.ts')
  const next = await stagedTree(objects.place)
  const [held] = await filesOfTrees(objects, [next])
  if (!next.has('vineyard.yaml')) {
    if (![...next.keys()].some((file) => /^(?:seasons|blocks|varieties|products|sprayers)\//.test(file)))
      return null
    throw new UsageError('the next commit would hold records without vineyard.yaml', 'git add vineyard.yaml')
  }
  await call.readFrom(held!)
  const differsIn = (file: string) => tree.get(file)?.object !== next.get(file)?.object
  return isTold(tree, { has: (file) => next.has(file), differs: differsIn })
}

/** Files that others name. */
const NAMED = /^(?:blocks|varieties|products|sprayers)\//
const LOST = new Set([
  'unknown-block',
  'unknown-variety',
  'unknown-product',
  'unknown-sprayer',
  'unknown-file',
])

/** Findings of files that differ, and of others where a file was taken out that they name. */
function isTold(
  tree: Tree,
  { has, differs }: { has: (file: string) => boolean; differs: (file: string) => boolean },
): Wanted {
  const isOut = [...tree.keys()].some((file) => NAMED.test(file) && !has(file))
  return ({ file, name }) => differs(file) || (isOut && LOST.has(name))
}
