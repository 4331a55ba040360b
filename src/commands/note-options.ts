import type { OptionSpec } from './command.ts'

const many = (flags: string, what: string): OptionSpec => ({ flags, what, repeats: true })
const one = (flags: string, what: string): OptionSpec => ({ flags, what })

/**
 * The fields of every kind of entry as options, each named as its key. Written out here, and held against the
 * schemas by a test, so that the table of commands is there without loading them.
 */
export const NOTE_FIELDS: readonly OptionSpec[] = [
  one('--date DAY', 'ISO date, today, yesterday, 3 days ago, or a weekday just past; else today'),
  one('--time FROM-TO', 'clock times, 18:00-19:10; past midnight 22:30-01:10 +1'),
  one('--rows SPAN', 'rows, where not all: 1-8'),
  one('--share SHARE', 'spray: share of the blocks, "50 %"; stage: share of the vines'),
  { flags: '--sprayer ID', what: 'spray: the sprayer', ids: 'sprayers' },
  one('--water QUANTITY', 'spray: "300 L/ha" or "135 L" in all; work: irrigation, "12 mm"'),
  one('--dilute QUANTITY', 'spray: volume that would wet to run-off, "1500 L/ha"'),
  {
    flags: '--product ID=DOSE',
    what: 'spray: product and dose, sulphur-80=3kg/ha; repeats, and names all in the tank',
    repeats: true,
    ids: 'products',
  },
  many('--for TARGET', 'spray: what it is against, powdery; of one of several, sulphur-80=powdery'),
  one('--weather TEXT', 'spray: all on one line, "1.8 m/s SW 17 C 70 %"; or one by one:'),
  one('--wind QUANTITY', 'spray: wind speed, "1.8 m/s"'),
  one('--from DIRECTION', 'spray: where the wind came from, SW'),
  one('--temperature QUANTITY', 'spray: air, "17 C"; sample: juice'),
  one('--humidity QUANTITY', 'spray: "70 %"'),
  one('--sky TEXT', 'spray: clouds, dew, inversion'),
  one('--operator NAME', 'spray: who sprayed'),
  one('--certificate NUMBER', "spray: the operator's certificate"),
  one('--method METHOD', 'spray: area, spot, band or closed-space'),
  one('--stage CODE', 'growth stage, BBCH'),
  many('--looked-at ORGAN=COUNT', 'scouting: bunches=100; repeats'),
  many('--found DISEASE.ORGAN=COUNT', 'scouting: powdery.bunches=4, powdery.severity="3 %"; repeats'),
  one('--berries COUNT', 'sample: berries in it'),
  one('--of WHAT', 'sample: what one reading was of, bag, berry, bunch or vine'),
  many('--brix READINGS', 'sample: 19.6, or several, "18.2, 19.0, 20.4"; pick: at the press'),
  many('--oechsle READINGS', 'sample: in place of brix'),
  many('--baume READINGS', 'sample: in place of brix'),
  many('--density READINGS', 'sample: specific gravity, in place of brix'),
  one('--compensated YES', 'sample: no where the refractometer does not correct for temperature'),
  many('--ph READINGS', 'sample, pick: pH'),
  many('--ta READINGS', 'sample, pick: titratable acidity, "9.1 g/L"'),
  one('--ta-as ACID', 'sample: tartaric or sulphuric'),
  one('--end-point PH', 'sample: pH at which the titration ended'),
  many('--titration KEY=VALUE', 'sample: "sample=10 mL", "base=12.2 mL", normality=0.1'),
  one('--berry-weight QUANTITY', 'sample: mean weight of a berry, "1.35 g"'),
  one('--seeds TEXT', 'sample: colour and feel'),
  one('--taste TEXT', 'sample: taste of the berries'),
  one('--fermenting YES', 'sample: yes where the juice had begun to ferment'),
  one('--instrument TEXT', 'sample: which instrument'),
  one('--shoots QUANTITY', 'stage: mean length, "12 cm"'),
  many('--bunches-per-vine COUNTS', 'crop: on each vine counted, 18,22,19'),
  many('--bunch-weight QUANTITIES', 'crop: of each bunch, "48 g, 55 g"'),
  one('--at WHEN', 'crop: lag or harvest'),
  one('--part NAME', 'crop: part of the block, where it is counted in parts'),
  one('--vines COUNT', 'crop: living vines in that part'),
  one('--weight QUANTITY', 'pick: fruit picked, "1820 kg"'),
  one('--people COUNT', 'pick, work: how many people'),
  one('--hours HOURS', 'pick: hours that they picked; work: hours of all together'),
  one('--sorted-out QUANTITY', 'pick: fruit thrown away, "40 kg"'),
  one('--crates COUNT', 'pick: crates filled'),
  one('--juice QUANTITY', 'pick: juice pressed, "1100 L"'),
  one('--rest SHARE', 'pick: share of the block that still hangs, "0 %"'),
  one('--job TEXT', 'work: what was done'),
  one('--who NAME', 'who looked, sampled, counted or worked'),
  one('--note TEXT', 'anything else'),
]

/** How `note` goes about it. */
export const NOTE_MANNERS: readonly OptionSpec[] = [
  one('--like ENTRY', 'begin with an earlier entry: last, or its date; other options change it'),
  one('--dry-run', 'only show what would be written'),
  one('--yes', 'ask nothing'),
  one('--anyway', 'write it in spite of errors'),
]
