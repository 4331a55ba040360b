import { type OptionSpec, optionName, optionsOf } from './command.ts'

/** The kinds of entry, as they are named on the command line. */
export const NOTE_KINDS = ['spray', 'scouting', 'sample', 'stage', 'crop', 'pick', 'work', 'weather'] as const

/** The kinds of record that last longer than a season, as they are named on the command line. */
export const RECORD_KINDS = ['block', 'variety', 'product', 'sprayer'] as const

/** An option, with the kinds of entry that have this field, separated by spaces; `every` for all of them. */
const one = (kinds: string, flags: string, what: string, ids?: OptionSpec['ids']): OptionSpec => ({
  flags,
  what,
  of: kinds === 'every' ? NOTE_KINDS : kinds.split(' '),
  ...(ids && { ids }),
})
const many = (...field: Parameters<typeof one>): OptionSpec => ({ ...one(...field), repeats: true })

/**
 * The fields of every kind of entry as options, each named after its key. They are written out so that the table of
 * commands needs no schemas; a test compares them with the schemas.
 */
const NOTE_FIELDS: readonly OptionSpec[] = [
  one('every', '--date DAY', 'ISO date, today, yesterday, 3 days ago, or a weekday just past; else today'),
  one('spray pick work', '--time FROM-TO', 'clock times, 18:00-19:10; past midnight 22:30-01:10 +1'),
  one('spray scouting crop work', '--rows SPAN', 'rows, where not all: 1-8'),
  one('spray stage', '--share SHARE', 'spray: share of the blocks, "50 %"; stage: share of the vines'),
  one('spray', '--sprayer ID', 'spray: the sprayer', 'sprayers'),
  one('spray work', '--water QUANTITY', 'spray: "300 L/ha" or "135 L" in all; work: irrigation, "12 mm"'),
  one('spray', '--dilute QUANTITY', 'spray: volume that would wet to run-off, "1500 L/ha"'),
  many(
    'spray',
    '--product ID=DOSE',
    'spray: product and dose, sulphur-80=3kg/ha; repeats, and names all in the tank',
    'products',
  ),
  many('spray', '--for TARGET', 'spray: what it is against, powdery; of one of several, sulphur-80=powdery'),
  one('spray', '--weather TEXT', 'spray: all on one line, "1.8 m/s SW 17 C 70 %"; or one by one:'),
  one('spray', '--wind QUANTITY', 'spray: wind speed, "1.8 m/s"'),
  one('spray', '--from DIRECTION', 'spray: where the wind came from, SW'),
  one('spray sample', '--temperature QUANTITY', 'spray: air, "17 C"; sample: juice'),
  one('spray', '--humidity QUANTITY', 'spray: "70 %"'),
  one('spray', '--sky TEXT', 'spray: clouds, dew, inversion'),
  one('spray', '--operator NAME', 'spray: who sprayed'),
  one('spray', '--certificate NUMBER', "spray: the operator's certificate"),
  many(
    'spray',
    '--cleared KEY=VALUE',
    'spray over the label: on=2026-08-20, "by=R. Vos, adviser", pick_from=2026-10-03; repeats',
  ),
  one('spray', '--method METHOD', 'spray: area, spot, band or closed-space'),
  one('spray scouting stage', '--stage CODE', 'growth stage: BBCH, E-L 25, or words, "50 % veraison"'),
  many('scouting', '--looked-at ORGAN=COUNT', 'scouting: bunches=100, or "50 bunches, 50 leaves"; repeats'),
  many(
    'scouting',
    '--found DISEASE.ORGAN=COUNT',
    'scouting: powdery.bunches=4, powdery.severity="3 %", clean, or "powdery 3 of 50, rest clean"; repeats',
  ),
  one('sample', '--berries COUNT', 'sample: berries in it'),
  one('sample', '--of WHAT', 'sample: what one reading was of, bag, berry, bunch or vine'),
  many('sample pick', '--brix READINGS', 'sample: 19.6, or several, "18.2, 19.0, 20.4"; pick: at the press'),
  many('sample', '--oechsle READINGS', 'sample: in place of brix'),
  many('sample', '--baume READINGS', 'sample: in place of brix'),
  many('sample', '--density READINGS', 'sample: specific gravity, in place of brix'),
  one('sample', '--compensated YES', 'sample: no where the refractometer does not correct for temperature'),
  many('sample pick', '--ph READINGS', 'sample, pick: pH'),
  many('sample pick', '--ta READINGS', 'sample, pick: titratable acidity, "9.1 g/L"'),
  one('sample', '--ta-as ACID', 'sample: tartaric or sulphuric'),
  one('sample', '--end-point PH', 'sample: pH at which the titration ended'),
  many('sample', '--titration KEY=VALUE', 'sample: "sample=10 mL", "base=12.2 mL", normality=0.1'),
  one('sample', '--berry-weight QUANTITY', 'sample: mean weight of a berry, "1.35 g"'),
  one('sample', '--seeds TEXT', 'sample: colour and feel'),
  one('sample', '--skins TEXT', 'sample: colour and feel of the skins'),
  one('sample', '--taste TEXT', 'sample: taste of the berries'),
  one('sample', '--fermenting YES', 'sample: yes where the juice had begun to ferment'),
  one('sample', '--instrument TEXT', 'sample: which instrument'),
  one('stage', '--shoots QUANTITY', 'stage: mean length, "12 cm"'),
  many('crop', '--bunches-per-vine COUNTS', 'crop: on each vine counted, 18,22,19'),
  many('crop', '--bunch-weight QUANTITIES', 'crop: of each bunch, "48 g, 55 g"'),
  one('crop', '--at WHEN', 'crop: lag or harvest'),
  one('crop', '--part NAME', 'crop: part of the block, where it is counted in parts'),
  one('spray crop', '--vines COUNT', 'spray: vines treated, where not all; crop: living vines in that part'),
  one('pick', '--weight QUANTITY', 'pick: fruit picked, "1820 kg"'),
  one('pick work', '--people COUNT', 'pick, work: how many people'),
  one('pick work', '--hours HOURS', 'pick: hours that they picked; work: hours of all together'),
  one('pick', '--sorted-out QUANTITY', 'pick: fruit thrown away, "40 kg"'),
  one('pick', '--crates COUNT', 'pick: crates filled'),
  one('pick', '--juice QUANTITY', 'pick: juice pressed, "1100 L"'),
  one('pick', '--rest SHARE', 'pick: share of the block that still hangs, "0 %"'),
  one('weather', '--low QUANTITY', 'weather: lowest temperature of the day, "8 C"'),
  one('weather', '--high QUANTITY', 'weather: highest temperature of the day, "21 C"'),
  one('weather', '--rain QUANTITY', 'weather: rain of the day, "4 mm"'),
  one('work', '--job TEXT', 'work: what was done'),
  one('work', '--prunings QUANTITY', 'work: prunings of one vine, "0.35 kg"'),
  one(
    'scouting sample stage crop work weather',
    '--who NAME',
    'who looked, sampled, counted, worked or read',
  ),
  one('every', '--note TEXT', 'anything else'),
]

/**
 * The fields of a new block, variety, product or sprayer as options, each named after its key, including those that
 * entries of a season have too. A test compares them with the schemas.
 */
export const RECORD_FIELDS: readonly OptionSpec[] = [
  one('block variety product sprayer', '--name NAME', 'block, variety, product, sprayer: its name'),
  one('block', '--variety ID', 'block: its variety'),
  one('block', '--rows COUNT', 'block: number of rows'),
  one('block', '--row-length QUANTITY', 'block: length of a row, "85 m"'),
  one('block', '--row-spacing QUANTITY', 'block: from row to row, "2.2 m"'),
  one('block', '--vine-spacing QUANTITY', 'block: from vine to vine in the row, "1.2 m"'),
  one('block', '--vines COUNT', 'block: number of vines, in place of rows and their length'),
  one('block', '--area QUANTITY', 'block: area under vines, "0.45 ha"'),
  one('block', '--missing COUNT', 'block: vines missing or dead'),
  one('block', '--planted YEAR', 'block: year of planting'),
  one('block', '--location TEXT', 'block: parcel number or other official place'),
  one('block variety', '--style WINE', 'block, variety: sparkling, white, rosé, red or dessert'),
  one('variety', '--colour COLOUR', 'variety: of its berries, white, red, rose or grey'),
  one('variety', '--powdery LEVEL', 'variety: susceptibility, low, medium or high'),
  one('variety', '--downy LEVEL', 'variety: susceptibility, low, medium or high'),
  one('variety', '--botrytis LEVEL', 'variety: susceptibility, low, medium or high'),
  one('variety', '--after-veraison DAYS', 'variety: days from veraison to ripeness, "35-55 d"'),
  one('product', '--form CODE', 'product: formulation code on its label, WG, WP, SC, EC, SL'),
  one('product', '--kind WORD', 'product: fungicide, insecticide, herbicide, oil, adjuvant or biological'),
  many('product', '--active TEXT', 'product: substance, content and group, "sulphur 800 g/kg M02"; repeats'),
  many(
    'product',
    '--use TEXT',
    'product: disease, dose as printed, interval, "powdery 2-6 kg/ha every 7-14 d"; repeats',
  ),
  one('product', '--number TEXT', 'product: authorisation or registration number'),
  one('product', '--until DAY', 'product: last day on which it may be used'),
  one('product', '--water RANGE', 'product: water per ground area, "200-1000 L/ha"'),
  one('product', '--before-harvest DAYS', 'product: pre-harvest interval (PHI), "21 d"'),
  one('product', '--re-entry TIME', 'product: re-entry interval (REI), "24 h" or "until dry"'),
  one('product', '--max-per-season COUNT', 'product: most applications a season'),
  one('product', '--max-in-row COUNT', 'product: most consecutive applications of its group'),
  one('product', '--protects DAYS', 'product: how long it protects, "10 d"'),
  one('product', '--fast TIME', 'product: time to dry before rain, "2 h"'),
  one('product', '--washed-off DEPTH', 'product: rain that washes it off, "25 mm"'),
  one('product', '--stock QUANTITY', 'product: what is in the store, "18 kg"'),
  one('product', '--stocked DAY', 'product: day on which the stock was counted'),
  one('product', '--label TEXT', 'product: where these figures were read, "printed label, 2026-03"'),
  one('sprayer', '--tank QUANTITY', 'sprayer: volume of the tank, "15 L"'),
  one('sprayer', '--flow QUANTITY', 'sprayer: all nozzles together, measured, "2 L/min"'),
  one('sprayer', '--calibrated DAY', 'sprayer: day on which the flow was measured'),
  one('sprayer', '--speed QUANTITY', 'sprayer: speed while spraying, "1.5 km/h"'),
  one('sprayer', '--pressure QUANTITY', 'sprayer: pressure at which the flow was measured, "2 bar"'),
  one('block variety product sprayer', '--note TEXT', 'anything else'),
]

/** Every field that `note` takes, one option for those that entries and standing records both have. */
export function noteFields(): OptionSpec[] {
  const own = new Map(RECORD_FIELDS.map((option) => [optionName(option), option]))
  const shared = NOTE_FIELDS.map((option) => {
    const record = own.get(optionName(option))
    if (!record) return option
    own.delete(optionName(option))
    const what = record.what === option.what ? option.what : `${option.what}; ${record.what}`
    return { ...option, what, of: [...(option.of ?? []), ...(record.of ?? [])] }
  })
  return [...shared, ...own.values()]
}

/** Options that decide how `note` works. */
export const NOTE_MANNERS = optionsOf([
  ['--block ID...', 'the block; several, or all, for a spray, a stage or work', { ids: 'blocks' }],
  ['--like ENTRY', 'begin with an earlier entry: last, or its date; other options change it'],
  [
    '--amend FILE',
    'change an entry: its file, FILE:LINE in a list, or last; other options name what changes, "" takes it out',
  ],
  ['--undo', 'take back what rowbook wrote last, where it stands unchanged; a copy is kept'],
  ['--dry-run', 'only show what would be written'],
  ['--yes', 'ask nothing'],
  ['--anyway', 'write it despite errors'],
  [
    '--day READINGS',
    'weather: a day with lowest, highest and rain in your units, "mon 8 21 4", ? for unknown; repeats',
    { repeats: true },
  ],
])
