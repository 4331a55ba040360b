import { closeSync, openSync, writeFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { type Call, UsageError } from './call.ts'

/**
 * Writes an answer to the file that was named, or to stdout where that is `-`. A file that stands is kept.
 * @throws UsageError where the file is there already or can't be written.
 */
export function writeOut(call: Call, file: string, text: string): void {
  if (file === '-') {
    call.env.out(text, 'data')
    return
  }
  const path = resolve(call.env.cwd, file)
  try {
    const handle = openSync(path, 'wx')
    try {
      writeFileSync(handle, text)
    } finally {
      closeSync(handle)
    }
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code
    if (code === 'EEXIST')
      throw new UsageError(`${file} is there already; nothing was written`, 'name another file, or delete it')
    throw new UsageError(
      `${file} could not be written (${code ?? 'unknown fault'})`,
      'check its folder and disk',
    )
  }
}
