/** Work that is done sooner needs no word. */
const QUIET_MS = 1000
const BETWEEN_MS = 200

/**
 * What is being done, on stderr: only where that is a terminal, only from a second of work on, and taken away again
 * before anything else is said.
 */
export class Progress {
  private begun: number | null = null
  private last = 0
  private shown = false

  constructor(
    private readonly say: (text: string) => void,
    private readonly isTerminal: () => boolean,
    private readonly clock: () => number = () => process.uptime() * 1000,
  ) {}

  /** Says, where it is time to, what is being done; work begins with the first call. */
  tell(what: string): void {
    const now = this.clock()
    this.begun ??= now
    if (now - this.begun < QUIET_MS || (this.shown && now - this.last < BETWEEN_MS) || !this.isTerminal())
      return
    this.last = now
    this.shown = true
    this.say(`\r${what} ...\x1b[K`)
  }

  /** Takes the word away; work that follows begins anew. */
  clear(): void {
    this.begun = null
    if (this.shown) this.say('\r\x1b[K')
    this.shown = false
  }
}
