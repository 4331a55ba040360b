const SIGNALS = ['SIGINT', 'SIGTERM'] as const
let held = false

/**
 * Runs writing that a Ctrl-C in its middle does not cut off: the signal waits until the work, which must not await
 * anything, is done and tidied, and ends the program then as it would have.
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
