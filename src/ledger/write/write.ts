import { randomBytes } from 'node:crypto'
import { join } from 'node:path'
import { UserError } from '../../records/user-error.ts'
import { type Disk, faultCode, realDisk } from '../read/disk.ts'
import { type Decoder, readText } from '../read/read-file.ts'

const TEMPORARY = /^\.rowbook-\d+-[0-9a-f]+\.tmp$/
const OLD_MS = 3_600_000

/** Errors from a file system without hard links. */
const NO_LINKS = new Set(['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK', 'EINVAL'])
/** Errors where folders can't be synced, which loses nothing that was written. */
const NO_FOLDER_SYNC = new Set(['EINVAL', 'EPERM', 'EACCES', 'EISDIR', 'ENOTSUP', 'EBADF'])

interface Replacing {
  disk?: Disk
  /** Checked at the last moment: whether the file is still what the new text was based on. */
  isAsSeen?: () => boolean
}

/**
 * Replaces an existing file that the program owns, like a schema, or adds to, like weather.
 * @param file relative to `root`, with forward slashes.
 * @throws WriteFailed where the disk refuses, or another program changed the file meanwhile; the file is then
 *   unchanged.
 */
export function replaceFile(root: string, file: string, text: string, replacing: Replacing = {}): void {
  replaceFiles(root, [{ file, text }], replacing)
}

/**
 * The same for several files: all are written under hidden names, so that a full disk is noticed before one of them
 * shows.
 * @throws WriteFailed likewise; only a disk that fails between two names can leave some new and some old.
 */
export function replaceFiles(
  root: string,
  files: readonly { file: string; text: string }[],
  { disk = realDisk, isAsSeen = () => true }: Replacing = {},
): void {
  const staged: { file: string; path: string; temporary: string }[] = []
  let at = ''
  try {
    for (const { file, text } of files) {
      at = file
      const cut = file.lastIndexOf('/')
      const path = makeFolder(root, cut === -1 ? '' : file.slice(0, cut), disk)
      const temporary = join(path, temporaryName())
      staged.push({ file, path, temporary })
      writeWhole(temporary, markOf(root, file) + text, disk)
    }
    if (!isAsSeen()) throw changedMeanwhile(at)
    for (const { file, temporary } of staged) {
      at = file
      disk.rename(temporary, join(root, file))
    }
    for (const { file, path } of staged) syncFolder(path, disk, file)
  } catch (error) {
    for (const { temporary } of staged) attempt(() => disk.unlink(temporary))
    throw failed(error, at)
  }
}

export const changedMeanwhile = (file: string) =>
  new WriteFailed(`${file} was changed meanwhile; nothing was written`, 'run the same command again')

/** A file's byte-order mark, which reading skips and replacing keeps. */
function markOf(root: string, file: string): string {
  const asMark: Decoder = (bytes) => ({
    text: bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? '\ufeff' : '',
  })
  return readText(root, file, { asText: asMark }).text ?? ''
}

/** Whether anything exists at a path of a ledger, even a broken link. */
export function standsAlready(root: string, file: string, disk: Disk = realDisk): boolean {
  return disk.standing(join(root, file)) !== null
}

export const temporaryName = () => `.rowbook-${process.pid}-${randomBytes(6).toString('hex')}.tmp`

/** @param made collects the folders that were created. */
export function makeFolder(root: string, folder: string, disk: Disk, made: string[] = []): string {
  let path = root
  let shown = ''
  for (const part of folder.split('/').filter((one) => one !== '')) {
    const above = path
    path = join(path, part)
    shown = shown ? `${shown}/${part}` : part
    const standing = orFail(shown, () => {
      if (disk.standing(path) === null) {
        // A folder that another writer made is not ours to take back.
        if (unlessTaken(() => disk.mkdir(path))) made.push(path)
        syncFolder(above, disk, shown)
      }
      return disk.standing(path)
    })
    if (standing?.kind === 'folder') continue
    throw new WriteFailed(
      `${shown} is a link or not a folder, and rowbook writes through none`,
      'put a real folder there, or move it away',
    )
  }
  return path
}

/** Does what needs a free name. @returns false where another writer took it at the same moment */
function unlessTaken(work: () => void): boolean {
  try {
    work()
    return true
  } catch (error) {
    if (faultCode(error) === 'EEXIST') return false
    throw error
  }
}

/** Writes all of a text, even if the disk takes only a little at a time. */
export function writePiece(handle: number, text: string, disk: Disk): void {
  const bytes = new TextEncoder().encode(text)
  let written = 0
  while (written < bytes.length) {
    const taken = disk.write(handle, bytes, written)
    if (taken <= 0) throw Object.assign(new Error('nothing was taken'), { code: 'EIO' })
    written += taken
  }
}

export function writeWhole(path: string, text: string, disk: Disk): void {
  const handle = disk.create(path)
  try {
    writePiece(handle, text, disk)
    disk.sync(handle)
  } catch (error) {
    attempt(() => disk.close(handle))
    throw error
  }
  disk.close(handle)
}

/** Gives the finished file its own name. @returns false where the name is taken. */
export function takeName(temporary: string, final: string, disk: Disk): boolean {
  try {
    return unlessTaken(() => disk.link(temporary, final))
  } catch (error) {
    if (!NO_LINKS.has(faultCode(error))) throw error
  }
  if (!unlessTaken(() => disk.close(disk.create(final)))) return false
  try {
    disk.rename(temporary, final)
    return true
  } catch (error) {
    attempt(() => disk.unlink(final))
    throw error
  }
}

export function syncFolder(path: string, disk: Disk, file: string): void {
  try {
    const handle = disk.openFolder(path)
    try {
      disk.sync(handle)
    } finally {
      disk.close(handle)
    }
  } catch (error) {
    if (NO_FOLDER_SYNC.has(faultCode(error))) return
    throw new WriteFailed(
      `the disk did not confirm ${file} (${faultCode(error)})`,
      'look whether it stands there whole before you type it again, and check the disk',
    )
  }
}

/** Removes what a killed run left behind: hidden, read by nobody, and old enough not to be in use. */
export function cleanUp(path: string, disk: Disk, now: number): void {
  attempt(() => {
    for (const name of disk.readdir(path)) {
      if (!TEMPORARY.test(name)) continue
      const standing = disk.standing(join(path, name))
      if (standing?.kind === 'file' && now - standing.changed > OLD_MS) disk.unlink(join(path, name))
    }
  })
}

/** Runs a cleanup that may fail without harm: a later run removes what is left. */
export function attempt(action: () => void): void {
  try {
    action()
  } catch {
    // Every reader ignores what is left.
  }
}

const WAYS_OUT: Record<string, string> = {
  ENOSPC: 'the disk is full: make room, then type it again',
  EDQUOT: 'the disk quota is used up: make room, then type it again',
  EACCES: 'you may not write there: check the permissions of the folder',
  EPERM: 'you may not write there: check the permissions of the folder',
  EROFS: 'the disk is read-only',
  EMFILE: 'too many files are open: close other programs, then try again',
}

/** Runs work on the disk. @throws WriteFailed naming the file where the disk refuses */
export function orFail<T>(file: string, work: () => T): T {
  try {
    return work()
  } catch (error) {
    throw failed(error, file)
  }
}

export function failed(error: unknown, file: string): WriteFailed {
  if (error instanceof WriteFailed) return error
  const code = faultCode(error)
  return new WriteFailed(
    `${file} could not be written (${code}); nothing of it was written`,
    WAYS_OUT[code] ?? 'check the disk, then try again',
  )
}

/** An entry could not be written; nothing in the ledger was changed. */
export class WriteFailed extends UserError {}

/** The only acceptable name is taken; nothing was written. */
export class NameTaken extends WriteFailed {}
