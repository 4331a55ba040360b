import type { FileText, Node, Source } from './source.ts'

/** A source that was read, whose node can be released: the nodes of a whole ledger take most of its memory. */
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
