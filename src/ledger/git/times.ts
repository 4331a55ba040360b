import type { Revision } from './repository.ts'
import { askGit, type Place } from './run.ts'
import type { Tree } from './trees.ts'

/**
 * When each file of the ledger was last committed between two revisions, by path in the ledger, in seconds since
 * 1970. Merges don't count: what they bring was committed on its own branch.
 * @param between.trees the files of both.
 */
export async function commitTimes(
  place: Place,
  { from, to, trees }: { from: Revision | null; to: Revision; trees: Promise<readonly Tree[]> },
): Promise<Map<string, number>> {
  if (from?.commit === to.commit) return new Map()
  // Each commit has one time; comparing it with its parent shows which files it applies to.
  if (to.parents.join() === (from?.commit ?? '')) {
    const [before, after] = await trees
    return new Map(filesApart(before!, after!).map((file) => [file, to.time]))
  }
  const span = from ? `${from.commit}..${to.commit}` : to.commit
  const answer = await askGit(place, [
    'log', '-z', '--format=%x01%ct', '--name-only', '--no-renames', '--no-ext-diff', '--no-textconv', '--no-color',
    '--relative', '--no-merges', span, '--', '.',
  ]) // biome-ignore format: the command reads better in few lines
  const times = new Map<string, number>()
  let time = 0
  for (const token of answer.split('\0')) {
    const text = token.replace(/^\n+/, '')
    if (text.startsWith('\x01')) time = Number(text.slice(1))
    else if (text !== '' && !times.has(text)) times.set(text, time)
  }
  return times
}

/** Files in only one of two trees, or with different contents. */
function filesApart(before: Tree, after: Tree): string[] {
  const files = new Set([...before.keys(), ...after.keys()])
  return [...files].filter((file) => before.get(file)?.object !== after.get(file)?.object)
}
