import { join } from 'node:path'
import { type Disk, realDisk } from '../read/disk.ts'
import {
  attempt,
  cleanUp,
  failed,
  makeFolder,
  NameTaken,
  syncFolder,
  takeName,
  temporaryName,
  WriteFailed,
  writeWhole,
} from './write.ts'

const MOST_TRIES = 1000

interface NewFile {
  root: string
  /** Relative to the ledger, with forward slashes; created if missing. */
  folder: string
  /** File name without `.yaml`; where it is taken, `-2`, `-3` and so on follow it. */
  stem: string
  text: string
  /** The end of its name, where it isn't `.yaml`. */
  end?: string
  /** Only under its own name: if that is taken, nothing is written. */
  only?: boolean
}

interface Staged extends NewFile {
  path: string
  temporary: string
}

/**
 * Creates new files in a ledger, all or none: first all are written and synced under hidden names in their folders, so
 * that a full disk is noticed before anything shows; then each is linked to its own name, which fails where another
 * writer took that name first. If one fails, those already linked are removed again. Only a crash between two names can
 * leave some of them. Where the file system has no hard links a name is taken by an empty file, still exclusively,
 * which the whole one replaces at once; only a crash in that moment can leave it empty.
 * @returns the files, relative to the ledger, in the order given.
 * @throws NameTaken where only one name was wanted and it is taken; WriteFailed where the disk refuses, or where a
 *   folder on the path is a link or not a folder; and then none of them remains.
 */
export function createFiles(files: readonly NewFile[], disk: Disk = realDisk): string[] {
  const staged: Staged[] = []
  const made: { path: string; file: string }[] = []
  let at = ''
  try {
    for (const file of files) {
      at = `${file.folder}/${file.stem}${file.end ?? '.yaml'}`
      const path = makeFolder(file.root, file.folder, disk)
      if (!staged.some((one) => one.path === path)) cleanUp(path, disk, Date.now())
      const temporary = join(path, temporaryName())
      staged.push({ ...file, path, temporary })
      writeWhole(temporary, file.text, disk)
    }
    for (const file of staged) {
      at = `${file.folder}/${file.stem}${file.end ?? '.yaml'}`
      const name = takeFreeName(file, disk)
      at = `${file.folder}/${name}`
      made.push({ path: join(file.path, name), file: at })
    }
    for (const { temporary } of staged) attempt(() => disk.unlink(temporary))
    for (const folder of new Set(staged.map(({ path }) => path))) syncFolder(folder, disk, at)
  } catch (error) {
    for (const { path } of made) attempt(() => disk.unlink(path))
    for (const { temporary } of staged) attempt(() => disk.unlink(temporary))
    throw failed(error, at)
  }
  return made.map(({ file }) => file)
}

function takeFreeName(
  { path, folder, stem, end = '.yaml', temporary, only = false }: Staged,
  disk: Disk,
): string {
  for (let number = 1; number <= (only ? 1 : MOST_TRIES); number += 1) {
    const name = `${stem}${number === 1 ? '' : `-${number}`}${end}`
    if (takeName(temporary, join(path, name), disk)) return name
  }
  if (only) throw new NameTaken(`${folder}/${stem}${end} is there already`, 'choose another name')
  throw new WriteFailed(
    `${folder} already holds ${MOST_TRIES} files named ${stem}`,
    'put some of them into one file',
  )
}
