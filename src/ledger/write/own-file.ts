import { closeSync, lstatSync, openSync, readSync, realpathSync } from 'node:fs'
import { basename, dirname, join, resolve, sep } from 'node:path'
import { faultCode, realDisk } from '../read/disk.ts'
import { attempt, cleanUp, failed, temporaryName, WriteFailed, writeWhole } from './write.ts'

interface OwnFile {
  /** The folder that relative paths start from. */
  cwd: string
  /** As typed. */
  file: string
  text: string
  /** Text near the beginning of every file of this kind that rowbook writes. */
  mark: string
  /** Replace a file that rowbook didn't make. */
  force: boolean
}

const HEAD_BYTES = 4096
const RECORDS = new Set(['blocks', 'varieties', 'products', 'sprayers', 'seasons'])

/**
 * Writes a file that rowbook generates each time, like a page or a calendar: whole or not at all, replacing an
 * older one of its own, never through a link, never among the records of a ledger, and over another file only
 * with `force`.
 * @throws WriteFailed, and then nothing was changed.
 */
export function writeOwnFile({ cwd, file, text, mark, force }: OwnFile): void {
  const final = placeOutside(cwd, file)
  refuseOthers(final, { file, mark, force })
  cleanUp(dirname(final), realDisk, Date.now())
  const temporary = join(dirname(final), temporaryName())
  try {
    writeWhole(temporary, text, realDisk)
    realDisk.rename(temporary, final)
  } catch (error) {
    attempt(() => realDisk.unlink(temporary))
    throw failed(error, file)
  }
}

/**
 * The real path of a named file: outside the records of every ledger and git's own files, since a
 * page or a table there would be read as a record or run as a hook.
 * @throws WriteFailed
 */
export function placeOutside(cwd: string, file: string): string {
  const path = resolve(cwd, file)
  const final = join(folderOf(path, file), basename(path))
  if (/\.ya?ml$/i.test(final))
    throw new WriteFailed(`${file} would look like a record of a ledger`, 'choose another ending')
  if (final.split(sep).some((part) => part.toLowerCase() === '.git'))
    throw new WriteFailed(`${file} lies among git's own files`, 'choose a place outside of .git')
  if (isAmongRecords(final))
    throw new WriteFailed(`${file} lies among the records of the ledger`, 'choose a place outside of them')
  return final
}

function folderOf(path: string, file: string): string {
  try {
    return realpathSync(dirname(path))
  } catch (error) {
    throw new WriteFailed(
      `the folder of ${file} can't be used (${faultCode(error)})`,
      'make the folder first',
    )
  }
}

function isAmongRecords(path: string): boolean {
  for (let below = path; dirname(below) !== below; below = dirname(below)) {
    const isRecordsFolder = below !== path && RECORDS.has(basename(below).toLowerCase())
    if (isRecordsFolder && lstatSync(join(dirname(below), 'vineyard.yaml'), { throwIfNoEntry: false }))
      return true
  }
  return false
}

function refuseOthers(path: string, { file, mark, force }: Pick<OwnFile, 'file' | 'mark' | 'force'>): void {
  const standing = lstatSync(path, { throwIfNoEntry: false })
  if (!standing) return
  if (standing.isSymbolicLink())
    throw new WriteFailed(`${file} is a link, and rowbook writes through none`, 'name the file itself')
  if (!standing.isFile()) throw new WriteFailed(`${file} is no plain file`, 'choose another name')
  if (force || headOf(path).includes(mark)) return
  throw new WriteFailed(
    `${file} is there already and was not made by rowbook`,
    'choose another name, or replace it with --force',
  )
}

function headOf(path: string): string {
  try {
    const handle = openSync(path, 'r')
    try {
      const bytes = new Uint8Array(HEAD_BYTES)
      const read = readSync(handle, bytes, 0, HEAD_BYTES, 0)
      return new TextDecoder().decode(bytes.subarray(0, read))
    } finally {
      closeSync(handle)
    }
  } catch {
    // A file that can't be read may not be our own.
    return ''
  }
}
