import { createHash } from 'node:crypto'
import type { FolderEntry, LedgerFiles } from './files.ts'
import { aboutFile } from './finding.ts'
import type { Revision } from './git.ts'
import { Blobs } from './git-blobs.ts'
import { askGit, NoHistory, type Place } from './git-run.ts'
import { decode, LARGEST_FILE, type ReadResult } from './read-file.ts'

interface TreeFile {
  mode: string
  object: string
}

/** The files of a ledger in a revision or in the index, by path in the ledger. */
export type Tree = ReadonlyMap<string, TreeFile>

/** The files of the ledger in a revision; none where there is no revision. */
export async function treeOf(repository: Place, revision: Revision | null): Promise<Tree> {
  const files = new Map<string, TreeFile>()
  if (!revision) return files
  // In a folder of its work tree git lists that folder, by paths in it.
  const answer = await askGit(repository, ['ls-tree', '-r', '-z', revision.commit])
  for (const line of answer.toString('utf8').split('\0')) {
    const found = /^(\d+) \w+ ([0-9a-f]+)\t([\s\S]+)$/.exec(line)
    if (found) files.set(found[3]!, { mode: found[1]!, object: found[2]! })
  }
  return files
}

/**
 * The files of the ledger in the index: what a commit would hold. Where git itself runs the program before a
 * commit, it may name an index made for that commit, which then is read.
 * @throws NoHistory where a merge has not been finished.
 */
export async function stagedTree(repository: Place): Promise<Tree> {
  const answer = await askGit(repository, ['ls-files', '--stage', '-z', '--', '.'], { index: true })
  const files = new Map<string, TreeFile>()
  for (const line of answer.toString('utf8').split('\0')) {
    const found = /^(\d+) ([0-9a-f]+) (\d)\t([\s\S]+)$/.exec(line)
    if (!found) continue
    if (found[3] !== '0')
      throw new NoHistory(`a merge left ${found[4]} open`, 'finish it: repair the file, then `git add` it')
    files.set(found[4]!, { mode: found[1]!, object: found[2]! })
  }
  for (const file of await onlyMeant(repository, files)) files.delete(file)
  return files
}

/** What git calls a text of no bytes, and a folder of no files, by either of its hashes. */
const EMPTY = [
  {
    text: 'e69de29bb2d1d6434b8b29ae775ad8c2e48c5391',
    tree: '4b825dc642cb6eb9a060e54bf8d69288fbee4904',
  },
  {
    text: '473a0f4c3be8a93681a267e3b1e9a7dcda1185436fe141f7749120a303721813',
    tree: '6ef19b41225c5369f1c104d45d8d85efa9b057b53b14b4b9b939dd74decc5321',
  },
]

/**
 * Files of which the index holds the name alone (`git add -N`): a commit would not hold them. They look like files
 * of no bytes, but a comparison of the index with nothing leaves them out. The folder's own files are not looked at,
 * since that could run a filter of the repository's.
 */
async function onlyMeant(repository: Place, files: Tree): Promise<string[]> {
  for (const { text, tree } of EMPTY) {
    const empty = [...files].flatMap(([file, { object }]) => (object === text ? [file] : []))
    if (empty.length === 0) continue
    const shown = ['diff', '--cached', '--name-only', '--no-renames', '--relative', '-z', tree, '--']
    const answer = await askGit(repository, [...shown, ...empty], { index: true })
    const held = new Set(answer.toString('utf8').split('\0'))
    return empty.filter((file) => !held.has(file))
  }
  return []
}

export interface KnownTexts {
  /** Text that a file of the ledger had when it was last read, or null; it counts only where git holds the same. */
  textOf: (file: string) => string | null
}

/**
 * The ledger's files as they stand in some trees; the working tree is neither needed nor touched. All records are
 * fetched at once, each text once, however many of the trees hold it; weather when it is read.
 */
export async function filesOfTrees(
  repository: Place,
  trees: readonly Tree[],
  known?: KnownTexts,
): Promise<LedgerFiles[]> {
  const blobs = new Blobs(repository)
  const wanted = new Map<string, string>()
  for (const tree of trees)
    for (const [file, { mode, object }] of tree) if (isRecord(file, mode)) wanted.set(object, file)
  for (const [object, file] of wanted) {
    const text = known?.textOf(file)
    if (text != null && objectOf(text, object) === object) blobs.learn(object, text)
  }
  await blobs.fetchAll([...wanted.keys()])
  return trees.map((tree) => filesOf(tree, blobs))
}

const isPlain = (mode: string) => mode.startsWith('100')
const isRecord = (file: string, mode: string) =>
  isPlain(mode) && file.endsWith('.yaml') && !/(?:^|\/)\./.test(file)

function filesOf(tree: Tree, blobs: Blobs): LedgerFiles {
  const folders = foldersOf(tree)
  const texts = new Map<string, ReadResult>()
  return {
    list: (folder) => folders.get(folder) ?? [],
    has: (file) => tree.has(file),
    read(file) {
      const text = texts.get(file) ?? readFrom(tree, blobs, file)
      texts.set(file, text)
      return text
    },
  }
}

function readFrom(tree: Tree, blobs: Blobs, file: string): ReadResult {
  const refuse = (name: string, message: string, help: string): ReadResult => ({
    finding: aboutFile(file, { name, message, help }),
  })
  const known = tree.get(file)
  if (!known) return refuse('unreadable-file', 'the file is not in this revision', 'look in another')
  if (known.mode === '120000')
    return refuse('not-a-plain-file', 'this is a link, and rowbook follows none', 'put the file itself here')
  if (!isPlain(known.mode))
    return refuse('not-a-plain-file', 'this is not a plain file', 'take it out of the ledger')
  const content = blobs.get(known.object)
  if (content === null)
    return refuse('file-too-large', `the file is larger than ${LARGEST_FILE / 1024 / 1024} MB`, 'split it')
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
 * Whether a file as it stands differs from that in a tree; line ends don't count, since git may change them.
 * @param text of the file on the disk, or null where it can't be read.
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
