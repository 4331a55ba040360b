import { closeSync, constants, openSync, readSync } from 'node:fs'
import { type FolderEntry, filesOnDisk, type LedgerFiles } from '../read/files.ts'
import { LARGEST_FILE, placeOf } from '../read/read-file.ts'

/** What was asked of the files of a ledger, by paths relative to it. */
export type FileQuestion = readonly [kind: 'list' | 'read' | 'has', path: string]

/** A hash that is being made of what was said, like Node's own. */
export interface Digest {
  update(part: Uint8Array | string): unknown
}

/** Questions to the files of a ledger, and what they said. */
export class AskedFiles {
  readonly questions: FileQuestion[] = []
  private readonly said: string[] = []
  /** Whether all that was said can be asked for again: not so where a file couldn't be read. */
  isSound = true

  /** The same files, with every question to them noted once. */
  noting(files: LedgerFiles): LedgerFiles {
    const seen = new Set<string>()
    const note = (kind: FileQuestion[0], path: string, said: () => string) => {
      if (seen.has(kind + path)) return
      seen.add(kind + path)
      this.questions.push([kind, path])
      this.said.push(said())
    }
    return {
      ...files,
      list: (folder) => {
        const entries = files.list(folder)
        note('list', folder, () => namesOf(entries))
        return entries
      },
      read: (file) => {
        const result = files.read(file)
        const { text } = result
        if (text === undefined) this.isSound = false
        else note('read', file, () => text)
        return result
      },
      has: (file) => {
        const has = files.has(file)
        note('has', file, () => String(has))
        return has
      },
    }
  }

  /** Adds to a hash what was said. */
  hash(digest: Digest): void {
    const joined = new Joined(digest)
    for (const text of this.said) joined.add(text)
    joined.end()
  }
}

/** Adds to a hash what the disk says now to the same questions. @returns false where something can't be read. */
export function askDisk(root: string, questions: readonly FileQuestion[], digest: Digest): boolean {
  const disk = filesOnDisk(root)
  const joined = new Joined(digest)
  for (const [kind, path] of questions) {
    if (kind !== 'read') joined.add(kind === 'list' ? namesOf(disk.list(path)) : String(disk.has(path)))
    else if (!joined.addFile(placeOf(root, path))) return false
  }
  joined.end()
  return true
}

/** Brings pieces into a hash, many at once: they are mostly small, and a call for each takes longer than hashing. */
class Joined {
  private readonly bytes = Buffer.allocUnsafeSlow(1 << 18)
  private filled = 0
  private readonly lengths: number[] = []

  constructor(private readonly digest: Digest) {}

  add(text: string): void {
    const length = Buffer.byteLength(text)
    if (length > this.bytes.length - this.filled) this.flush()
    if (length > this.bytes.length) this.digest.update(text)
    else this.filled += this.bytes.write(text, this.filled)
    this.lengths.push(length)
  }

  /** Adds a plain file without its byte order mark; false where it can't be read or is too large. */
  addFile(path: string): boolean {
    const { bytes } = this
    let handle: number | undefined
    try {
      handle = openSync(path, constants.O_RDONLY | constants.O_NOFOLLOW | constants.O_NONBLOCK)
      let length = 0
      for (;;) {
        if (bytes.length - this.filled < BLOCK) this.flush()
        const room = bytes.length - this.filled
        const got = readSync(handle, bytes, this.filled, room, null)
        if (length === 0 && isMarked(bytes, this.filled, got)) {
          bytes.copyWithin(this.filled, this.filled + 3, this.filled + got)
          this.filled -= 3
          length -= 3
        }
        this.filled += got
        length += got
        if (length > LARGEST_FILE) return false
        // Less than was asked for is the end of a file; a disk that gives it piece by piece gives whole blocks.
        if (got < room && got % BLOCK !== 0) break
        if (got === 0) break
      }
      this.lengths.push(length)
      return true
    } catch {
      return false
    } finally {
      if (handle !== undefined) closeSync(handle)
    }
  }

  end(): void {
    this.flush()
    this.digest.update(String(this.lengths))
  }

  private flush(): void {
    if (this.filled > 0) this.digest.update(this.bytes.subarray(0, this.filled))
    this.filled = 0
  }
}

const BLOCK = 512

const isMarked = (bytes: Uint8Array, at: number, got: number) =>
  got >= 3 && bytes[at] === 0xef && bytes[at + 1] === 0xbb && bytes[at + 2] === 0xbf

/** The names in a folder as one text, each with what it is: a folder, a file or something else. */
function namesOf(entries: readonly FolderEntry[]): string {
  let text = ''
  for (const entry of entries)
    text += `${entry.isDirectory() ? 'd' : entry.isFile?.() === false ? 'o' : 'f'}${entry.name}\0`
  return text
}
