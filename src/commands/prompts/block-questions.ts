import type { Ledger } from '../../ledger/read/ledger.ts'
import { readQuantity } from '../../records/quantity.ts'
import { inSiteUnits } from '../../records/typed/site-way.ts'
import type { Style } from '../../render/style.ts'
import { numbered, readChosen } from './choices.ts'
import { saidFault } from './field-question.ts'
import type { Question, Read } from './question.ts'
import { asked, SPACING_UNIT, unlessMetric } from './wording.ts'

type Units = Style['units']

const NUMBER = String.raw`\d{1,9}(?:\.\d{1,9})?`

/** Which variety is planted in a block: one of the ledger, or a new one by its name. */
export function varietyQuestion({ varieties }: Ledger): Question {
  const all = [...varieties.values()]
  return {
    key: 'variety',
    ask: all.length > 0 ? 'Which variety? Or the name of a new one.' : 'Which variety? For example Solaris.',
    why: 'One variety a block. A new one gets a file of its own, in which you can add more later.',
    choices: all.length > 0 ? numbered(all) : undefined,
    preset: all.length === 1 ? all[0]!.name : '',
    read: (text) => {
      const { chosen } = readChosen(text, all, { several: false })
      if (chosen) return { parts: [{ option: 'variety', text: chosen[0]!.id }] }
      if (/^\d+$/.test(text))
        return { fault: `Type a number from 1 to ${all.length}, or the name of a variety.` }
      return { parts: [{ option: 'new-variety', text }] }
    },
  }
}

const SIZES = unlessMetric(
  '12 rows of 85 m, or 180 vines, or 0.45 ha',
  '12 rows of 280 ft, or 180 vines, or 1.1 acre',
)

/** How large a block is: by rows, vines or area, whichever the grower knows. */
export function sizeQuestion(units: Units): Question {
  return {
    key: 'size',
    ask: asked({ ask: 'How big is it?', like: SIZES }, units),
    why: 'Doses are for an area. By rows or by vines, the area follows from the spacing.',
    read: (text) => readSize(text, units),
  }
}

const ROWS = new RegExp(
  `^(\\d+) ?(?:rows?|x)(?: ?(?:of|x|at|,|each))? ?(${NUMBER}) ?([a-z]+)?(?: each| long)?$`,
)
const AREA = new RegExp(`^(${NUMBER}) ?(ha|hectares?|acres?|m2|m\\u00b2|ft2)$`)
const SPACINGS = new RegExp(
  `^(${NUMBER}) ?(m|cm|ft|in)?[ ,]{0,9}(?:and|x|by|/)?[ ,]{0,9}(${NUMBER}) ?(m|cm|ft|in)?$`,
  'i',
)

/** Reads `12 rows of 85 m`, `12 x 85 m`, `180 vines`, `0.45 ha` as options of a block. */
function readSize(text: string, units: Units): Read {
  const word = inSiteUnits(text.trim(), units).toLowerCase()
  const vines = /^(\d+) ?vines?$/.exec(word)
  if (vines) return { parts: [{ option: 'vines', text: vines[1]! }] }
  const rows = ROWS.exec(word)
  if (rows) {
    const length = `${rows[2]} ${rows[3] ?? SPACING_UNIT[units]}`
    return {
      parts: [
        { option: 'rows', text: rows[1]! },
        { option: 'row-length', text: length },
      ],
    }
  }
  const area = AREA.exec(word)
  if (area) {
    const unit = area[2]!
      .replace(/^hect.*/, 'ha')
      .replace('acres', 'acre')
      .replace('\u00b2', '2')
    return { parts: [{ option: 'area', text: `${area[1]} ${unit}` }] }
  }
  const comma = readQuantity(text, ['ha']).fault
  if (comma?.name === 'decimal-comma') return { fault: saidFault(comma) }
  return { fault: `Type rows and their length, like ${SIZES[units]}.` }
}

const SPACINGS_LIKE = unlessMetric('2.2 m and 1.2 m', '7 ft and 4 ft')

/** Row and vine spacing of a block. */
export function spacingQuestion(units: Units): Question {
  return {
    key: 'spacing',
    ask: `How far is it from row to row, and from vine to vine? For example ${SPACINGS_LIKE[units]}.`,
    why: 'First between two rows, then between two vines in the row.',
    read: (text) => readSpacing(text, units),
  }
}

/** Reads `2.2 m and 1.2 m`, `2.2 x 1.2 m`, `2.2 1.2` as the spacings of a block. */
function readSpacing(text: string, units: Units): Read {
  const both = SPACINGS.exec(text.trim())
  if (!both)
    return {
      fault: `Type two distances: from row to row, then from vine to vine, like ${SPACINGS_LIKE[units]}.`,
    }
  const behind = both[4] ?? SPACING_UNIT[units]
  return {
    parts: [
      { option: 'row-spacing', text: `${both[1]} ${both[2] ?? behind}` },
      { option: 'vine-spacing', text: `${both[3]} ${behind}` },
    ],
  }
}
