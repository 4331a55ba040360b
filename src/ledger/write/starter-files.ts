import { type Disk, realDisk } from '../read/disk.ts'
import { allOrNone } from './new-files.ts'

/** What is known about the site of a new ledger. */
export interface Starter {
  name: string
  /** Degrees north; null where not given. */
  latitude: number | null
  longitude: number | null
  timezone: string
  units: 'metric' | 'us' | 'imperial'
}

/** The files of a new ledger, by path: only the site. Records are added one by one. */
export function starterFiles(starter: Starter): Record<string, string> {
  return {
    'vineyard.yaml': site(starter),
    '.gitattributes':
      '# One kind of line end on every machine, so that a diff shows what changed in the records.\n*.yaml text eol=lf\n*.csv text eol=lf\n',
  }
}

function site({ name, latitude, longitude, timezone, units }: Starter): string {
  // Never guess a latitude: seasons and heat sums would belong to another place.
  const north =
    latitude === null
      ? '# latitude: 52.1                     # MISSING: take the # away, and write the degrees north of your rows; negative in the south'
      : `latitude: ${latitude}                     # degrees north; negative in the south`
  const east =
    longitude === null
      ? ''
      : `longitude: ${longitude}                     # degrees east; negative in the west\n`
  return `# The site. Reports read their defaults here. Lines that begin with # are not read: take the # away to use them.
name: ${JSON.stringify(name)}
${north}
${east}timezone: ${timezone}
units: ${units}                     # metric, us or imperial: what reports print; you may type any
# limits:
#   copper: { per_season: ${units === 'metric' ? '4 kg/ha, rolling: 28 kg/ha' : '3.6 lb/acre, rolling: 25 lb/acre'}, years: 7 }    # what your law allows
# harvest: { picking: ${units === 'metric' ? '45 kg/h, crate: 12 kg' : '100 lb/h, crate: 25 lb'}, juice: 620 L/t }     # your own: picked by one person in an hour, and so on
`
}

/**
 * Writes the files of a new ledger, all or none. Existing files are never touched: where one of them exists
 * already, or a folder on its path is a link, none is written.
 * @param shown the folder as typed.
 * @throws WriteFailed naming the file.
 */
export function layOut(
  folder: string,
  { shown, files }: { shown: string; files: Readonly<Record<string, string>> },
  disk: Disk = realDisk,
): void {
  allOrNone((made) => {
    made.makeRoot(folder, shown)
    for (const [file, text] of Object.entries(files)) made.add({ root: folder, file, shown: file }, text)
  }, disk)
}
