import { randomBytes } from 'node:crypto'
import {
  closeSync,
  fsyncSync,
  lstatSync,
  openSync,
  readSync,
  realpathSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { basename, dirname, join, relative, resolve, sep } from 'node:path'

/** A file that was asked for could not be written; whatever stood there stands as it was. */
export class NotWritten extends Error {
  constructor(
    message: string,
    readonly help: string,
  ) {
    super(message)
  }
}

interface OwnFile {
  /** The folder that a relative path is meant from. */
  cwd: string
  /** As typed. */
  file: string
  text: string
  /** What stands near the beginning of every file of this kind that rowbook makes. */
  mark: string
  /** Replace a file that rowbook didn't make. */
  force: boolean
  /** The ledger, whose records are never written over. */
  root?: string | undefined
}

const HEAD_BYTES = 4096
const RECORDS = new Set(['blocks', 'varieties', 'products', 'sprayers', 'seasons'])

/**
 * Writes a file that rowbook makes anew each time, like a page or a calendar: whole or not at all, in place of an
 * older one of its own, never through a link, never among the records of a ledger, and over somebody's file only
 * where that is asked for.
 * @throws NotWritten, and then nothing was changed.
 */
export function writeOwnFile({ cwd, file, text, mark, force, root }: OwnFile): void {
  const path = resolve(cwd, file)
  const folder = folderOf(path, file)
  const final = join(folder, basename(path))
  refuseRecords(final, file, root)
  refuseOthers(final, { file, mark, force })
  const temporary = join(folder, `.rowbook-${process.pid}-${randomBytes(6).toString('hex')}.tmp`)
  try {
    const handle = openSync(temporary, 'wx', 0o666)
    try {
      writeFileSync(handle, text)
      fsyncSync(handle)
    } finally {
      closeSync(handle)
    }
    renameSync(temporary, final)
  } catch (error) {
    rmSync(temporary, { force: true })
    throw new NotWritten(`${file} could not be written (${codeOf(error)})`, 'check the folder and the disk')
  }
}

function folderOf(path: string, file: string): string {
  try {
    return realpathSync(dirname(path))
  } catch (error) {
    throw new NotWritten(`the folder of ${file} can't be used (${codeOf(error)})`, 'make the folder first')
  }
}

function refuseRecords(path: string, file: string, root: string | undefined): void {
  if (/\.ya?ml$/i.test(path))
    throw new NotWritten(`${file} would look like a record of a ledger`, 'choose another ending')
  const inside = root === undefined ? [] : relative(realpathSync(root), path).split(sep)
  if (RECORDS.has(inside[0] ?? ''))
    throw new NotWritten(`${file} lies among the records of the ledger`, 'choose a place outside of them')
}

function refuseOthers(path: string, { file, mark, force }: Pick<OwnFile, 'file' | 'mark' | 'force'>): void {
  const standing = lstatSync(path, { throwIfNoEntry: false })
  if (!standing) return
  if (standing.isSymbolicLink())
    throw new NotWritten(`${file} is a link, and rowbook writes through none`, 'name the file itself')
  if (!standing.isFile()) throw new NotWritten(`${file} is no plain file`, 'choose another name')
  if (force || headOf(path).includes(mark)) return
  throw new NotWritten(
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
    // A file that can't be read isn't known to be our own.
    return ''
  }
}

const codeOf = (error: unknown) => (error as NodeJS.ErrnoException | null)?.code ?? 'unknown fault'
