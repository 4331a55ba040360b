import { closeSync, constants, fstatSync, openSync, readSync } from 'node:fs'
import { join } from 'node:path'
import { diskFault } from './cannot-read.ts'
import { faultCode } from './disk.ts'
import { aboutFile, type Finding } from './finding.ts'

/** Far larger than any season's weather file; beyond it, reading would only cost time and memory. */
export const LARGEST_FILE = 8 * 1024 * 1024
/** The same for records, which may need the full parser: a season of three entries a day takes a fifth of it. */
const LARGEST_YAML = 1024 * 1024

/** Most bytes of a ledger file, by its name. */
export const largestOf = (file: string): number => (/\.ya?ml$/i.test(file) ? LARGEST_YAML : LARGEST_FILE)

/** The message for a larger file. */
export const tooLarge = (file: string, most = largestOf(file)) =>
  ['file-too-large', `the file is larger than ${most / 1024 / 1024} MB`, 'split it'] as const

/** Faults of what is no file: a name, a message and a help. */
export const LINK = [
  'not-a-plain-file',
  'this is a link, and rowbook follows none',
  'put the file itself here',
] as const
export const NOT_PLAIN = [
  'not-a-plain-file',
  'this is not a plain file',
  'put a plain file in its place',
] as const

export type ReadResult = { text: string; finding?: undefined } | { text?: undefined; finding: Finding }

/**
 * Reads a text file of the ledger: a plain file, not a link or a device, in UTF-8.
 * @param root the ledger folder; @param file relative to it
 * @param how `asText` decodes its bytes, `most` is the largest size in bytes.
 */
export function readText(
  root: string,
  file: string,
  {
    asText = decode,
    most = largestOf(file),
  }: { asText?: Decoder | undefined; most?: number | undefined } = {},
): ReadResult {
  const refuse = (name: string, message: string, help: string): ReadResult => ({
    finding: aboutFile(file, { name, message, help }),
  })
  const unreadable = (error: unknown) => {
    const { what, help } = diskFault(error)
    return refuse('unreadable-file', `the file can't be read: ${what}`, help)
  }
  let handle: number
  try {
    handle = openSync(placeOf(root, file), constants.O_RDONLY | constants.O_NOFOLLOW | constants.O_NONBLOCK)
  } catch (error) {
    return faultCode(error) === 'ELOOP' ? refuse(...LINK) : unreadable(error)
  }
  try {
    const stat = fstatSync(handle)
    if (!stat.isFile()) return refuse(...NOT_PLAIN)
    if (stat.size > most) return refuse(...tooLarge(file, most))
    return asText(readWhole(handle, stat.size), refuse)
  } catch (error) {
    return unreadable(error)
  } finally {
    closeSync(handle)
  }
}

/** The path of a file or folder of the ledger. Node's join takes longer than reading, so it is used only for `..`. */
export const placeOf = (root: string, path: string): string =>
  path.includes('..') ? join(root, path) : `${root}/${path}`

function readWhole(handle: number, size: number): Uint8Array {
  const bytes = Buffer.allocUnsafe(size)
  let filled = 0
  while (filled < size) {
    const got = readSync(handle, bytes, filled, size - filled, filled)
    if (got === 0) break
    filled += got
  }
  return bytes.subarray(0, filled)
}

const UTF8 = new TextDecoder('utf-8', { fatal: true })

type Refuse = (name: string, message: string, help: string) => ReadResult
export type Decoder = (bytes: Uint8Array, refuse: Refuse) => ReadResult

/** Bytes as UTF-8 text, or refused. */
export function decode(bytes: Uint8Array, refuse: Refuse): ReadResult {
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    return refuse('not-utf8', 'the file is in UTF-16', 'save it as UTF-8')
  }
  try {
    return { text: UTF8.decode(bytes) }
  } catch {
    return refuse('not-utf8', 'the file is not valid UTF-8', 'save it as UTF-8')
  }
}
