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
