import { askGit, NoHistory, type Place } from './run.ts'
import type { Tree, TreeFile } from './trees.ts'

/**
 * The files of the ledger in the index: what a commit would hold. Where git itself runs the program before a
 * commit, it may name an index made for that commit, which is then read.
 * @throws NoHistory during an unfinished merge.
 */
export async function stagedTree(repository: Place): Promise<Tree> {
  const answer = await askGit(repository, ['ls-files', '--stage', '-z', '--', '.'], { index: true })
  const files = new Map<string, TreeFile>()
  for (const line of answer.split('\0')) {
    const found = /^(\d+) ([0-9a-f]+) (\d)\t([\s\S]+)$/.exec(line)
    if (!found) continue
    if (found[3] !== '0')
      throw new NoHistory(`a merge left ${found[4]} open`, 'finish it: repair the file, then `git add` it')
    files.set(found[4]!, { mode: found[1]!, object: found[2]! })
  }
  for (const file of await onlyMeant(repository, files)) files.delete(file)
  return files
}

/** Git's id of an empty folder by that of an empty file, for both of its hash algorithms. */
const EMPTY: ReadonlyMap<string, string> = new Map([
  ['e69de29bb2d1d6434b8b29ae775ad8c2e48c5391', '4b825dc642cb6eb9a060e54bf8d69288fbee4904'],
  [
    '473a0f4c3be8a93681a267e3b1e9a7dcda1185436fe141f7749120a303721813',
    '6ef19b41225c5369f1c104d45d8d85efa9b057b53b14b4b9b939dd74decc5321',
  ],
])

/**
 * Files of which the index holds only the name (`git add -N`): a commit would not include them. They look like
 * empty files, but comparing the index with an empty tree leaves them out. The working tree isn't read,
 * since that could run one of the repository's filters.
 */
async function onlyMeant(repository: Place, files: Tree): Promise<string[]> {
  const empty = [...files].filter(([, { object }]) => EMPTY.has(object))
  if (empty.length === 0) return []
  const names = empty.map(([file]) => file)
  const tree = EMPTY.get(empty[0]![1].object)!
  const shown = ['diff', '--cached', '--name-only', '--no-renames', '--relative', '-z', tree, '--']
  const answer = await askGit(repository, [...shown, ...names], { index: true })
  const held = new Set(answer.split('\0'))
  return names.filter((file) => !held.has(file))
}
