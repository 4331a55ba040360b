import { type Disk, realDisk } from '../../src/ledger/read/disk.ts'

/** One call to the disk: the operation and its file. */
export interface Operation {
  call: keyof Disk
  path: string
}

/** A fault as the system gives it. */
export const fault = (code: string): Error => Object.assign(new Error(`${code}: injected`), { code })

/** The calls that change something or ask for space; calls that only read are not counted. */
const COUNTED: readonly (keyof Disk)[] = [
  'create',
  'openFolder',
  'write',
  'sync',
  'close',
  'link',
  'rename',
  'unlink',
  'mkdir',
]

/**
 * A disk that records every call, and asks `before` each one what should happen: an error is thrown, a number limits
 * the bytes that a write takes.
 */
export function watchedDisk(before: (operation: Operation, index: number) => Error | number | undefined): {
  disk: Disk
  operations: Operation[]
} {
  const operations: Operation[] = []
  const names = new Map<number, string>()
  const disk: Record<string, unknown> = { ...realDisk }
  for (const call of COUNTED) {
    disk[call] = (...args: unknown[]) => {
      const path = typeof args[0] === 'number' ? (names.get(args[0]) ?? '') : String(args[0])
      const operation = { call, path }
      const told = before(operation, operations.length)
      operations.push(operation)
      if (told instanceof Error) {
        // A descriptor is closed even where closing it fails.
        if (call === 'close') realDisk.close(args[0] as number)
        throw told
      }
      if (call === 'write' && typeof told === 'number') {
        const [handle, bytes, from] = args as [number, Uint8Array, number]
        return realDisk.write(handle, bytes.subarray(0, Math.min(bytes.length, from + told)), from)
      }
      const result = (realDisk[call] as (...all: unknown[]) => unknown)(...args)
      if (call === 'create' || call === 'openFolder') names.set(result as number, path)
      return result
    }
  }
  return { disk: disk as unknown as Disk, operations }
}
