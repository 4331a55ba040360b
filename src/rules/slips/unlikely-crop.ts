import { median } from '../../agronomy/statistics/median.ts'
import { areaOf, vinesOf } from '../../facts/block-size.ts'
import { type JudgedLedger, judged } from '../../facts/judged.ts'
import { ripeningSeen } from '../../facts/ripeness/ripening.ts'
import { figureText } from '../../facts/sentences.ts'
import type { CropEntry, StageEntry } from '../../ledger/read/ledger.ts'
import { daysBetween } from '../../records/date.ts'
import { longDate } from '../../records/spoken-date.ts'
import { blockName, mention, PRACTICE, type Rule } from '../rule.ts'
import { outOfSeason, type Slips, slipsOf } from './usual.ts'

/** Bunch counts and weights that no vine has. */
export const unlikelyCrop: Rule = {
  name: 'unlikely-crop',
  what: 'A bunch count or weight is outside the range of vines. Or it is five times the others, or a fifth. Or counts and weights together are more than any vineyard bears. Or no bunches hang at that time or stage.',
  limits:
    'Usual are: 0 to 120 bunches a vine; 8 to 900 g a bunch; up to 40 t/ha. In a list of four or more, five times its middle is too much. Counts at harvest are from a week after ripening began. Those in the lag phase are up to a fortnight after it.',
  ...PRACTICE,
  check: (input) => {
    const ripening = ripeningSeen(input)
    return judged(input, 'crop').flatMap((entry) => {
      const slips = slipsOf(entry)
      for (const list of LISTS) each(slips, entry, list)
      whole(slips, input, entry)
      when(slips, input, { entry, turned: ripening(entry) })
      return slips.found
    })
  },
}

const LISTS = [
  { key: 'bunches_per_vine', what: 'number of bunches', range: [0, 120, ''] },
  { key: 'bunch_weight', what: 'weight of a bunch', range: [8, 900, 'g'] },
] as const

function each(slips: Slips, entry: CropEntry, { key, what, range }: (typeof LISTS)[number]): void {
  const values = entry[key] ?? []
  const before = slips.found.length
  for (const [index, value] of values.entries()) slips.unusual([key, index], value, what, range)
  const usual = median(values)
  if (slips.found.length > before || values.length < 4 || !usual) return
  for (const [index, value] of values.entries())
    if (value >= usual * 5 || (value * 5 <= usual && key === 'bunch_weight'))
      slips.odd(
        [key, index],
        `${figureText(value, range[2])} is far from the others (about ${figureText(usual, range[2])})`,
        'check its decimal point and its unit; if it is right, leave it',
      )
}

/** Weights of a time of year in which no bunches hang, or of another stage than the one written. */
function when(
  slips: Slips,
  { ledger }: JudgedLedger,
  { entry, turned }: { entry: CropEntry; turned: StageEntry | undefined },
): void {
  if (!entry.bunch_weight) return
  const { vineyard } = ledger
  if (outOfSeason(vineyard, entry.date, { first: 6, last: 12 })) {
    slips.odd(
      ['date'],
      `no bunches hang on ${longDate(entry.date)} at latitude ${vineyard.latitude}`,
      'check the date; day and month may be swapped',
    )
    return
  }
  if (!turned) return
  const days = daysBetween(turned.date, entry.date)
  if (entry.at === 'harvest' ? days < 7 && turned.stage < 89 : days > 14)
    slips.odd(
      ['at'],
      `weighed ${entry.at === 'lag' ? 'in the lag phase' : 'at harvest'} on ${longDate(entry.date)}, but ${blockName({ ledger }, entry.block)} was at stage ${turned.stage} on ${longDate(turned.date)} (${mention(turned, ['stage'])})`,
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
