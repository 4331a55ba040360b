import { differs, filesOfTrees } from '../../ledger/git/files.ts'
import { stagedTree } from '../../ledger/git/index-files.ts'
import type { GitObjects } from '../../ledger/git/objects.ts'
import { inRepository, readRevisions } from '../../ledger/git/repository.ts'
import { type Tree, treesOf } from '../../ledger/git/trees.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import type { Call } from '../plumbing/call.ts'
import { UsageError } from '../plumbing/errors.ts'

type Wanted = (finding: Finding) => boolean

/**
 * Which findings are reported: with --changed or --staged, those of files that differ from a revision.
 * @returns null where nothing of the ledger is staged.
 */
export async function whatDiffers(call: Call): Promise<Wanted | null> {
  const staged = call.flag('staged')
  const revision = call.text('changed') ?? (call.flag('changed') ? 'HEAD' : undefined)
  if (revision !== undefined && staged)
    throw new UsageError('--changed and --staged look at different states of the ledger', 'give one')
  const { root } = call.place()
  return inRepository({ root, variables: call.env.variables }, async (objects) => {
    const [tree] = await treesOf(objects.place, await readRevisions(objects, [revision ?? 'HEAD']))
    return staged ? differingInIndex(call, objects, tree!) : differingOnDisk(call, tree!)
  })
}

function differingOnDisk(call: Call, tree: Tree): Wanted {
  const { files } = call.place()
  const textOf = (file: string) => (files.has(file) ? (files.read(file).text ?? null) : null)
  return isTold(tree, { has: files.has, differs: (file) => differs(tree, file, textOf(file)) })
}

async function differingInIndex(call: Call, objects: GitObjects, tree: Tree): Promise<Wanted | null> {
  const next = await stagedTree(objects.place)
  if (!next.has('vineyard.yaml')) {
    if (![...next.keys()].some((file) => /^(?:seasons|blocks|varieties|products|sprayers)\//.test(file)))
      return null
    throw new UsageError('the next commit would hold records without vineyard.yaml', 'git add vineyard.yaml')
  }
  const [held] = await filesOfTrees(objects, [next])
  call.readFrom(held!)
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
