import { basename, dirname } from 'node:path'
import { newFile } from '../../ledger/write/new-files.ts'
import { placeOutside } from '../../ledger/write/own-file.ts'
import type { Call } from './call.ts'
import { uninterrupted } from './uninterrupted.ts'

/**
 * Writes an answer to the file that was named, or to stdout where that is `-`. A file that stands is kept.
 * @throws WriteFailed where the file is there already, can't be written, or would lie among the records of a ledger; then
 * nothing was written.
 */
export function writeOut(call: Call, file: string, text: string): void {
  if (file === '-') {
    call.env.out(text, 'data')
    return
  }
  const path = placeOutside(call.env.cwd, file)
  uninterrupted(() => newFile({ root: dirname(path), file: basename(path), shown: file }, text))
}
