import { dirname, join } from 'node:path'
import { type Disk, realDisk } from '../read/disk.ts'
import {
  attempt,
  cleanUp,
  failed,
  makeFolder,
  NameTaken,
  syncFolder,
  takeName,
  temporaryName,
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
}

interface Begun extends WantedFile {
  folder: string
  temporary: string
  handle: number | null
}

/**
 * Creates several new files, all or none: each is written and synced under a hidden name, and only when all are
 * complete do they get their own names. If anything fails, neither they nor the folders made for them remain.
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
  allOrNone((files) => files.begin(wanted)(text), disk)

class NewFiles {
  private readonly begun: Begun[] = []
  private readonly named: string[] = []
  private readonly folders: string[] = []

  constructor(private readonly disk: Disk) {}

  /** Creates a folder and its missing parents. */
  makeRoot(path: string, shown: string): void {
    const missing: string[] = []
    try {
      for (let at = path; this.disk.standing(at) === null; at = dirname(at)) missing.push(at)
      for (const folder of missing.reverse()) {
        this.disk.mkdir(folder)
        this.folders.push(folder)
      }
      if (missing[0] !== undefined) syncFolder(dirname(missing[0]), this.disk, shown)
    } catch (error) {
      throw failed(error, shown)
    }
  }

  /** Begins a file. @returns what adds text to it. */
  begin(wanted: WantedFile): (text: string) => void {
    const { root, file, shown, mode } = wanted
    const cut = file.lastIndexOf('/')
    const folder = makeFolder(root, cut === -1 ? '' : file.slice(0, cut), this.disk, this.folders)
    const temporary = join(folder, temporaryName())
    try {
      if (this.disk.standing(join(root, file)) !== null) throw taken(shown)
      cleanUp(folder, this.disk, Date.now())
      const begun: Begun = { ...wanted, folder, temporary, handle: this.disk.create(temporary, mode) }
      this.begun.push(begun)
      return (text) => this.add(begun, text)
    } catch (error) {
      throw failed(error, shown)
    }
  }

  private add({ handle, shown }: Begun, text: string): void {
    try {
      writePiece(handle!, text, this.disk)
    } catch (error) {
      throw failed(error, shown)
    }
  }

  /** Gives the files their names. */
  finish(): void {
    for (const one of this.begun) this.settle(one)
    for (const { root, file, shown, temporary } of this.begun) {
      const final = join(root, file)
      try {
        if (!takeName(temporary, final, this.disk)) throw taken(shown)
      } catch (error) {
        throw failed(error, shown)
      }
      this.named.push(final)
    }
    for (const { temporary } of this.begun) attempt(() => this.disk.unlink(temporary))
    const folders = new Map(this.begun.map(({ folder, shown }) => [folder, shown]))
    for (const [folder, shown] of folders) syncFolder(folder, this.disk, shown)
  }

  private settle(one: Begun): void {
    const { handle, shown } = one
    one.handle = null
    try {
      try {
        this.disk.sync(handle!)
      } finally {
        this.disk.close(handle!)
      }
    } catch (error) {
      throw failed(error, shown)
    }
  }

  /** Removes everything that was begun. */
  takeBack(): void {
    for (const path of this.named) attempt(() => this.disk.unlink(path))
    for (const { handle, temporary } of this.begun) {
      if (handle !== null) attempt(() => this.disk.close(handle))
      attempt(() => this.disk.unlink(temporary))
    }
    for (const folder of this.folders.reverse()) attempt(() => this.disk.rmdir(folder))
  }
}

const taken = (shown: string) =>
  new NameTaken(`${shown} is there already; nothing was written`, 'choose another place, or move it away')
