const SIGNALS = ['SIGINT', 'SIGTERM'] as const
let held = false

/**
 * Runs work that writes files so that Ctrl-C can't cut it off in the middle: the signal waits until the work is done,
 * then ends the program as usual. The work must not await anything.
 * @throws what the work throws.
 */
export function uninterrupted<T>(work: () => T): T {
  if (!held) {
    held = true
    for (const signal of SIGNALS)
      process.once(signal, () => {
        process.kill(process.pid, signal)
      })
  }
  return work()
}
