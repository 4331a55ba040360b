import { type Disk, realDisk } from '../read/disk.ts'
import { readText } from '../read/read-file.ts'
import { hashOf, KEPT, keepCopy, remember } from './kept.ts'
import { whileLocked } from './lock.ts'
import { changedMeanwhile, makeFolder, replaceFile } from './write.ts'

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
