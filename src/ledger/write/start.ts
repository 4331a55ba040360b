import { type Disk, realDisk } from '../read/disk.ts'
import { allOrNone } from './new-files.ts'

/**
 * Writes the files of a new ledger, all or none. Nothing that stands is touched: where one of them is there
 * already, or a folder of it is a link, none is written.
 * @param shown the folder as typed.
 * @throws WriteFailed naming the file.
 */
export function layOut(
  folder: string,
  { shown, files }: { shown: string; files: Readonly<Record<string, string>> },
  disk: Disk = realDisk,
): void {
  allOrNone((made) => {
    made.makeRoot(folder, shown)
    for (const [file, text] of Object.entries(files)) made.begin({ root: folder, file, shown: file })(text)
  }, disk)
}
