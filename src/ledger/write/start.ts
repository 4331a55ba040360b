import { closeSync, fsyncSync, lstatSync, mkdirSync, openSync, writeSync } from 'node:fs'
import { dirname, join } from 'node:path'

/** A file of a new ledger can't be laid out, because something stands where it should go. */
class InTheWay extends Error {
  readonly help = 'choose an empty folder, or move what stands there'
}

/**
 * Writes the files of a new ledger. Nothing that stands is touched: where one of them is there already,
 * none is written.
 * @throws InTheWay naming the first file that stands in the way.
 */
export function layOut(folder: string, files: Readonly<Record<string, string>>): void {
  for (const file of Object.keys(files)) {
    if (isThere(join(folder, file))) throw new InTheWay(`${file} is there already; nothing was written`)
  }
  for (const [file, text] of Object.entries(files)) {
    const path = join(folder, file)
    mkdirSync(dirname(path), { recursive: true })
    const handle = openSync(path, 'wx')
    try {
      const bytes = Buffer.from(text, 'utf8')
      for (let done = 0; done < bytes.length; ) done += writeSync(handle, bytes, done)
      fsyncSync(handle)
    } finally {
      closeSync(handle)
    }
  }
}

function isThere(path: string): boolean {
  try {
    lstatSync(path)
    return true
  } catch {
    return false
  }
}
