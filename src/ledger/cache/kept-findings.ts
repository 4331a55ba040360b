import type { Finding } from '../read/finding.ts'
import { keptPlace, readKept, writeKept } from './kept-file.ts'

/** What a rule found in an earlier run, what it looked at, and a hash of what stood there. */
export interface KeptFinding {
  looked: readonly string[]
  hash: string
  findings: Finding[]
  /** Of a weather file, how many it has. */
  rows?: number
}

/** As many states of a book as are judged in turn: `changes` alone judges two of all seasons and of one. */
const STATES = 6

/** What the rules found in earlier runs, by rule, the last first. As all of the cache it can be lost or useless, not wrong. */
export class KeptFindings {
  private readonly place: string
  private readonly head: Buffer
  private rules: Map<string, KeptFinding[]> | undefined
  private isChanged = false

  /**
   * @param folder the program's own folder in the user's cache.
   * @param label what the findings depend on beside what was looked at: the build of the program, the version of Node.
   * @param root the ledger.
   */
  constructor(folder: string, label: string, root: string) {
    this.place = keptPlace(folder, root, 'findings')
    this.head = Buffer.from(`${JSON.stringify([label, root])}\n`)
  }

  of(rule: string): readonly KeptFinding[] {
    return this.known().get(rule) ?? []
  }

  keep(rule: string, found: KeptFinding): void {
    this.isChanged = true
    this.known().set(rule, [found, ...this.of(rule)].slice(0, STATES))
  }

  save(): void {
    if (this.isChanged) writeKept(this.place, this.head, JSON.stringify([...this.known()]))
  }

  private known(): Map<string, KeptFinding[]> {
    this.rules ??= new Map(JSON.parse(readKept(this.place, this.head)?.toString() ?? '[]'))
    return this.rules
  }
}
