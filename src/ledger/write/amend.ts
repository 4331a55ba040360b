import { type Disk, realDisk } from '../read/disk.ts'
import { readText } from '../read/read-file.ts'
import { hashOf, KEPT, keepCopy, remember } from './kept.ts'
import { whileLocked } from './lock.ts'
import { changedMeanwhile, makeFolder, replaceFile } from './write.ts'

/**
 * Writes a new text instead of a file's old one, in one step, after a copy of the old one is kept.
 * @returns the copy, relative to the ledger
 * @throws WriteFailed where the file is no longer as it was seen, or the disk refuses; it then stands as it was
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
      // Before anything is noted of this change: what another run amended meanwhile can still be taken back.
      if (!isAsSeen()) throw changedMeanwhile(file)
      const kept = keepCopy(root, file, before, disk)
      remember(root, { did: 'amended', file, before: hashOf(before), after: hashOf(after), kept }, disk)
      replaceFile(root, file, after, { disk, isAsSeen })
      return kept
    },
    disk,
  )
}
