import fs from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'
import { fault } from './faulty-disk.ts'

/** Calls that only read; a test says which of them the disk refuses, and where. */
type Looking = 'readdirSync' | 'openSync' | 'readSync' | 'lstatSync' | 'statSync' | 'realpathSync'

/**
 * Makes reads of the disk fail during some work, like a disk that is broken or without permission. chmod can't be used,
 * since it doesn't bind root.
 * @param refuses the error code, or null where the call succeeds
 */
export async function withRefusals<T>(
  refuses: (call: Looking, path: string) => string | null,
  work: () => Promise<T>,
): Promise<T> {
  const calls: Looking[] = ['readdirSync', 'openSync', 'readSync', 'lstatSync', 'statSync', 'realpathSync']
  const real = Object.fromEntries(calls.map((call) => [call, fs[call]]))
  const opened = new Map<number, string>()
  for (const call of calls) {
    const through = real[call] as (...args: unknown[]) => unknown
    const refusing = (...args: unknown[]) => {
      const path =
        typeof args[0] === 'number' ? (opened.get(args[0]) ?? '') : String(args[0]).replace(/\/$/, '')
      const code = refuses(call, path)
      if (code !== null) throw fault(code)
      const result = through(...args)
      if (call === 'openSync') opened.set(result as number, path)
      return result
    }
    Object.assign(fs, { [call]: Object.assign(refusing, through) })
  }
  syncBuiltinESMExports()
  try {
    return await work()
  } finally {
    Object.assign(fs, real)
    syncBuiltinESMExports()
  }
}

const NOBODY = 65534

/**
 * Does some work as a user who is bound by permissions: root isn't, so root does it as nobody. Until then the content
 * of the given folders belongs to nobody.
 */
export function boundByPermissions<T>(folders: readonly string[], work: () => T): T {
  if (process.geteuid?.() !== 0) return work()
  for (const folder of folders) {
    const below = fs.readdirSync(folder, { recursive: true, encoding: 'utf8' })
    for (const path of [folder, ...below.map((name) => `${folder}/${name}`)])
      fs.lchownSync(path, NOBODY, NOBODY)
  }
  process.seteuid!(NOBODY)
  try {
    return work()
  } finally {
    process.seteuid!(0)
  }
}
