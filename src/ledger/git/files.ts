import { createHash } from 'node:crypto'
import type { FolderEntry, LedgerFiles } from '../read/files.ts'
import { aboutFile } from '../read/finding.ts'
import { decode, LARGEST_FILE, largestOf, type ReadResult, readText, tooLarge } from '../read/read-file.ts'
import type { GitObjects } from './objects.ts'
import { type Place, runGit } from './run.ts'
import type { Tree } from './trees.ts'

/** Contents of files by the id of their object; null where one is larger than a ledger's file may be. */
type Contents = Map<string, string | Buffer | null>

/**
 * The ledger's files in some git trees; the working tree is neither needed nor touched. All records are
 * fetched at once, each text once even if several trees hold it, and from the folder if it holds the
 * same text, which is faster; weather is fetched when it is read.
 */
export async function filesOfTrees(objects: GitObjects, trees: readonly Tree[]): Promise<LedgerFiles[]> {
  const wanted = new Map<string, string>()
  for (const tree of trees)
    for (const [file, { mode, object }] of tree) if (isRecord(file, mode)) wanted.set(object, file)
  const contents: Contents = new Map()
  for (const [object, file] of wanted) {
    const text = standing(objects.place, file, object)
    if (text !== null) contents.set(object, text)
  }
  const lacking = [...wanted.keys()].filter((object) => !contents.has(object))
  for (const [object, content] of await objects.contentsOf(lacking)) contents.set(object, content)
  return trees.map((tree) => filesOf(tree, contents, objects.place))
}

const isPlain = (mode: string) => mode.startsWith('100')
const isRecord = (file: string, mode: string) =>
  isPlain(mode) && file.endsWith('.yaml') && !/(?:^|\/)\./.test(file)

function filesOf(tree: Tree, contents: Contents, place: Place): LedgerFiles {
  const folders = foldersOf(tree)
  const texts = new Map<string, ReadResult>()
  const contentOf = (file: string, object: string) => {
    if (!contents.has(object)) contents.set(object, fetched(place, file, object))
    return contents.get(object)!
  }
  return {
    list: (folder) => folders.get(folder) ?? [],
    has: (file) => tree.has(file),
    read(file) {
      const text = texts.get(file) ?? readFrom(tree, file, contentOf)
      texts.set(file, text)
      return text
    },
  }
}

/** A file's content that was not fetched with the others. */
const fetched = (place: Place, file: string, object: string): string | Buffer | null =>
  standing(place, file, object) ?? runGit(place, ['cat-file', 'blob', object], LARGEST_FILE)

/** The text of a file in the folder if it is the same as git's under this id; else null. */
function standing(place: Place, file: string, object: string): string | null {
  const { text } = readText(place.root, file)
  return text !== undefined && objectOf(text, object) === object ? text : null
}

function readFrom(
  tree: Tree,
  file: string,
  contentOf: (file: string, object: string) => string | Buffer | null,
): ReadResult {
  const refuse = (name: string, message: string, help: string): ReadResult => ({
    finding: aboutFile(file, { name, message, help }),
  })
  const known = tree.get(file)
  if (!known) return refuse('unreadable-file', 'the file is not in this revision', 'look in another')
  if (known.mode === '120000')
    return refuse('not-a-plain-file', 'this is a link, and rowbook follows none', 'put the file itself here')
  if (!isPlain(known.mode))
    return refuse('not-a-plain-file', 'this is not a plain file', 'put a plain file in its place')
  const content = contentOf(file, known.object)
  if (content === null || content.length > largestOf(file)) return refuse(...tooLarge(file))
  return typeof content === 'string' ? { text: content } : decode(content, refuse)
}

function foldersOf(tree: Tree): Map<string, FolderEntry[]> {
  const folders = new Map<string, Map<string, FolderEntry>>()
  const add = (path: string, isFolder: boolean) => {
    const cut = path.lastIndexOf('/')
    const folder = cut === -1 ? '' : path.slice(0, cut)
    const known = folders.get(folder)
    const entries = known ?? new Map<string, FolderEntry>()
    const name = path.slice(cut + 1)
    if (!known) {
      folders.set(folder, entries)
      if (folder !== '') add(folder, true)
    }
    entries.set(name, { name, isDirectory: () => isFolder })
  }
  for (const path of tree.keys()) add(path, false)
  return new Map([...folders].map(([folder, entries]) => [folder, [...entries.values()]]))
}

/**
 * Whether a file on disk differs from the one in a tree; line endings don't count, since git may change them.
 * @param text content of the file on disk, or null where it can't be read.
 */
export function differs(tree: Tree, file: string, text: string | null): boolean {
  const known = tree.get(file)
  if (!known || text === null) return true
  if (objectOf(text, known.object) === known.object) return false
  const unix = text.replaceAll('\r\n', '\n')
  return ![unix, unix.replaceAll('\n', '\r\n')].some((one) => objectOf(one, known.object) === known.object)
}

function objectOf(text: string, like: string): string {
  const bytes = Buffer.from(text, 'utf8')
  const hash = createHash(like.length === 64 ? 'sha256' : 'sha1')
  return hash.update(`blob ${bytes.length}\0`).update(bytes).digest('hex')
}
