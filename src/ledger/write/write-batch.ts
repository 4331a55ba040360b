import { join } from 'node:path'
import { type Disk, realDisk } from '../read/disk.ts'
import {
  attempt,
  failed,
  MOST_TRIES,
  makeFolder,
  type NewFile,
  syncFolder,
  takeName,
  temporaryName,
  writeWhole,
} from './write.ts'
import { WriteFailed } from './write-failed.ts'

interface Staged extends NewFile {
  path: string
  temporary: string
}

/**
 * Creates several new files in a ledger, all or none: first all are written and synced under hidden names, so that a
 * full disk is met before anything shows; then each takes its own name. Where one can't, those that have theirs are
 * taken away again. Only a crash between two names can leave some of them.
 * @returns the files, relative to the ledger, in the order given.
 * @throws WriteFailed, and then none of them stands.
 */
export function createFiles(files: readonly NewFile[], disk: Disk = realDisk): string[] {
  const staged: Staged[] = []
  const made: { path: string; file: string }[] = []
  let at = ''
  try {
    for (const file of files) {
      at = `${file.folder}/${file.stem}.yaml`
      const path = makeFolder(file.root, file.folder, disk)
      const temporary = join(path, temporaryName())
      staged.push({ ...file, path, temporary })
      writeWhole(temporary, file.text, disk)
    }
    for (const file of staged) {
      at = `${file.folder}/${file.stem}.yaml`
      const name = takeFreeName(file, disk)
      made.push({ path: join(file.path, name), file: `${file.folder}/${name}` })
    }
    for (const folder of new Set(staged.map(({ path }) => path))) syncFolder(folder, disk, at)
  } catch (error) {
    for (const { path } of made) attempt(() => disk.unlink(path))
    throw failed(error, at)
  } finally {
    for (const { temporary } of staged) attempt(() => disk.unlink(temporary))
  }
  return made.map(({ file }) => file)
}

function takeFreeName({ path, folder, stem, temporary }: Staged, disk: Disk): string {
  for (let number = 1; number <= MOST_TRIES; number += 1) {
    const name = `${stem}${number === 1 ? '' : `-${number}`}.yaml`
    if (takeName(temporary, join(path, name), disk)) return name
  }
  throw new WriteFailed(
    `${folder} already holds ${MOST_TRIES} files named ${stem}`,
    'put some of them into one file',
  )
}
