import { closeSync, constants, fstatSync, openSync, readSync } from 'node:fs'
import { join } from 'node:path'
import { aboutFile, type Finding } from './finding.ts'

/** No file of a ledger comes near this; beyond it, reading would only take time and memory. */
export const LARGEST_FILE = 8 * 1024 * 1024

export type ReadResult = { text: string; finding?: undefined } | { text?: undefined; finding: Finding }

/**
 * Reads a text file of the ledger: a plain file, not a link or a device, in UTF-8.
 * @param root the ledger folder; @param file relative to it.
 */
export function readText(root: string, file: string, largest = LARGEST_FILE): ReadResult {
  const refuse = (name: string, message: string, help: string): ReadResult => ({
    finding: aboutFile(file, { name, message, help }),
  })
  let handle: number
  try {
    handle = openSync(placeOf(root, file), constants.O_RDONLY | constants.O_NOFOLLOW | constants.O_NONBLOCK)
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code
    if (code === 'ELOOP')
      return refuse(
        'not-a-plain-file',
        'this is a link, and rowbook follows none',
        'put the file itself here',
      )
    return refuse(
      'unreadable-file',
      `the file can't be read (${code ?? 'unknown fault'})`,
      'check its permissions',
    )
  }
  try {
    const stat = fstatSync(handle)
    if (!stat.isFile())
      return refuse('not-a-plain-file', 'this is not a plain file', 'take it out of the ledger')
    if (stat.size > largest) {
      return refuse('file-too-large', `the file is larger than ${largest / 1024 / 1024} MB`, 'split it')
    }
    return decode(readWhole(handle, stat.size), refuse)
  } catch (error) {
    return refuse(
      'unreadable-file',
      `the file can't be read (${(error as NodeJS.ErrnoException).code ?? 'unknown fault'})`,
      'check the disk',
    )
  } finally {
    closeSync(handle)
  }
}

/** Where a file or folder of the ledger stands. Node's join takes longer than reading: only ways up call for it. */
export const placeOf = (root: string, path: string): string =>
  path.includes('..') ? join(root, path) : `${root}/${path}`

/** Most files are small: one place for the bytes of them all, since making a new one takes longer than reading. */
const SMALL = 1 << 16
let small: Uint8Array | undefined

/** The bytes of a file, good until the next file is read. */
function readWhole(handle: number, size: number): Uint8Array {
  if (size <= SMALL) small ??= new Uint8Array(SMALL)
  const bytes = size <= SMALL ? small! : new Uint8Array(size)
  let filled = 0
  while (filled < size) {
    const got = readSync(handle, bytes, filled, size - filled, filled)
    if (got === 0) break
    filled += got
  }
  return bytes.subarray(0, filled)
}

const UTF8 = new TextDecoder('utf-8', { fatal: true })

/** Bytes as UTF-8 text, or refused. */
export function decode(
  bytes: Uint8Array,
  refuse: (name: string, message: string, help: string) => ReadResult,
): ReadResult {
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    return refuse('not-utf8', 'the file is in UTF-16', 'save it as UTF-8')
  }
  try {
    return { text: UTF8.decode(bytes) }
  } catch {
    return refuse('not-utf8', 'the file is not valid UTF-8', 'save it as UTF-8')
  }
}
