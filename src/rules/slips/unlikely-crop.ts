import { median } from '../../agronomy/statistics/median.ts'
import { areaOf, vinesOf } from '../../facts/block-size.ts'
import type { Book } from '../../facts/book.ts'
import { judged } from '../../facts/judged.ts'
import { ripeningSeen } from '../../facts/ripeness/ripening.ts'
import { say } from '../../facts/say.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import type { CropEntry } from '../../ledger/read/ledger.ts'
import { daysBetween } from '../../records/date.ts'
import { mention, type Rule } from '../rule.ts'
import { outOfSeason } from './northern-month.ts'
import { odd, unusual } from './usual.ts'

const NAME = 'unlikely-crop'

/** Bunch counts and weights that no vine has. */
export const unlikelyCrop: Rule = {
  name: NAME,
  about: {
    what: 'A bunch count or weight is outside what vines have, or five times or a fifth of the others; counts and weights together would be a crop that no vineyard bears; or no bunches hang at that time, or not of that stage.',
    limits:
      '0-120 bunches a vine, 8-900 g a bunch, up to 40 t/ha; a list of four or more: five times its middle; at harvest from a week after ripening began, in the lag phase up to a fortnight after it',
    source: 'common practice, no source',
    basis: 'common practice',
  },
  check: (book) =>
    judged(book, 'crop').flatMap((entry) => [...each(entry), ...whole(book, entry), ...when(book, entry)]),
}

function each(entry: CropEntry): Finding[] {
  const lists = [
    { key: 'bunches_per_vine', low: 0, high: 120, unit: '', what: 'number of bunches' },
    { key: 'bunch_weight', low: 8, high: 900, unit: 'g', what: 'weight of a bunch' },
  ] as const
  return lists.flatMap(({ key, low, high, unit, what }) => {
    const values = entry[key] ?? []
    const at = (index: number) => [key, index]
    const off = unusual(
      NAME,
      entry,
      values.map((value, index) => ({ path: at(index), value, low, high, unit, what })),
    )
    const usual = median(values)
    if (off.length > 0 || values.length < 4 || !usual) return off
    return values.flatMap((value, index) =>
      value >= usual * 5 || (value * 5 <= usual && key === 'bunch_weight')
        ? [
            odd(
              NAME,
              entry,
              at(index),
              `${say(value, unit)} lies far from the others, about ${say(usual, unit)}`,
            ),
          ]
        : [],
    )
  })
}

/** Weights of a time of year in which no bunches hang, or of another stage than the one written. */
function when(book: Book, entry: CropEntry): Finding[] {
  const { vineyard } = book.ledger
  if (!entry.bunch_weight) return []
  if (outOfSeason(vineyard, entry.date, { first: 6, last: 12 }))
    return [odd(NAME, entry, ['date'], `no bunches hang on ${entry.date} at latitude ${vineyard.latitude}`)]
  const turned = ripeningSeen(book, entry)
  if (!turned) return []
  const days = daysBetween(turned.date, entry.date)
  const wrong = entry.at === 'harvest' ? days < 7 && turned.stage < 89 : days > 14
  return wrong
    ? [
        odd(
          NAME,
          entry,
          ['at'],
          `weighed ${entry.at === 'lag' ? 'in the lag phase' : 'at harvest'} on ${entry.date}, but ${entry.block} was at stage ${turned.stage} on ${turned.date} (${mention(turned, ['stage'])})`,
        ),
      ]
    : []
}

function whole({ ledger }: Book, entry: CropEntry): Finding[] {
  const block = ledger.blocks.get(entry.block)
  const bunches = median(entry.bunches_per_vine ?? [])
  const weight = median(entry.bunch_weight ?? [])
  if (!block || bunches === null || weight === null) return []
  const tonnes = (vinesOf(block).alive * bunches * weight) / 1e6 / areaOf(block)
  if (tonnes <= 40) return []
  return [
    odd(
      NAME,
      entry,
      ['bunch_weight'],
      `${say(bunches)} bunches of ${say(weight, 'g')} would be ${say(tonnes, 't/ha')}`,
    ),
  ]
}
