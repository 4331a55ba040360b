/** Work faster than this shows no progress. */
const QUIET_MS = 1000
const BETWEEN_MS = 200

/**
 * Progress on stderr: only on a terminal, only after a second of work, and removed again
 * before anything else is printed.
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

  /** Shows what is being done, if it has taken long enough; work begins with the first call. */
  tell(what: string): void {
    const now = this.clock()
    this.begun ??= now
    if (now - this.begun < QUIET_MS || (this.shown && now - this.last < BETWEEN_MS) || !this.isTerminal())
      return
    this.last = now
    this.shown = true
    this.say(`\r${what} ...\x1b[K`)
  }

  /** Removes the progress line; the next work starts a new count. */
  clear(): void {
    this.begun = null
    if (this.shown) this.say('\r\x1b[K')
    this.shown = false
  }
}
