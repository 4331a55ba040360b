import { median } from '../../agronomy/statistics/median.ts'
import { areaOf, vinesOf } from '../../facts/block-size.ts'
import { type JudgedLedger, judged } from '../../facts/judged.ts'
import { ripeningSeen } from '../../facts/ripeness/ripening.ts'
import { figureText } from '../../facts/sentences.ts'
import type { CropEntry, StageEntry } from '../../ledger/read/ledger.ts'
import { daysBetween } from '../../records/date.ts'
import { longDate } from '../../records/spoken-date.ts'
import { blockName, mention, PRACTICE, type Rule } from '../rule.ts'
import { outOfSeason, type Slips, SWAPPED, slipsIn } from './usual.ts'

/** Bunch counts and weights that no vine has. */
export const unlikelyCrop: Rule = {
  name: 'unlikely-crop',
  what: 'A bunch count or weight is outside the range of vines. Or it is five times the others, or a fifth. Or counts and weights together are more than any vineyard bears. Or no bunches hang at that time or stage.',
  limits:
    'Usual are: 0 to 120 bunches a vine; 8 to 900 g a bunch; up to 40 t/ha. In a list of four or more, five times its middle is too much. Counts at harvest are from a week after ripening began. Those in the lag phase are up to a fortnight after it.',
  ...PRACTICE,
  check: (input) => {
    const ripening = ripeningSeen(input)
    return slipsIn(judged(input, 'crop'), (slips, entry) => {
      each(slips, entry)
      whole(slips, input, entry)
      if (entry.bunch_weight) when(slips, input, { entry, turned: ripening(entry) })
    })
  },
}

const LISTS = {
  bunches_per_vine: ['number of bunches', 0, 120, ''],
  bunch_weight: ['weight of a bunch', 8, 900, 'g'],
} as const

function each(slips: Slips, entry: CropEntry): void {
  for (const key of ['bunches_per_vine', 'bunch_weight'] as const) {
    const values = entry[key] ?? []
    const before = slips.found.length
    slips.compare({ [key]: LISTS[key] })
    const usual = median(values)
    if (slips.found.length > before || values.length < 4 || !usual) continue
    const unit = LISTS[key][3]
    for (const [index, value] of values.entries())
      if (value >= usual * 5 || (value * 5 <= usual && key === 'bunch_weight'))
        slips.odd(
          [key, index],
          `${figureText(value, unit)} is far from the others (about ${figureText(usual, unit)})`,
          'check its decimal point and its unit; if it is right, leave it',
        )
  }
}

/** Weights of a time of year in which no bunches hang, or of another stage than the one written. */
function when(
  slips: Slips,
  { ledger }: JudgedLedger,
  { entry: { date, at, block }, turned }: { entry: CropEntry; turned: StageEntry | undefined },
): void {
  const { latitude } = ledger.vineyard
  const days = turned && daysBetween(turned.date, date)
  if (outOfSeason(ledger.vineyard, date, [6, 12]))
    slips.odd(['date'], `no bunches hang on ${longDate(date)} at latitude ${latitude}`, SWAPPED)
  else if (days !== undefined && (at === 'harvest' ? days < 7 && turned!.stage < 89 : days > 14))
    slips.odd(
      ['at'],
      `weighed ${at === 'lag' ? 'in the lag phase' : 'at harvest'} on ${longDate(date)}, but ${blockName({ ledger }, block)} was at stage ${turned!.stage} on ${longDate(turned!.date)} (${mention(turned!, ['stage'])})`,
      'check the date, and `at`: lag for the lag phase, harvest for ripe bunches',
    )
}

function whole(slips: Slips, { ledger }: JudgedLedger, entry: CropEntry): void {
  const block = ledger.blocks.get(entry.block)
  const bunches = median(entry.bunches_per_vine ?? [])
  const weight = median(entry.bunch_weight ?? [])
  if (!block || bunches === null || weight === null) return
  const tonnes = (vinesOf(block).alive * bunches * weight) / 1e6 / areaOf(block)
  if (tonnes > 40)
    slips.odd(
      ['bunch_weight'],
      `${figureText(bunches)} bunches of ${figureText(weight, 'g')} would be ${figureText(tonnes, 't/ha')}`,
      'check the unit of the weights (g), and that they are of single bunches',
    )
}
