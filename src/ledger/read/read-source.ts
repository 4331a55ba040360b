import type { FileText, Node, Source } from './source.ts'

/** A source that was read, whose node can be let go of: those of a whole ledger are most of what it takes in memory. */
export class ReadSource implements Source {
  constructor(
    readonly at: FileText,
    private held: Node | Source,
  ) {}

  get node(): Node {
    return 'at' in this.held ? this.held.node : this.held
  }

  letGo(again: Source): void {
    this.held = again
  }
}
