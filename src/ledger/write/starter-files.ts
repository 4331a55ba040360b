import type { IsoDate } from '../../records/date.ts'
import { type Disk, realDisk } from '../read/disk.ts'
import { seasonSpan } from '../read/seasons.ts'
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

/** The folder of a new ledger's examples; no record is read from it. */
const EXAMPLES = 'examples'

const HEAD =
  '# Invented example. It is not counted: nothing in this folder is. Copy it to the folder of the same name beside\n# vineyard.yaml, and put your own figures in.\n'

/**
 * One commented example of each kind of record, by path. All figures are invented, and the files say so; copied into
 * place together they pass `check`.
 * @param season the season of the entries: one that is over, so that none is in the future
 */
export function exampleFiles(site: { latitude: number; season: number }): Record<string, string> {
  const on = (monthDay: string) => dateIn(site, monthDay)
  const entry = (kind: string, monthDay: string, text: string): [string, string] => [
    `seasons/${site.season}/${kind}/${on(monthDay)}${text.includes('first-block') ? '-first-block' : ''}.yaml`,
    text.replace('DATE', on(monthDay)),
  ]
  const files: [string, string][] = [
    ['blocks/first-block.yaml', BLOCK],
    ['varieties/first-variety.yaml', VARIETY],
    ['products/placeholder-sulphur.yaml', PRODUCT],
    ['sprayers/knapsack.yaml', SPRAYER.replace('DATE', on('04-20'))],
    entry('work', '03-02', WORK),
    entry('stages', '06-14', STAGE),
    entry('sprays', '06-14', SPRAY),
    entry('weather', '06-15', WEATHER),
    entry('scouting', '07-20', SCOUTING),
    entry('crop', '08-05', CROP),
    entry('samples', '09-12', SAMPLE),
    entry('picks', '09-29', PICK),
  ]
  return Object.fromEntries(files.map(([file, text]) => [`${EXAMPLES}/${file}`, HEAD + text]))
}

/** Example dates are for the north; in the south they are half a year earlier in the same season. */
function dateIn({ latitude, season }: { latitude: number; season: number }, monthDay: string): IsoDate {
  if (latitude >= 0) return `${season}-${monthDay}`
  const month = Number(monthDay.slice(0, 2)) - 6
  const day = monthDay.slice(3) === '31' ? '30' : monthDay.slice(3)
  const { first } = seasonSpan({ latitude }, season)
  const year = month <= 0 ? season - 1 : season
  const date = `${year}-${String(month <= 0 ? month + 12 : month).padStart(2, '0')}-${day}`
  return date < first ? first : date
}

const BLOCK = `# A block: one file each; the file name is its id, lower-case words joined by hyphens.
name: First Block
variety: first-variety             # the id of a file in varieties/
rows: 10
row_length: 50 m
row_spacing: 2 m
vine_spacing: 1 m
missing: 0                         # vines
canopy: { height: 1.2 m, width: 0.5 m }
# vines: 500                       # in place of rows and row_length: vines planted, missing ones too
# area: 0.1 ha                     # only where it is not rows x row_length x row_spacing
# planted: 2020
# targets: { brix: 20-22, ta: 7-9 g/L, ph: 3.0-3.3 }    # in place of the variety's
`

const VARIETY = `# A variety: how easily it falls ill, and when it is ripe. Placeholders: put your own figures.
name: First Variety
colour: white                      # white, red, rose or grey
susceptibility: { powdery: medium, downy: medium, botrytis: medium }   # low, medium or high
targets: { brix: 20-22, ta: 7-9 g/L, ph: 3.0-3.3 }
after_veraison: 30-60 d
`

const PRODUCT = `# A spray product. EVERY FIGURE HERE IS A PLACEHOLDER. Copy yours from the label in your hand before you
# mix anything: the label and your local rules decide, and rowbook only holds you to what you write here.
name: PLACEHOLDER sulphur 80
form: WG                           # two-letter code on the label: WG, WP, SC, EC, SL ...
kind: fungicide
actives: [ { name: sulphur, content: 800 g/kg, group: M02 } ]
authorisation: { number: PLACEHOLDER }     # and its last day of use: until: 2030-12-31
uses:
  - { against: powdery, rate: 2-4 kg/ha, interval: 7-14 d }
water: 200-1000 L/ha
before_harvest: 21 d
re_entry: 24 h
max_per_season: 8
protects: 10 d
rain: { fast: 2 h, washed_off: 25 mm }
stock: 10 kg
label: PLACEHOLDER, no label was read      # where and when you read these figures
`

const SPRAYER = `# A sprayer. Measure your own: \`rowbook calibrate --help\`.
name: Knapsack
tank: 16 L
flow: 2 L/min                      # all nozzles together, measured on:
calibrated: DATE
speed: 1.5 km/h
`

const WORK = `date: DATE
block: first-block
job: pruning
hours: 6
`

const STAGE = `date: DATE
block: first-block
stage: 65                          # BBCH: 65 is full flowering
share: 50 %
`

const SPRAY = `date: DATE
time: 18:00-18:50
blocks: [first-block]
sprayer: knapsack
water: 400 L/ha                    # or a total: 40 L
products:
  - { product: placeholder-sulphur, rate: 3 kg/ha, for: powdery }    # or amount: 300 g, or concentration: 7.5 g/L
stage: 65
weather: { wind: 1.8 m/s, from: SW, temperature: 17 C, humidity: 70 % }
operator: A. N.
`

const WEATHER = `date: DATE
low: 8 C                           # read by hand; leave out what you did not read
high: 21 C
rain: 4 mm
`

const SCOUTING = `date: DATE
block: first-block
looked_at: { bunches: 100, leaves: 50 }
found: { powdery: { bunches: 2, severity: 1 % }, downy: { leaves: 0 } }
`

const CROP = `date: DATE
block: first-block
bunches_per_vine: [18, 22, 19, 25, 20]
bunch_weight: [48 g, 55 g, 51 g, 46 g]
at: lag                            # in the lag phase, or: harvest
`

const SAMPLE = `date: DATE
block: first-block
berries: 100
brix: 19.6                         # or one reading a bag: [19.2, 20.1, 19.6]
ph: 3.08
ta: 9.1 g/L
`

const PICK = `date: DATE
block: first-block
weight: 640 kg
people: 3
hours: 5
brix: 20.8
`
