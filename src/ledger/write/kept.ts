import { createHash } from 'node:crypto'
import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import * as z from 'zod'
import { type Disk, faultCode, realDisk } from '../read/disk.ts'
import { readText } from '../read/read-file.ts'
import { whileLocked } from './lock.ts'
import { createFiles } from './new-files.ts'
import { attempt, changedMeanwhile, makeFolder, replaceFile, standsAlready } from './write.ts'

/** The folder for copies of changed or undone files and the record of the last entry written; ignored by git. */
export const KEPT = '.rowbook/kept'
const LAST = `${KEPT}/last.json`

const FOLDERS = 'seasons/\\d{4}/[a-z]+|blocks|varieties|products|sprayers'
const FOLDER_SHAPE = new RegExp(`^(?:${FOLDERS})$`)
const FILE_SHAPE = new RegExp(`^(?:seasons/\\d{4}|${FOLDERS})/[^/\\\\\\0]+\\.ya?ml$`)
const entryFile = z.string().regex(FILE_SHAPE)
const stationFile = z.string().regex(/^seasons\/\d{4}\/weather\.csv$/)
const keptFile = z.string().regex(/^\.rowbook\/kept\/[\w-]+\.(?:yaml|csv)$/)
const hash = z.string().regex(/^[0-9a-f]{64}$/)

/** Longest file name on common file systems. */
const LONGEST_NAME = 255

/** Untrusted, like everything in a ledger: no path in it may lead outside. */
const LAST_WRITTEN = z.discriminatedUnion('did', [
  z.strictObject({
    did: z.literal('new'),
    files: z.array(
      z.strictObject({
        folder: z.string().regex(FOLDER_SHAPE),
        stem: z
          .string()
          .max(LONGEST_NAME)
          .regex(/^[^/\\\0]+$/),
        hash,
        /** Files of that name that existed before. */
        before: z.array(z.string()),
      }),
    ),
  }),
  z.strictObject({ did: z.literal('amended'), file: entryFile, before: hash, after: hash, kept: keptFile }),
  z.strictObject({
    did: z.literal('imported'),
    files: z.array(
      z.strictObject({
        file: stationFile,
        /** Null where it was new. */
        before: hash.nullable(),
        after: hash,
        /** How much of it stood before; where rows of it were filled, a copy is kept. */
        length: z.number(),
        kept: keptFile.nullable(),
      }),
    ),
  }),
  z.strictObject({
    did: z.literal('undone'),
    files: z.array(z.strictObject({ file: entryFile.or(stationFile), kept: keptFile })),
  }),
])

/** What the program wrote last in a ledger. */
export type LastWritten = z.output<typeof LAST_WRITTEN>

export const hashOf = (text: string): string => createHash('sha256').update(text).digest('hex')

/** What was written last; null where unknown. */
export function lastWritten(root: string): LastWritten | null {
  const { text } = readText(root, LAST)
  if (text === undefined) return null
  try {
    return LAST_WRITTEN.safeParse(JSON.parse(text)).data ?? null
  } catch {
    return null
  }
}

/**
 * Records what is about to be written: if the program is killed right after, the record names a file that doesn't
 * exist.
 */
export function remember(root: string, last: LastWritten, disk: Disk = realDisk): void {
  makeKept(root, disk)
  replaceFile(root, LAST, `${JSON.stringify(last)}\n`, { disk })
}

/**
 * The same for new entries, before they are written.
 * @returns false where it couldn't be recorded: then `--undo` finds nothing, rather than an older entry
 */
export function rememberNew(
  root: string,
  files: readonly { folder: string; stem: string; text: string }[],
): boolean {
  return rememberWhat(root, () => {
    const known = files.map(({ folder, stem, text }) => ({
      folder,
      stem,
      hash: hashOf(text),
      before: namesLike(root, folder, stem),
    }))
    return { did: 'new', files: known }
  })
}

/** The same for an import of weather: of each season's file its text before, null where it is new, and after. */
export function rememberImport(
  root: string,
  seasons: readonly { file: string; stood: string | null; text: string }[],
): void {
  const changing = seasons.filter(({ stood, text }) => text !== stood)
  if (changing.length === 0) return
  rememberWhat(root, () => {
    const files = changing.map(({ file, stood, text }) => ({
      file,
      before: stood === null ? null : hashOf(stood),
      after: hashOf(text),
      length: stood?.length ?? 0,
      kept: stood === null || text.startsWith(stood) ? null : keepCopy(root, file, stood),
    }))
    return { did: 'imported', files }
  })
}

function rememberWhat(root: string, what: () => LastWritten): boolean {
  try {
    remember(root, what())
    return true
  } catch {
    attempt(() => realDisk.unlink(join(root, LAST)))
    return false
  }
}

/** Keeps a copy of a file's text under the file's name. @returns the copy, relative to the ledger */
export function keepCopy(root: string, file: string, text: string, disk: Disk = realDisk): string {
  makeKept(root, disk)
  const end = file.endsWith('.csv') ? '.csv' : '.yaml'
  const stem = file
    .replace(/^seasons\//, '')
    .replace(/\.(?:ya?ml|csv)$/, '')
    .replace(/\W+/g, '-')
  return createFiles([{ root, folder: KEPT, stem, text, end }], disk)[0]!
}

/**
 * Replaces a file's text in one step, after keeping a copy of the old text.
 * @returns the copy, relative to the ledger
 * @throws WriteFailed where the file has changed since it was read, or the disk refuses; the file is then unchanged
 */
export function amendFile(
  root: string,
  { file, before, after }: { file: string; before: string; after: string },
  disk: Disk = realDisk,
): string {
  const isAsSeen = () => readText(root, file).text === before
  const folder = makeFolder(root, KEPT, disk)
  return whileLocked(
    folder,
    'what it keeps',
    () => {
      // Checked before this change is remembered, so that another run's amendment can still be undone.
      if (!isAsSeen()) throw changedMeanwhile(file)
      const kept = keepCopy(root, file, before, disk)
      remember(root, { did: 'amended', file, before: hashOf(before), after: hashOf(after), kept }, disk)
      replaceFile(root, file, after, { disk, isAsSeen })
      return kept
    },
    disk,
  )
}

function makeKept(root: string, disk: Disk): void {
  makeFolder(root, KEPT, disk)
  if (!standsAlready(root, `${KEPT}/.gitignore`, disk))
    replaceFile(root, `${KEPT}/.gitignore`, '*\n', { disk })
}

/** The files that an entry may have been written to: those of its name that were not there before. */
export const mayBeNew = (
  root: string,
  one: { folder: string; stem: string; before: readonly string[] },
): string[] =>
  namesLike(root, one.folder, one.stem)
    .filter((name) => !one.before.includes(name))
    .map((name) => `${one.folder}/${name}`)

/** The files in a folder with this stem, also those with a number after it. */
function namesLike(root: string, folder: string, stem: string): string[] {
  const numberOf = (name: string) => {
    const rest = name.startsWith(stem) ? /^(?:-(\d+))?\.yaml$/.exec(name.slice(stem.length)) : null
    return rest && Number(rest[1] ?? 1)
  }
  return namesIn(join(root, folder))
    .filter((name) => numberOf(name) !== null)
    .sort((a, b) => numberOf(a)! - numberOf(b)!)
}

function namesIn(path: string): string[] {
  try {
    return readdirSync(path)
  } catch (error) {
    if (faultCode(error) === 'ENOENT') return []
    throw error
  }
}
