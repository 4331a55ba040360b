import {
  closeSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writevSync,
} from 'node:fs'
import { dirname, join } from 'node:path'

/**
 * What a file of the cache holds behind this head, or null where there is none that is sound. Its length stands
 * before the content, and the content twice: both must agree, so that damage and a missing end are seen.
 */
export function readKept(place: string, head: Buffer): Buffer | null {
  try {
    const bytes = readFileSync(place)
    if (!bytes.subarray(0, head.length).equals(head)) return null
    const start = bytes.indexOf('\n', head.length) + 1
    const length = Number(bytes.toString('latin1', head.length, start))
    const body = bytes.subarray(start, start + length)
    const isSound =
      length > 0 && bytes.length === start + 2 * length && body.equals(bytes.subarray(start + length))
    return isSound ? body : null
  } catch {
    return null
  }
}

/** Replaces a file of the cache by renaming, so that two processes may share it. That it can't be written is no fault. */
export function writeKept(place: string, head: Buffer, content: string): void {
  const unfinished = `${place}.${process.pid}`
  try {
    mkdirSync(dirname(place), { recursive: true })
    const body = Buffer.from(content)
    const file = openSync(unfinished, 'wx', 0o600)
    try {
      const parts = [head, Buffer.from(`${body.length}\n`), body, body]
      const all = parts.reduce((sum, { length }) => sum + length, 0)
      if (writevSync(file, parts) < all) throw new Error('the disk took only a part')
    } finally {
      closeSync(file)
    }
    renameSync(unfinished, place)
  } catch {
    remove(unfinished)
  }
}

function remove(file: string): void {
  try {
    rmSync(file)
  } catch {
    // It may never have come to be.
  }
}

/** The program's folder in the user's cache, or null where no place for caches is known. */
export function cacheFolder(
  variables: Readonly<Record<string, string | undefined>>,
  platform = process.platform,
): string | null {
  const { XDG_CACHE_HOME, LOCALAPPDATA, HOME } = variables
  const base =
    XDG_CACHE_HOME || (platform === 'win32' ? LOCALAPPDATA : HOME && join(HOME, '.cache')) || undefined
  return base === undefined ? null : join(base, 'rowbook', 'ledgers')
}

/**
 * Where the cache keeps something about a ledger. Two ledgers with one name only take turns, since what the
 * file is about belongs into its head.
 */
export const keptPlace = (folder: string, about: string, name: string): string =>
  join(folder, `${hashOf(about).toString(16).padStart(8, '0')}-${name}`)

/**
 * The same where there are only so many such files: two places, so that two things that are often asked for don't
 * drive each other out because their names come to one number.
 */
export function keptPlaces(folder: string, about: string, name: string, places: number): string[] {
  const hash = hashOf(about)
  // Multiplied so, the upper digits depend on all of the lower ones, which likeness leaves alike.
  const mixed = Math.imul(hash, 0x9e3779b1) >>> 0
  const numbers = [hash % places, Math.floor((mixed / 2 ** 32) * places)]
  return numbers.map((number) => join(folder, `${number.toString(16)}-${name}`))
}

/** Which of the places to write to: the one that holds something sound behind this head, else the oldest. */
export function placeToTake(places: readonly string[], head: Buffer): string {
  const own = places.find((place) => readKept(place, head))
  return own ?? places.reduce((oldest, place) => (writtenAt(place) < writtenAt(oldest) ? place : oldest))
}

function writtenAt(place: string): number {
  try {
    return statSync(place).mtimeMs
  } catch {
    return 0
  }
}

function hashOf(about: string): number {
  let hash = 0
  for (let index = 0; index < about.length; index += 1)
    hash = (Math.imul(hash, 31) + about.charCodeAt(index)) | 0
  return hash >>> 0
}
