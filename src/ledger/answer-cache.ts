import { createHash, type Hash } from 'node:crypto'
import type { FolderEntry, LedgerFiles } from './files.ts'
import { keptPlace, readKept, writeKept } from './kept-file.ts'
import { readBytes } from './read-file.ts'

/**
 * Answers that an earlier run worked out from a ledger. Beside each answer stands what was asked of the
 * ledger's files to find it, in order (folders listed, files read), and one SHA-256 of all that they said. An
 * answer is only taken where the same questions, asked of the disk now, give the same hash: then everything
 * that it depends on is as it was, and it can be no other.
 */
export class AnswerCache {
  private readonly asked: Question[] = []
  private readonly said: (() => string)[] = []
  private isSound = true

  /**
   * @param folder the program's own folder in the user's cache.
   * @param label whatever an answer depends on beside the files: the build of the program, the version of Node.
   */
  constructor(
    private readonly folder: string,
    private readonly label: string,
    private readonly root: string,
  ) {}

  /**
   * The answer kept under a name, or null where there is none or where anything that it rests on has changed.
   * @param name one place in the cache; @param key what was asked for beside it, like the day.
   */
  find(name: string, key: string, disk: LedgerFiles): unknown {
    const body = readKept(keptPlace(this.folder, this.root, name), this.head(key))
    if (!body) return null
    const { asked, hash, answer } = JSON.parse(body.toString()) as Kept
    const now = createHash('sha256')
    for (const question of asked) if (!this.ask(question, disk, now)) return null
    return now.digest('hex') === hash ? answer : null
  }

  /** The same files, with every question to them noted from now on. */
  noting(files: LedgerFiles): LedgerFiles {
    const { asked, said } = this
    const seen = new Set<string>()
    const note = (question: Question, answer: () => string) => {
      const key = question.join('\n')
      if (seen.has(key)) return
      seen.add(key)
      asked.push(question)
      said.push(answer)
    }
    return {
      ...files,
      list: (folder) => {
        const entries = files.list(folder)
        const names = namesOf(entries)
        note(['list', folder], () => names)
        return entries
      },
      read: (file) => {
        const result = files.read(file)
        const { text } = result
        if (text === undefined) this.isSound = false
        else note(['read', file], () => text)
        return result
      },
      has: (file) => {
        const has = files.has(file)
        note(['has', file], () => String(has))
        return has
      },
    }
  }

  /** Keeps an answer with all that was asked for it. Where a file couldn't be read, nothing is kept. */
  keep(name: string, key: string, answer: unknown): void {
    if (!this.isSound) return
    const hash = createHash('sha256')
    this.asked.forEach((question, index) => {
      const bytes = Buffer.from(this.said[index]!())
      hash.update(headOf(question, bytes.length)).update(bytes)
    })
    const kept: Kept = { asked: this.asked, hash: hash.digest('hex'), answer }
    writeKept(keptPlace(this.folder, this.root, name), this.head(key), JSON.stringify(kept))
  }

  /** Asks a question anew and adds what is said to the hash; false where a file can't be read. */
  private ask(question: Question, disk: LedgerFiles, hash: Hash): boolean {
    const [kind, path] = question
    let bytes: Uint8Array | null
    if (kind === 'read') bytes = readBytes(this.root, path)
    else bytes = Buffer.from(kind === 'list' ? namesOf(disk.list(path)) : String(disk.has(path)))
    if (bytes === null) return false
    hash.update(headOf(question, bytes.length)).update(bytes)
    return true
  }

  private head(key: string): Buffer {
    return Buffer.from(`${JSON.stringify([this.label, this.root, key])}\n`)
  }
}

type Question = [kind: 'list' | 'read' | 'has', path: string]

interface Kept {
  asked: Question[]
  hash: string
  answer: unknown
}

const headOf = ([kind, path]: Question, length: number) => `${kind} ${JSON.stringify(path)} ${length}\n`

const namesOf = (entries: readonly FolderEntry[]) =>
  JSON.stringify(entries.map((entry) => [entry.name, entry.isDirectory()]).sort())
