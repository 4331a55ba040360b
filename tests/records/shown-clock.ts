/** What the clocks of a zone show, by Intl of Node alone: independent of the library that the program uses. */

const DAY = 86_400_000
const formats = new Map<string, Intl.DateTimeFormat>()

function formatOf(timeZone: string): Intl.DateTimeFormat {
  const known = formats.get(timeZone)
  if (known) return known
  const two = { month: '2-digit', day: '2-digit', hour: '2-digit', minute: '2-digit' } as const
  const format = new Intl.DateTimeFormat('en-GB', { timeZone, hourCycle: 'h23', year: 'numeric', ...two })
  formats.set(timeZone, format)
  return format
}

/** `2026-06-14 20:05` at an instant (ms since 1970). */
export function shownAt(instant: number, zone: string): string {
  const parts = Object.fromEntries(
    formatOf(zone)
      .formatToParts(instant)
      .map(({ type, value }) => [type, value]),
  )
  return `${parts.year}-${parts.month}-${parts.day} ${parts.hour}:${parts.minute}`
}

const asUtc = (shown: string) => Date.parse(`${shown.replace(' ', 'T')}Z`)

/** Every instant at which the clocks of a zone show `2026-06-14 20:05`: none, one, or two where they go back. */
export function instantsOf(shown: string, zone: string): number[] {
  const wall = asUtc(shown)
  const instants = [wall - DAY, wall + DAY].map((near) => wall - (asUtc(shownAt(near, zone)) - near))
  return [...new Set(instants)].sort((a, b) => a - b).filter((instant) => shownAt(instant, zone) === shown)
}
