import { basename, dirname } from 'node:path'
import { newFile } from '../../ledger/write/new-files.ts'
import { placeOutside } from '../../ledger/write/own-file.ts'
import type { Call } from './call.ts'
import { uninterrupted } from './uninterrupted.ts'

/**
 * Writes an answer to the file named, or to stdout where that is `-`. An existing file is kept.
 * @throws WriteFailed where the file exists, can't be written, or would be among the records of a ledger; then nothing
 * was written.
 */
export function writeOut(call: Call, file: string, text: string): void {
  if (file === '-') {
    call.env.out(text, 'data')
    return
  }
  const path = placeOutside(call.env.cwd, file)
  uninterrupted(() => newFile({ root: dirname(path), file: basename(path), shown: file }, text))
}
