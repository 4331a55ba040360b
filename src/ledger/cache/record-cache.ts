import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { hashOf, readCacheFile, writeCacheFile } from './cache-file.ts'

/**
 * Records from earlier runs, so that an unchanged file need not be parsed and checked again. They are only
 * used where the hash of the file's text is the same: the cache can be slow or useless, never wrong. There
 * is one cache file for each season of a ledger (and one for the hours of its weather) and one for its standing
 * records: a line that names a file and its
 * hash, a line of its records as JSON, and so on.
 */
export class RecordCache {
  private readonly groups = new Map<string, Group>()

  /**
   * @param folder the program's own folder in the user's cache.
   * @param label what the records depend on besides the texts: the program's build, the version of Node.
   * @param root the ledger.
   */
  constructor(
    private readonly folder: string,
    private readonly label: string,
    private readonly root: string,
  ) {}

  /**
   * A new copy of the records cached for a file with this text, or null where there are none.
   * @param part name of the part, where a file's records are cached in several parts.
   */
  find(file: string, text: string, part?: string): object[] | null {
    const group = this.group(file, part)
    const entry = group.entries.get(file)
    if (!entry || entry.hash !== hashOf(text)) return null
    group.stands.add(file)
    return JSON.parse(entry.records)
  }

  /** Caches the records of a file without findings, before anything else is added to them. */
  keep(file: string, text: string, records: readonly object[], part?: string): void {
    if (MINUS_ZERO.test(text) && file.endsWith('.yaml')) return
    const group = this.group(file, part)
    group.entries.set(file, { hash: hashOf(text), records: JSON.stringify(records) })
    group.stands.add(file)
    group.changed = true
  }

  /** Writes what has changed, and drops files that no longer exist. */
  save(): void {
    for (const [name, group] of this.groups) {
      if (!group.changed) continue
      const lines = [...group.entries]
        .filter(([file]) => group.stands.has(file) || existsSync(join(this.root, file)))
        .map(([file, { hash, records }]) => `${hash} ${file}\n${records}\n`)
      writeCacheFile(this.place(name), this.labelOf(name), Buffer.from(lines.join('')))
    }
  }

  private group(file: string, part?: string): Group {
    const season = /^seasons\/(\d{4})\//.exec(file)?.[1] ?? 'standing'
    const name = part === undefined ? season : `${season}-${part}`
    let group = this.groups.get(name)
    if (!group) {
      group = { entries: this.read(name), stands: new Set(), changed: false }
      this.groups.set(name, group)
    }
    return group
  }

  private read(name: string): Group['entries'] {
    const entries: Group['entries'] = new Map()
    const lines = readCacheFile(this.place(name), this.labelOf(name))?.toString().split('\n') ?? []
    for (let at = 0; at + 1 < lines.length; at += 2) {
      const space = lines[at]!.indexOf(' ')
      entries.set(lines[at]!.slice(space + 1), { hash: lines[at]!.slice(0, space), records: lines[at + 1]! })
    }
    return entries
  }

  /** Two ledgers whose hashes begin alike overwrite each other but never mix, since the label names the ledger. */
  private place(name: string): string {
    return join(this.folder, `ledger-${hashOf(this.root).slice(0, 16)}-${name}`)
  }

  private labelOf(name: string): string {
    return JSON.stringify([this.label, this.root, name])
  }
}

interface Group {
  /** By file; the records are JSON. */
  entries: Map<string, { hash: string; records: string }>
  /** Files read in this run, which therefore still exist. */
  stands: Set<string>
  changed: boolean
}

/** JSON turns -0 into 0, so a record that contains one isn't cached. */
const MINUS_ZERO = /(?:^|[\s,:[{-])-(?:0|\.0)/
