import { basename, dirname, resolve } from 'node:path'
import { type Decoder, decode, type ReadResult, readText } from '../read/read-file.ts'

/** Reads a text file outside the ledger, named as typed; in UTF-8, or decoded by `asText`. */
export function readOutside(
  cwd: string,
  file: string,
  how: { asText?: Decoder; most?: number } = {},
): ReadResult {
  const path = resolve(cwd, file)
  const read = readText(dirname(path), basename(path), how)
  return read.finding ? { finding: { ...read.finding, file } } : read
}

/** Most bytes of an export: years of five-minute rows with many columns. */
const LARGEST_EXPORT = 64 * 1024 * 1024

/**
 * Most characters of one line: three hundred columns take half. A line of a hundred thousand cells would take minutes.
 */
const LONGEST_LINE = 10_000

/** Reads another program's file: UTF-8, UTF-16, or else the Windows-1252 of older programs. */
export const readExport = (cwd: string, file: string): ReadResult =>
  readOutside(cwd, file, { asText: asExport, most: LARGEST_EXPORT })

const asExport: Decoder = (bytes, refuse) => {
  const read = decoded(bytes, refuse)
  if (read.finding || !hasLongerLine(read.text)) return read
  const message = `a line of the file has more than ${LONGEST_LINE} letters, as no export has`
  return refuse('text-too-long', message, 'look whether it is the right file, and export it again')
}

function decoded(bytes: Uint8Array, refuse: Parameters<Decoder>[1]): ReadResult {
  const wide = wideForm(bytes)
  if (wide) return { text: new TextDecoder(wide).decode(bytes) }
  const plain = decode(bytes, refuse)
  return plain.finding && !bytes.includes(0) ? { text: new TextDecoder('windows-1252').decode(bytes) } : plain
}

function hasLongerLine(text: string): boolean {
  for (let from = 0; from + LONGEST_LINE < text.length; ) {
    const end = text.lastIndexOf('\n', from + LONGEST_LINE)
    if (end < from) return true
    from = end + 1
  }
  return false
}

/** Recognises UTF-16 by its byte-order mark, or else by the zero in every other byte of plain text. */
function wideForm(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | null {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le'
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be'
  const first = bytes.subarray(0, 64)
  const zeros = (from: number) => first.filter((byte, at) => at % 2 === from && byte === 0).length
  if (first.length < 8) return null
  if (zeros(1) > first.length / 3 && zeros(0) === 0) return 'utf-16le'
  return zeros(0) > first.length / 3 && zeros(1) === 0 ? 'utf-16be' : null
}
