import { askGit, NoHistory, type Place } from './git-run.ts'

/** The folder of a ledger, and where it lies in its repository: `''`, or `vineyards/far-quillet/`. */
export interface Repository extends Place {
  prefix: string
}

export interface Revision {
  /** As typed. */
  name: string
  commit: string
  /** Seconds since 1970 at which it was committed. */
  time: number
  subject: string
}

/**
 * The repository that a ledger lies in; the ledger may be a folder of a larger one.
 * @throws NoHistory where git isn't installed or the folder is in no repository.
 */
export async function openRepository({ root, variables }: Place): Promise<Repository> {
  try {
    const answer = await askGit({ root, variables }, ['rev-parse', '--is-inside-work-tree', '--show-prefix'])
    const [inside, prefix = ''] = answer.toString('utf8').split('\n')
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
    'begin one: `git init`, `git add .`, `git commit -m "The book as it stands"`',
  )
}

/** What may be typed for a revision; a leading `-` would be read as an option. */
const REVISION = /^(?!-)[^\s\0-\x1f\x7f:]{1,250}$/

/**
 * The commits that revisions name.
 * @returns in the order asked; null for HEAD where nothing was committed yet.
 * @throws NoHistory where one names no commit.
 */
export async function readRevisions(
  repository: Place,
  names: readonly string[],
): Promise<(Revision | null)[]> {
  for (const name of names) {
    if (!REVISION.test(name))
      throw new NoHistory(`\`${name}\` can't be a revision`, 'write a commit, a branch, a tag, or HEAD~1')
  }
  if (names.length === 0) return []
  const input = names.map((name) => `${name}^{commit}\n`).join('')
  const objects = readObjects(await askGit(repository, ['cat-file', '--batch'], { input }), names.length)
  return objects.map((object, index) => {
    const name = names[index]!
    if (object.type === 'commit') return toRevision(name, object)
    if (name === 'HEAD') return null
    if (object.type === 'ambiguous')
      throw new NoHistory(`\`${name}\` fits more than one commit`, 'write more of its letters')
    throw new NoHistory(`there is no revision \`${name}\``, 'see `git log --oneline` for what there is')
  })
}

function toRevision(name: string, { id, content }: GitObject): Revision {
  const text = content.toString('utf8')
  const cut = text.indexOf('\n\n')
  const time = /^committer .* (\d+) [+-]\d{4}$/m.exec(text.slice(0, cut))
  const subject = text.slice(cut + 2).split('\n')[0]!
  return { name, commit: id, time: Number(time?.[1] ?? 0), subject }
}

export interface GitObject {
  id: string
  /** `commit`, `blob`, `tree`, `tag`; `missing` or `ambiguous` where there is no one such object. */
  type: string
  content: Buffer
}

/** Takes the answer of `git cat-file --batch` apart. */
export function readObjects(answer: Buffer, count: number): GitObject[] {
  const objects: GitObject[] = []
  let at = 0
  while (objects.length < count) {
    const end = answer.indexOf(0x0a, at)
    if (end === -1) throw new NoHistory('git broke off its answer', 'check the repository with `git fsck`')
    const header = answer.subarray(at, end).toString('utf8')
    const found = /^([0-9a-f]{40,64}) (\w+) (\d+)$/.exec(header)
    at = end + 1
    if (!found) {
      objects.push({ id: '', type: header.split(' ').at(-1)!, content: Buffer.alloc(0) })
      continue
    }
    const size = Number(found[3])
    objects.push({ id: found[1]!, type: found[2]!, content: answer.subarray(at, at + size) })
    at += size + 1
  }
  return objects
}

/** The last commit of the current branch at or before a moment (seconds since 1970); null where there is none. */
export async function lastCommitBefore(repository: Place, time: number): Promise<string | null> {
  if (!(await readRevisions(repository, ['HEAD']))[0]) return null
  const answer = await askGit(repository, ['rev-list', '--max-count=1', `--before=${time}`, 'HEAD', '--'])
  return answer.toString('utf8').trim() || null
}

/**
 * When each file of the ledger was last committed between two revisions, by path in the ledger, in seconds since
 * 1970. Merges don't count: what they bring was committed on its own branch.
 */
export async function commitTimes(
  repository: Place,
  from: Revision | null,
  to: Revision,
): Promise<Map<string, number>> {
  const span = from ? `${from.commit}..${to.commit}` : to.commit
  const answer = await askGit(repository, [
    'log', '-z', '--format=%x01%ct', '--name-only', '--no-renames', '--no-ext-diff', '--no-textconv', '--no-color',
    '--relative', '--no-merges', span, '--', '.',
  ]) // biome-ignore format: the command reads better in few lines
  const times = new Map<string, number>()
  let time = 0
  for (const token of answer.toString('utf8').split('\0')) {
    const text = token.replace(/^\n+/, '')
    if (text.startsWith('\x01')) time = Number(text.slice(1))
    else if (text !== '' && !times.has(text)) times.set(text, time)
  }
  return times
}
