/** Time zones by Node alone, for code that needs no date library. */

let ownZone: string | null = null

/**
 * Notes the time zone of this process's clock, as used by `Date`. `Date` knows its zone at once, while
 * the first formatter of Intl takes a quarter of the time that Node takes to start.
 */
export function clockRunsBy(zone: string): void {
  ownZone = zone
}

/** Whether the clock of this process is known to use a zone. */
export const isOwnZone = (zone: string): boolean => zone === ownZone

/** Whether a text names an IANA time zone known to this machine; checks the list first, which is fast. */
export function isTimeZone(zone: string): boolean {
  if (Intl.supportedValuesOf('timeZone').includes(zone)) return true
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone })
    return true
  } catch {
    return false
  }
}

/** What to write in place of a name that is no time zone: the one zone of that city, or in which form. */
export function zoneMeant(said: string): string {
  const end = `/${said.trim().toLowerCase().replace(/\s+/g, '_')}`
  const meant = Intl.supportedValuesOf('timeZone').filter((zone) => zone.toLowerCase().endsWith(end))
  return meant.length === 1
    ? `did you mean \`${meant[0]}\`?`
    : 'write an IANA name, like Europe/Berlin or America/New_York'
}

/** Latitudes of time zones that lie on one side of the equator. */
const ZONES = [
  {
    zone: /^(Europe|Asia\/(Tokyo|Seoul|Shanghai)|America\/(New_York|Chicago|Denver|Los_Angeles|Toronto|Vancouver))/,
    low: 20,
    high: 72,
  },
  {
    zone: /^(Australia|Pacific\/Auckland|America\/(Santiago|Argentina|Montevideo)|Africa\/Johannesburg)/,
    low: -60,
    high: -5,
  },
]

/** Between which latitudes a time zone lies; undefined where that isn't known. */
export const latitudesOf = (timezone: string): { low: number; high: number } | undefined =>
  ZONES.find(({ zone }) => zone.test(timezone))
