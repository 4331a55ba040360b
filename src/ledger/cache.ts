import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'

/**
 * Records as they were read before, so that an unchanged file need not be parsed and checked again. A copy of
 * each file's text is kept beside its records, and records are only taken where the file still holds that very
 * text: the cache can be slow or useless, never wrong. There is one cache file for each season of a ledger and
 * one for its standing records. Everything in it is stored twice and must agree, so that damage is seen; it is
 * replaced by renaming, so that two processes may share it; that it can't be written is no fault.
 */
export class RecordCache {
  private readonly groups = new Map<string, Group>()

  /**
   * @param folder the program's own folder in the user's cache.
   * @param label whatever the records depend on beside the texts: the build of the program, the version of Node.
   * @param root the ledger.
   */
  constructor(
    private readonly folder: string,
    private readonly label: string,
    private readonly root: string,
  ) {}

  /** The records that a file gave when it held this text, fresh for this caller, or null where that isn't known. */
  find(file: string, text: string): object[] | null {
    const group = this.group(file)
    const entry = group.entries.get(file)
    if (entry?.[0] !== text) return null
    return JSON.parse(entry[1])
  }

  /** Keeps the records of a file that is sound. Nothing else may have been added to them yet. */
  keep(file: string, text: string, records: readonly object[]): void {
    if (MINUS_ZERO.test(text)) return
    const group = this.group(file)
    group.entries.set(file, [text, JSON.stringify(records)])
    group.changed = true
  }

  /** Writes what has changed; what is known of files that are gone is dropped. */
  save(): void {
    for (const [name, group] of this.groups) {
      if (!group.changed) continue
      const kept = [...group.entries].filter(([file]) => existsSync(join(this.root, file)))
      this.write(name, JSON.stringify(kept))
    }
  }

  private group(file: string): Group {
    const name = /^seasons\/(\d{4})\//.exec(file)?.[1] ?? 'standing'
    let group = this.groups.get(name)
    if (!group) {
      group = { entries: this.read(name), changed: false }
      this.groups.set(name, group)
    }
    return group
  }

  private place(name: string): string {
    return join(this.folder, `${shortHash(this.root)}-${name}`)
  }

  private head(name: string): Buffer {
    return Buffer.from(`${JSON.stringify([this.label, this.root, name])}\n`)
  }

  private read(name: string): Map<string, [text: string, records: string]> {
    try {
      const bytes = readFileSync(this.place(name))
      const head = this.head(name)
      const half = (bytes.length - head.length) / 2
      const body = bytes.subarray(head.length, head.length + half)
      const isSound =
        bytes.subarray(0, head.length).equals(head) && body.equals(bytes.subarray(head.length + half))
      return new Map(isSound ? JSON.parse(body.toString()) : [])
    } catch {
      return new Map()
    }
  }

  private write(name: string, content: string): void {
    const place = this.place(name)
    const unfinished = `${place}.${process.pid}`
    try {
      mkdirSync(this.folder, { recursive: true })
      const body = Buffer.from(content)
      writeFileSync(unfinished, Buffer.concat([this.head(name), body, body]), { flag: 'wx', mode: 0o600 })
      renameSync(unfinished, place)
    } catch {
      remove(unfinished)
    }
  }
}

interface Group {
  entries: Map<string, [text: string, records: string]>
  changed: boolean
}

function remove(file: string): void {
  try {
    rmSync(file)
  } catch {
    // It may never have come to be.
  }
}

/** JSON doesn't tell -0 from 0, so that a file with one isn't kept. */
const MINUS_ZERO = /(?:^|[\s,:[{-])-(?:0|\.0)/

/** A name for a path. Two paths with one name only take turns, since the path itself is in the file's head. */
function shortHash(path: string): string {
  let hash = 0
  for (let index = 0; index < path.length; index += 1)
    hash = (Math.imul(hash, 31) + path.charCodeAt(index)) | 0
  return (hash >>> 0).toString(16).padStart(8, '0')
}

/** The program's folder in the user's cache, or null where no place for caches is known. */
export function cacheFolder(
  variables: Readonly<Record<string, string | undefined>>,
  platform = process.platform,
): string | null {
  const { XDG_CACHE_HOME, LOCALAPPDATA, HOME } = variables
  const base =
    XDG_CACHE_HOME || (platform === 'win32' ? LOCALAPPDATA : HOME && join(HOME, '.cache')) || undefined
  return base === undefined ? null : join(base, 'rowbook', 'ledgers')
}
