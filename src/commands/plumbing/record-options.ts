import { type OptionSpec, optionName } from './command.ts'
import { many, NOTE_FIELDS, one } from './note-options.ts'

/** The kinds of record that last longer than a season, as they are named on the command line. */
export const RECORD_KINDS = ['block', 'variety', 'product', 'sprayer'] as const

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
