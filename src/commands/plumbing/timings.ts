/** Where the time of a run went, for `--timings`: laps since the process began. */
export class Timings {
  private readonly laps: { what: string; took: number }[] = []
  private last = 0

  /** Ends a lap, which began where the one before ended. */
  lap(what: string): void {
    const now = performance.now()
    this.laps.push({ what, took: now - this.last })
    this.last = now
  }

  /** A line for each lap in milliseconds, and their sum. */
  toString(): string {
    const lines = [...this.laps, { what: 'in all', took: this.last }]
    return lines.map(({ what, took }) => `${took.toFixed(1).padStart(9)} ms  ${what}\n`).join('')
  }
}
