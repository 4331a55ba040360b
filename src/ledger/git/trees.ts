import type { GitObjects } from './objects.ts'
import type { Revision } from './repository.ts'
import { askGit, NoHistory } from './run.ts'

export interface TreeFile {
  /** Six octal digits: `100644` or `100755` for a plain file, `120000` for a link, `160000` for a submodule. */
  mode: string
  object: string
}

/** The files of a ledger in a revision or in the index, by path in the ledger. */
export type Tree = ReadonlyMap<string, TreeFile>

/** The files of the ledger in some revisions; none where there is no revision, or no such folder in it. */
export async function treesOf(objects: GitObjects, revisions: readonly (Revision | null)[]): Promise<Tree[]> {
  const commits = [...new Set(revisions.flatMap((revision) => revision?.commit ?? []))]
  // Git takes `./` for the folder in which it runs, which may be one of a larger repository.
  const tops = await objects.ask(commits.map((commit) => `${commit}:./`))
  const topOf = new Map<string, string>()
  let contents = new Map<string, Buffer | null>()
  for (const [index, { id, type, content }] of tops.entries()) {
    if (type === 'tree') contents.set(id, content)
    // It says so the same way where the folder is not in that commit and where the repository is damaged.
    else await askGit(objects.place, ['ls-tree', commits[index]!])
    topOf.set(commits[index]!, id)
  }
  const folders = new Map<string, Folder>()
  for (let depth = 0; contents.size > 0 && depth < DEEPEST; depth += 1) {
    for (const [id, content] of contents) folders.set(id, readFolder(content!, id.length / 2))
    const inside = [...contents.keys()].flatMap((id) => folders.get(id)!.filter(isFolder))
    const lacking = [...new Set(inside.map(({ object }) => object))].filter((id) => !folders.has(id))
    contents = await objects.contentsOf('tree', lacking)
  }
  return revisions.map((revision) => {
    const top = revision && topOf.get(revision.commit)
    const files = new Map<string, TreeFile>()
    if (top) addFiles(top, { files, folders, seen: 0 })
    return files
  })
}

/** A ledger's files lie three folders deep; what lies far below is none of its own. */
const DEEPEST = 16
/** Folders that git holds once can stand in one another many times over, and so seem to hold no end of files. */
const MOST_NAMES = 1_000_000

type Folder = (TreeFile & { name: string })[]

const isFolder = ({ mode }: TreeFile) => mode.startsWith('04')

/** What a tree object says: for each name its mode, a space, the name, NUL, and the bytes of an object's id. */
function readFolder(content: Buffer, idLength: number): Folder {
  const folder: Folder = []
  for (let at = 0; at < content.length; ) {
    const space = content.indexOf(0x20, at)
    const end = content.indexOf(0, space)
    const next = end + 1 + idLength
    if (space === -1 || end === -1 || next > content.length)
      throw new NoHistory('a folder in git is damaged', 'check the repository with `git fsck`')
    const mode = Number.parseInt(content.toString('latin1', at, space), 8)
    folder.push({
      mode: mode.toString(8).padStart(6, '0'),
      name: content.toString('utf8', space + 1, end),
      object: content.toString('hex', end + 1, next),
    })
    at = next
  }
  return folder
}

function addFiles(id: string, into: Listing, path = '', depth = 0): void {
  for (const entry of depth < DEEPEST ? (into.folders.get(id) ?? []) : []) {
    into.seen += 1
    if (into.seen > MOST_NAMES)
      throw new NoHistory(
        `a revision holds over ${MOST_NAMES} files`,
        'keep the ledger in a folder of its own',
      )
    const { name, mode, object } = entry
    if (isFolder(entry)) addFiles(object, into, `${path}${name}/`, depth + 1)
    else into.files.set(`${path}${name}`, { mode, object })
  }
}

interface Listing {
  files: Map<string, TreeFile>
  folders: ReadonlyMap<string, Folder>
  /** Names met so far, of files and of folders. */
  seen: number
}
