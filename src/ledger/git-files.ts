import { createHash } from 'node:crypto'
import type { FolderEntry, LedgerFiles } from './files.ts'
import { aboutFile } from './finding.ts'
import { type Repository, type Revision, readObjects, runGit } from './git.ts'
import { decode, LARGEST_FILE, type ReadResult } from './read-file.ts'

interface TreeFile {
  mode: string
  object: string
  size: number
}

/** A file in a tree: mode, type, object, size, tab, path. */
const LINE = /^(\d+) (\w+) ([0-9a-f]+) +(\d+|-)\t([\s\S]+)$/

/** The files of the ledger in a revision, by path in the ledger; none where there is no revision. */
export function treeOf(repository: Repository, revision: Revision | null): Map<string, TreeFile> {
  const files = new Map<string, TreeFile>()
  if (!revision) return files
  const { prefix } = repository
  const path = prefix === '' ? [] : ['--', prefix]
  const answer = runGit(repository, ['ls-tree', '-r', '-l', '-z', '--full-tree', revision.commit, ...path])
  for (const line of answer.toString('utf8').split('\0')) {
    const found = LINE.exec(line)
    if (!found?.[5]?.startsWith(prefix)) continue
    files.set(found[5].slice(prefix.length), { mode: found[1]!, object: found[3]!, size: Number(found[4]) })
  }
  return files
}

/** The ledger's files as they stand in a revision; the working tree is neither read nor touched. */
export function filesAtRevision(repository: Repository, revision: Revision | null): LedgerFiles {
  const tree = treeOf(repository, revision)
  const folders = foldersOf(tree)
  const texts = new Map<string, ReadResult>()
  const fetch = (names: readonly string[]) => {
    const wanted = names.filter((name) => isPlain(tree.get(name)) && !texts.has(name))
    if (wanted.length === 0) return
    const input = wanted.map((name) => `${tree.get(name)!.object}\n`).join('')
    const objects = readObjects(runGit(repository, ['cat-file', '--batch'], input), wanted.length)
    for (const [index, name] of wanted.entries()) texts.set(name, textOf(name, objects[index]!.content))
  }
  let fetched = false
  return {
    list: (folder) => folders.get(folder) ?? [],
    has: (file) => tree.has(file),
    read(file) {
      const known = tree.get(file)
      if (!known)
        return refuse(file, 'unreadable-file', 'the file is not in this revision', 'look in another')
      if (known.mode === '120000')
        return refuse(
          file,
          'not-a-plain-file',
          'this is a link, and rowbook follows none',
          'put the file itself here',
        )
      if (!isPlain(known))
        return refuse(file, 'not-a-plain-file', 'this is not a plain file', 'take it out of the ledger')
      if (known.size > LARGEST_FILE)
        return refuse(
          file,
          'file-too-large',
          `the file is larger than ${LARGEST_FILE / 1024 / 1024} MB`,
          'split it',
        )
      if (!fetched && file.endsWith('.yaml')) {
        fetched = true
        fetch([...tree.keys()].filter((name) => name.endsWith('.yaml') && !/(?:^|\/)\./.test(name)))
      }
      fetch([file])
      return texts.get(file)!
    },
  }
}

const isPlain = (file: TreeFile | undefined) =>
  file?.mode.startsWith('100') === true && file.size <= LARGEST_FILE

function refuse(file: string, name: string, message: string, help: string): ReadResult {
  return { finding: aboutFile(file, { name, message, help }) }
}

const textOf = (file: string, content: Uint8Array): ReadResult =>
  decode(content, (name, message, help) => refuse(file, name, message, help))

function foldersOf(tree: ReadonlyMap<string, TreeFile>): Map<string, FolderEntry[]> {
  const folders = new Map<string, Map<string, FolderEntry>>()
  for (const path of tree.keys()) {
    const parts = path.split('/')
    parts.forEach((name, index) => {
      const folder = parts.slice(0, index).join('/')
      const entries = folders.get(folder) ?? new Map<string, FolderEntry>()
      folders.set(folder, entries)
      const isFolder = index < parts.length - 1
      entries.set(name, { name, isDirectory: () => isFolder })
    })
  }
  return new Map([...folders].map(([folder, entries]) => [folder, [...entries.values()]]))
}

/**
 * Whether a file as it stands differs from that in a revision; line ends don't count, since git may change them.
 * @param text of the file on the disk, or null where it can't be read.
 */
export function differs(tree: ReadonlyMap<string, TreeFile>, file: string, text: string | null): boolean {
  const known = tree.get(file)
  if (!known || text === null) return true
  const unix = text.replaceAll('\r\n', '\n')
  return ![text, unix, unix.replaceAll('\n', '\r\n')].some(
    (one) => objectOf(one, known.object) === known.object,
  )
}

function objectOf(text: string, like: string): string {
  const bytes = Buffer.from(text, 'utf8')
  const hash = createHash(like.length === 64 ? 'sha256' : 'sha1')
  return hash.update(`blob ${bytes.length}\0`).update(bytes).digest('hex')
}
