import {
  closeSync,
  constants,
  fsyncSync,
  linkSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  renameSync,
  rmdirSync,
  unlinkSync,
  writeSync,
} from 'node:fs'

interface Standing {
  kind: 'folder' | 'file' | 'other'
  /** Milliseconds since 1970 of the last change. */
  changed: number
}

/** Every call that changes a ledger, so that tests can make each one fail. */
export interface Disk {
  /** Creates a new file and opens it for writing; `mode` is before the umask, default 0666. */
  create(path: string, mode?: number): number
  /** Opens a folder, only to have its entries synced. */
  openFolder(path: string): number
  /** Writes the bytes from an offset; returns how many were written, which may be fewer. */
  write(handle: number, bytes: Uint8Array, from: number): number
  sync(handle: number): void
  close(handle: number): void
  /** Gives a file a second name; fails where that name is taken. */
  link(from: string, to: string): void
  rename(from: string, to: string): void
  unlink(path: string): void
  mkdir(path: string): void
  /** Takes away an empty folder. */
  rmdir(path: string): void
  readdir(path: string): string[]
  /** What exists at a path (a link itself, not its target); null where nothing does. */
  standing(path: string): Standing | null
}

/** The disk as Node gives it. */
export const realDisk: Disk = {
  create: (path, mode = 0o666) =>
    openSync(path, constants.O_WRONLY | constants.O_CREAT | constants.O_EXCL | constants.O_NOFOLLOW, mode),
  openFolder: (path) => openSync(path, constants.O_RDONLY | constants.O_DIRECTORY),
  write: (handle, bytes, from) => writeSync(handle, bytes, from, bytes.length - from),
  sync: fsyncSync,
  close: closeSync,
  link: linkSync,
  rename: renameSync,
  unlink: unlinkSync,
  mkdir: (path) => mkdirSync(path),
  rmdir: rmdirSync,
  readdir: (path) => readdirSync(path),
  standing(path) {
    try {
      const stat = lstatSync(path)
      const kind = stat.isDirectory() ? 'folder' : stat.isFile() ? 'file' : 'other'
      return { kind, changed: stat.mtimeMs }
    } catch (error) {
      if (faultCode(error) === 'ENOENT') return null
      throw error
    }
  },
}

/** The system's name of a fault, like `ENOSPC`. */
export function faultCode(error: unknown): string {
  return (error as NodeJS.ErrnoException | null)?.code ?? 'unknown fault'
}
