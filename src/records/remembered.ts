/** So many texts are remembered; a ledger writes its units in few ways, and names few zones. */
const MOST = 1000

/**
 * The same work, done once for each text: entries say `300 L/ha` over and over.
 * @param work must rest on the text alone, and its answers must not be changed by anyone.
 */
export function remembered<T>(work: (text: string) => T): (text: string) => T {
  const known = new Map<string, T>()
  return (text) => {
    const before = known.get(text)
    if (before !== undefined || known.has(text)) return before as T
    if (known.size >= MOST) known.clear()
    const answer = work(text)
    known.set(text, answer)
    return answer
  }
}
