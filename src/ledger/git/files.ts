import { createHash } from 'node:crypto'
import type { FolderEntry, LedgerFiles } from '../read/files.ts'
import { aboutFile } from '../read/finding.ts'
import {
  decode,
  LARGEST_FILE,
  LINK,
  largestOf,
  NOT_PLAIN,
  type ReadResult,
  readText,
  tooLarge,
} from '../read/read-file.ts'
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
  const contents: Contents = new Map()
  const lacking = new Set<string>()
  for (const tree of trees) {
    for (const [file, { mode, object }] of tree) {
      if (!isRecord(file, mode) || contents.has(object) || lacking.has(object)) continue
      const text = inFolder(objects.place, file, object)
      if (text === null) lacking.add(object)
      else contents.set(object, text)
    }
  }
  for (const [object, content] of await objects.contentsOf([...lacking])) contents.set(object, content)
  return trees.map((tree) => filesOf(tree, contents, objects.place))
}

const isPlain = (mode: string) => mode.startsWith('100')
const isRecord = (file: string, mode: string) =>
  isPlain(mode) && file.endsWith('.yaml') && !/(?:^|\/)\./.test(file)

function filesOf(tree: Tree, contents: Contents, place: Place): LedgerFiles {
  const folders = foldersOf(tree)
  const texts = new Map<string, ReadResult>()
  const contentOf = (file: string, object: string) => {
    let content = contents.get(object)
    if (content === undefined) {
      content = inFolder(place, file, object) ?? runGit(place, ['cat-file', 'blob', object], LARGEST_FILE)
      contents.set(object, content)
    }
    return content
  }
  return {
    list: (folder) => [...(folders.get(folder)?.values() ?? [])],
    has: (file) => tree.has(file),
    read(file) {
      const text = texts.get(file) ?? readFrom(tree, file, contentOf)
      texts.set(file, text)
      return text
    },
  }
}

/** The text of a file in the folder if it is the same as git's under this id; else null. */
function inFolder(place: Place, file: string, object: string): string | null {
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
  if (known.mode === '120000') return refuse(...LINK)
  if (!isPlain(known.mode)) return refuse(...NOT_PLAIN)
  const content = contentOf(file, known.object)
  if (content === null || content.length > largestOf(file)) return refuse(...tooLarge(file))
  return typeof content === 'string' ? { text: content } : decode(content, refuse)
}

function foldersOf(tree: Tree): Map<string, Map<string, FolderEntry>> {
  const folders = new Map<string, Map<string, FolderEntry>>()
  const add = (path: string, isFolder: boolean) => {
    const cut = path.lastIndexOf('/')
    const folder = cut === -1 ? '' : path.slice(0, cut)
    if (!folders.has(folder)) {
      folders.set(folder, new Map())
      if (folder !== '') add(folder, true)
    }
    const name = path.slice(cut + 1)
    folders.get(folder)!.set(name, { name, isDirectory: () => isFolder })
  }
  for (const path of tree.keys()) add(path, false)
  return folders
}

/**
 * Whether a file on disk differs from the one in a tree; line endings don't count, since git may change them.
 * @param text content of the file on disk, or null where it can't be read.
 */
export function differs(tree: Tree, file: string, text: string | null): boolean {
  const known = tree.get(file)
  if (!known || text === null) return true
  const unix = text.replaceAll('\r\n', '\n')
  const variants = [text, unix, unix.replaceAll('\n', '\r\n')]
  return !variants.some((one) => objectOf(one, known.object) === known.object)
}

function objectOf(text: string, like: string): string {
  const bytes = Buffer.from(text, 'utf8')
  const hash = createHash(like.length === 64 ? 'sha256' : 'sha1')
  return hash.update(`blob ${bytes.length}\0`).update(bytes).digest('hex')
}
