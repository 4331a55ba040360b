import { basename, dirname, join } from 'node:path'
import { type Disk, realDisk } from '../read/disk.ts'
import {
  attempt,
  cleanUp,
  makeFolder,
  NameTaken,
  orFail,
  syncFolder,
  takeName,
  temporaryName,
  WriteFailed,
  writePiece,
} from './write.ts'

interface WantedFile {
  /** The folder that contains it; no folder below may be a link. */
  root: string
  /** Relative to the root, with forward slashes. */
  file: string
  /** Its name in messages. */
  shown: string
  /** Permission bits, before the umask. */
  mode?: number
  /** Whether `-2`, `-3` and so on follow its name where that is taken. */
  isNumbered?: boolean
}

interface Begun extends WantedFile {
  folder: string
  temporary: string
  handle: number | null
}

/**
 * Creates several new files, all or none: each is written and synced under a hidden name in its folder, so that a full
 * disk is noticed before anything shows. Only when all are complete is each linked to its own name, which fails where
 * another writer took that name first. If anything fails, neither they nor the folders made for them remain. Only a
 * crash between two names can leave some of them. Where the file system has no hard links a name is taken by an empty
 * file, still exclusively, which the whole one replaces at once; only a crash in that moment can leave it empty.
 * @param work begins the files and fills them.
 * @throws NameTaken where a name is taken; WriteFailed where the disk refuses; whatever `work` throws.
 */
export function allOrNone<T>(work: (files: NewFiles) => T, disk: Disk = realDisk): T {
  const files = new NewFiles(disk)
  try {
    const result = work(files)
    files.finish()
    return result
  } catch (error) {
    files.takeBack()
    throw error
  }
}

/** One new file with this text, whole or not at all. */
export const newFile = (wanted: WantedFile, text: string, disk: Disk = realDisk): void =>
  allOrNone((files) => files.add(wanted, text), disk)

interface NewFile {
  root: string
  /** Relative to the ledger, with forward slashes; created if missing. */
  folder: string
  /** File name without `.yaml`; where it is taken, `-2`, `-3` and so on follow it. */
  stem: string
  text: string
  /** The end of its name, where it isn't `.yaml`. */
  end?: string
  /** Only under its own name: if that is taken, nothing is written. */
  only?: boolean
}

/**
 * Creates new files in a ledger, all or none.
 * @returns the files, relative to the ledger, in the order given.
 * @throws NameTaken where only one name was wanted and it is taken; WriteFailed where the disk refuses, or where a
 *   folder on the path is a link or not a folder; and then none of them remains.
 */
export const createFiles = (files: readonly NewFile[], disk: Disk = realDisk): string[] =>
  allOrNone((made) => {
    for (const { root, folder, stem, text, end = '.yaml', only = false } of files) {
      const file = `${folder}/${stem}${end}`
      made.add({ root, file, shown: file, isNumbered: !only }, text)
    }
    return made.names
  }, disk)

const MOST_TRIES = 1000

class NewFiles {
  /** The names that the files got, relative to their roots; filled when all are complete. */
  readonly names: string[] = []
  private readonly begun: Begun[] = []
  private readonly folders: string[] = []

  constructor(private readonly disk: Disk) {}

  /** Creates a folder and its missing parents. */
  makeRoot(path: string, shown: string): void {
    const missing: string[] = []
    orFail(shown, () => {
      for (let at = path; this.disk.standing(at) === null; at = dirname(at)) missing.unshift(at)
      for (const folder of missing) {
        this.disk.mkdir(folder)
        this.folders.push(folder)
      }
      if (missing[0] !== undefined) syncFolder(dirname(missing[0]), this.disk, shown)
    })
  }

  /** Begins a file. @returns what adds text to it. */
  begin(wanted: WantedFile): (text: string) => void {
    const { root, file, shown, mode, isNumbered } = wanted
    const cut = file.lastIndexOf('/')
    const folder = makeFolder(root, cut === -1 ? '' : file.slice(0, cut), this.disk, this.folders)
    const temporary = join(folder, temporaryName())
    const handle = orFail(shown, () => {
      if (!isNumbered && this.disk.standing(join(root, file)) !== null) throw taken(shown)
      if (!this.begun.some((one) => one.folder === folder)) cleanUp(folder, this.disk, Date.now())
      return this.disk.create(temporary, mode)
    })
    this.begun.push({ ...wanted, folder, temporary, handle })
    return (text) => orFail(shown, () => writePiece(handle, text, this.disk))
  }

  /** Adds a file with its whole text. */
  add(wanted: WantedFile, text: string): void {
    this.begin(wanted)(text)
    this.settle(this.begun.at(-1)!)
  }

  /** Gives the files their names. */
  finish(): void {
    for (const one of this.begun) this.settle(one)
    for (const one of this.begun) this.names.push(this.takeFree(one))
    for (const { temporary } of this.begun) attempt(() => this.disk.unlink(temporary))
    const folders = new Map(this.begun.map(({ folder, shown }) => [folder, shown]))
    for (const [folder, shown] of folders) syncFolder(folder, this.disk, shown)
  }

  /** Takes its own name, or the first free one with a number. */
  private takeFree({ root, file, shown, temporary, isNumbered = false }: Begun): string {
    const end = file.lastIndexOf('.')
    for (let number = 1; number <= (isNumbered ? MOST_TRIES : 1); number += 1) {
      const name = number === 1 ? file : `${file.slice(0, end)}-${number}${file.slice(end)}`
      if (orFail(shown, () => takeName(temporary, join(root, name), this.disk))) return name
    }
    if (!isNumbered) throw taken(shown)
    throw new WriteFailed(
      `${dirname(file)} already holds ${MOST_TRIES} files named ${basename(file.slice(0, end))}`,
      'put some of them into one file',
    )
  }

  private settle(one: Begun): void {
    const { handle, shown } = one
    if (handle === null) return
    one.handle = null
    orFail(shown, () => {
      try {
        this.disk.sync(handle)
      } finally {
        this.disk.close(handle)
      }
    })
  }

  /** Removes everything that was begun. */
  takeBack(): void {
    for (const [at, { root, handle, temporary }] of this.begun.entries()) {
      const name = this.names[at]
      if (name !== undefined) attempt(() => this.disk.unlink(join(root, name)))
      if (handle !== null) attempt(() => this.disk.close(handle))
      attempt(() => this.disk.unlink(temporary))
    }
    for (const folder of this.folders.reverse()) attempt(() => this.disk.rmdir(folder))
  }
}

const taken = (shown: string) =>
  new NameTaken(`${shown} is there already; nothing was written`, 'choose another place, or move it away')
