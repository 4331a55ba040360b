import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { keptPlace, readKept, writeKept } from './kept-file.ts'

/**
 * Records as they were read before, so that an unchanged file need not be parsed and checked again. A copy of
 * each file's text is kept beside its records, and records are only taken where the file still holds that very
 * text: the cache can be slow or useless, never wrong. There is one cache file for each season of a ledger and
 * one for its standing records (`kept-file.ts` says how they stand damage and company).
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
    group.stands.add(file)
    return JSON.parse(entry[1])
  }

  /** The text that a file held when its records were kept, or null where none are. */
  textOf(file: string): string | null {
    return this.group(file).entries.get(file)?.[0] ?? null
  }

  /**
   * Keeps the records of a file that is sound. Nothing else may have been added to them yet.
   * @param isExact whether JSON gives the records back as they are.
   */
  keep(file: string, text: string, records: readonly object[], isExact = !MINUS_ZERO.test(text)): void {
    if (!isExact) return
    const group = this.group(file)
    group.entries.set(file, [text, JSON.stringify(records)])
    group.stands.add(file)
    group.changed = true
  }

  /** Writes what has changed; what is known of files that are gone is dropped. */
  save(): void {
    for (const [name, group] of this.groups) {
      if (!group.changed) continue
      const kept = [...group.entries].filter(
        ([file]) => group.stands.has(file) || existsSync(join(this.root, file)),
      )
      // The texts stand behind the list of their lengths as they are: as JSON they would be read letter by letter.
      const lengths = kept.map(([file, [text, records]]) => [file, text.length, records.length])
      const texts = kept.map(([, [text, records]]) => text + records).join('')
      writeKept(
        keptPlace(this.folder, this.root, name),
        this.head(name),
        `${JSON.stringify(lengths)}\n${texts}`,
      )
    }
  }

  private group(file: string): Group {
    const name = /^seasons\/(\d{4})\//.exec(file)?.[1] ?? 'standing'
    let group = this.groups.get(name)
    if (!group) {
      group = { entries: this.read(name), stands: new Set(), changed: false }
      this.groups.set(name, group)
    }
    return group
  }

  private head(name: string): Buffer {
    return Buffer.from(`${JSON.stringify([this.label, this.root, name])}\n`)
  }

  private read(name: string): Group['entries'] {
    const body = readKept(keptPlace(this.folder, this.root, name), this.head(name))
    const entries: Group['entries'] = new Map()
    if (!body) return entries
    const whole = body.toString()
    let at = whole.indexOf('\n') + 1
    for (const [file, text, records] of JSON.parse(whole.slice(0, at)) as [string, number, number][]) {
      entries.set(file, [whole.slice(at, at + text), whole.slice(at + text, at + text + records)])
      at += text + records
    }
    return entries
  }
}

interface Group {
  entries: Map<string, [text: string, records: string]>
  /** Files that were read in this run, and so are still there. */
  stands: Set<string>
  changed: boolean
}

/** JSON doesn't tell -0 from 0, so that a file with one isn't kept. */
const MINUS_ZERO = /(?:^|[\s,:[{-])-(?:0|\.0)/
