import fs from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'
import { fault } from './faulty-disk.ts'

/** Calls that only read; a test says which of them the disk refuses, and where. */
type Looking = 'readdirSync' | 'openSync' | 'readSync' | 'lstatSync' | 'statSync' | 'realpathSync'

/**
 * Lets the disk of this process refuse to be read while some work is done, as one does on which permission is
 * lacking or that breaks: chmod doesn't bind whoever runs as root.
 * @param refuses the code of the fault, or null where the call goes through.
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
