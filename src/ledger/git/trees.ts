import type { Revision } from './repository.ts'
import { NoHistory, type Place, startGit } from './run.ts'

export interface TreeFile {
  /** Six octal digits: `100644` or `100755` for a plain file, `120000` for a link, `160000` for a submodule. */
  mode: string
  object: string
}

/** The files of a ledger in a revision or in the index, by path in the ledger. */
export type Tree = ReadonlyMap<string, TreeFile>

/**
 * The files of the ledger in some revisions; none where there is no revision, or no such folder in it.
 * @throws NoHistory where part of a tree is missing.
 */
export async function treesOf(place: Place, revisions: readonly (Revision | null)[]): Promise<Tree[]> {
  const commits = [...new Set(revisions.flatMap((revision) => revision?.commit ?? []))]
  const trees = await Promise.all(commits.map((commit) => treeOf(place, commit)))
  return revisions.map((revision) => (revision ? trees[commits.indexOf(revision.commit)]! : new Map()))
}

/** A hostile repository can nest one folder in itself many times and so seem to contain endless files. */
const MOST_NAMES = 1_000_000

/** Git lists the part of a revision that lies in the folder where it runs, with paths from there. */
async function treeOf(place: Place, commit: string): Promise<Tree> {
  const files = new Map<string, TreeFile>()
  const decoder = new TextDecoder()
  let rest = ''
  const onOutput = (piece: Buffer) => {
    const lines = (rest + decoder.decode(piece, { stream: true })).split('\0')
    rest = lines.pop()!
    for (const line of lines) {
      const [, mode, object, file] = /^(\d+) \w+ ([0-9a-f]+)\t([\s\S]+)$/.exec(line) ?? []
      if (file) files.set(file, { mode: mode!, object: object! })
    }
    if (files.size > MOST_NAMES)
      throw new NoHistory(
        `a revision holds over ${MOST_NAMES} files`,
        'keep the ledger in a folder of its own',
      )
  }
  const git = startGit(place, ['ls-tree', '-r', '-z', commit], { onOutput })
  git.end()
  await git.ended
  return files
}
