import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'

/**
 * What a file of the cache holds behind this head, or null where there is none that is sound. The content
 * stands in it twice and must agree, so that damage is seen.
 */
export function readKept(place: string, head: Buffer): Buffer | null {
  try {
    const bytes = readFileSync(place)
    const half = (bytes.length - head.length) / 2
    const body = bytes.subarray(head.length, head.length + half)
    const isSound =
      bytes.subarray(0, head.length).equals(head) && body.equals(bytes.subarray(head.length + half))
    return isSound ? body : null
  } catch {
    return null
  }
}

/** Replaces a file of the cache by renaming, so that two processes may share it. That it can't be written is no fault. */
export function writeKept(place: string, head: Buffer, content: string): void {
  const unfinished = `${place}.${process.pid}`
  try {
    mkdirSync(dirname(place), { recursive: true })
    const body = Buffer.from(content)
    writeFileSync(unfinished, Buffer.concat([head, body, body]), { flag: 'wx', mode: 0o600 })
    renameSync(unfinished, place)
  } catch {
    remove(unfinished)
  }
}

function remove(file: string): void {
  try {
    rmSync(file)
  } catch {
    // It may never have come to be.
  }
}

/**
 * Where the cache keeps something about a ledger. Two ledgers with one name only take turns, since the path
 * itself belongs into the file's head.
 */
export function keptPlace(folder: string, root: string, name: string): string {
  let hash = 0
  for (let index = 0; index < root.length; index += 1)
    hash = (Math.imul(hash, 31) + root.charCodeAt(index)) | 0
  return join(folder, `${(hash >>> 0).toString(16).padStart(8, '0')}-${name}`)
}
