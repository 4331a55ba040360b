import { type GitObject, GitObjects } from './objects.ts'
import { askGit, GitHangs, NoHistory, type Place } from './run.ts'

/** The folder of a ledger, and its path in the repository: `''`, or `vineyards/far-quillet/`. */
export interface Repository extends Place {
  prefix: string
}

export interface Revision {
  /** As typed. */
  name: string
  commit: string
  /** Parent commits: one, none for the first commit, more for a merge. */
  parents: string[]
  /** Commit time, seconds since 1970. */
  time: number
  subject: string
}

/**
 * The repository that contains a ledger; the ledger may be a folder of a larger repository.
 * @throws NoHistory where git isn't installed or the folder is in no repository.
 */
export async function openRepository({ root, variables }: Place): Promise<Repository> {
  try {
    const answer = await askGit({ root, variables }, ['rev-parse', '--is-inside-work-tree', '--show-prefix'])
    // A folder's name may hold a line break.
    const [, inside, prefix = ''] = /^([a-z]+)\n(.*)\n$/s.exec(answer) ?? []
    if (inside === 'true') return { root, prefix, variables }
  } catch (error) {
    if (!(error instanceof NoHistory)) throw error
    if (/not owned|dubious ownership|unsafe repository/.test(error.message))
      throw new NoHistory(
        'this repository belongs to another user, and git refuses it',
        `if you trust it: git config --global --add safe.directory '${root}'`,
      )
    if (!/not a git repository/i.test(error.message)) throw error
  }
  throw new NoHistory(
    'this ledger has no history: its folder is in no git repository',
    'begin one: `git init`, `git add .`, `git commit -m "First records"`',
  )
}

/**
 * Opens a repository's objects for some work, and closes git when the work is done.
 * @throws NoHistory, which says so where the folder is in no repository.
 */
export async function inRepository<T>(place: Place, work: (objects: GitObjects) => Promise<T>): Promise<T> {
  const objects = new GitObjects(place)
  try {
    return await work(objects)
  } catch (error) {
    if (error instanceof NoHistory && !(error instanceof GitHangs)) await openRepository(place)
    throw error
  } finally {
    objects.close()
  }
}

/** What may be typed for a revision; a leading `-` would be read as an option. */
const REVISION = /^(?!-)[^\s\0-\x1f\x7f:]{1,250}$/

/**
 * The commits that revisions name.
 * @returns in the order asked; null for HEAD where nothing was committed yet.
 * @throws NoHistory where one names no commit.
 */
export async function readRevisions(
  objects: GitObjects,
  names: readonly string[],
): Promise<(Revision | null)[]> {
  for (const name of names) {
    if (!REVISION.test(name))
      throw new NoHistory(`\`${name}\` can't be a revision`, 'write a commit, a branch, a tag, or HEAD~1')
  }
  const found = await objects.ask(names.map((name) => `${name}^{commit}`))
  return found.map((object, index) => {
    const name = names[index]!
    if (object.type === 'commit') return toRevision(name, object)
    if (name === 'HEAD') return null
    if (object.type === 'ambiguous')
      throw new NoHistory(`\`${name}\` fits more than one commit`, 'write more of its letters')
    throw new NoHistory(`there is no revision \`${name}\``, 'see `git log --oneline` for what there is')
  })
}

function toRevision(name: string, { id, content }: GitObject): Revision {
  const text = content!.toString('utf8')
  const cut = text.indexOf('\n\n')
  const head = text.slice(0, cut)
  const parents = [...head.matchAll(/^parent ([0-9a-f]+)$/gm)].map(([, parent]) => parent!)
  const time = /^committer .* (\d+) [+-]\d{4}$/m.exec(head)
  const subject = text.slice(cut + 2).split('\n')[0]!
  return { name, commit: id, parents, time: Number(time?.[1] ?? 0), subject }
}

/**
 * The last commit of the current branch at or before a moment (seconds since 1970); null where there is none.
 * @throws NoHistory where the repository is a shallow clone that doesn't reach back so far.
 */
export async function lastCommitBefore(objects: GitObjects, time: number): Promise<string | null> {
  if (!(await readRevisions(objects, ['HEAD']))[0]) return null
  const asked = ['rev-list', '--max-count=1', `--before=${time}`, 'HEAD', '--']
  const commit = (await askGit(objects.place, asked)).trim()
  if (commit !== '') return commit
  const shallow = await askGit(objects.place, ['rev-parse', '--is-shallow-repository'])
  if (shallow.trim() !== 'true') return null
  throw new NoHistory(
    "this is a shallow clone: its history doesn't reach back to that day",
    'fetch the rest: git fetch --unshallow',
  )
}
