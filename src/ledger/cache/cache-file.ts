import { createHash } from 'node:crypto'
import {
  closeSync,
  constants,
  fstatSync,
  lstatSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  type Stats,
  writeFileSync,
} from 'node:fs'
import { dirname, isAbsolute, join } from 'node:path'

/**
 * The program's folder in the user's cache, created if missing.
 * @returns its path, or null where none is private to its owner: then nothing is cached, since
 * cached records decide what the program reports.
 * @source XDG Base Directory Specification 0.8: a path that isn't absolute is ignored, and folders are made 0700.
 */
export function cacheFolder(
  { XDG_CACHE_HOME, LOCALAPPDATA, HOME }: Readonly<Record<string, string | undefined>>,
  platform: NodeJS.Platform = process.platform,
): string | null {
  const usual = platform === 'win32' ? LOCALAPPDATA : HOME && join(HOME, '.cache')
  const base = [XDG_CACHE_HOME, usual].find((path) => path && isAbsolute(path))
  if (!base) return null
  const folder = join(base, 'rowbook')
  try {
    makeFolder(folder)
    const stat = lstatSync(folder)
    return stat.isDirectory() && isOwn(stat) ? folder : null
  } catch {
    return null
  }
}

/** Creates a folder and its missing parents; also returns where a file system refuses all folders. */
function makeFolder(path: string): void {
  if (lstatSync(path, { throwIfNoEntry: false })) return
  if (dirname(path) !== path) makeFolder(dirname(path))
  mkdirSync(path, { mode: 0o700 })
}

/** Whether it is the caller's and nobody else may read or write it; on Windows the cache folder is private already. */
const isOwn = ({ uid, mode }: Stats) =>
  process.getuid === undefined || (uid === process.getuid() && (mode & 0o077) === 0)

/** The content of a cache file with this label, or null where it is missing, damaged or not the caller's own. */
export function readCacheFile(path: string, label: string): Buffer | null {
  let file: number | undefined
  try {
    file = openSync(path, constants.O_RDONLY | constants.O_NOFOLLOW)
    const stat = fstatSync(file)
    if (!stat.isFile() || !isOwn(stat)) return null
    const bytes = readFileSync(file)
    const head = Buffer.from(`${label}\n`)
    const start = head.length + HASH_LENGTH
    if (!bytes.subarray(0, head.length).equals(head)) return null
    const body = bytes.subarray(start)
    return bytes.toString('latin1', head.length, start) === hashOf(body) ? body : null
  } catch {
    return null
  } finally {
    if (file !== undefined) closeSync(file)
  }
}

/** Replaces a cache file by renaming, so that processes may share it. A failed write is not an error. */
export function writeCacheFile(path: string, label: string, body: Buffer): void {
  const unfinished = `${path}.${process.pid}`
  try {
    writeFileSync(unfinished, Buffer.concat([Buffer.from(`${label}\n${hashOf(body)}`), body]), {
      flag: 'wx',
      mode: 0o600,
    })
    renameSync(unfinished, path)
  } catch {
    try {
      rmSync(unfinished)
    } catch {
      // It may not exist.
    }
  }
}

const HASH_LENGTH = 64

/** SHA-256 in hexadecimal digits. */
export function hashOf(content: Buffer | string): string {
  return createHash('sha256').update(content).digest('hex')
}
