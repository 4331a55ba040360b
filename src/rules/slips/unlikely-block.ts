import { vinesPerHa } from '../../agronomy/crop/area.ts'
import { type Book, judged } from '../../facts/judged.ts'
import { say } from '../../facts/say.ts'
import type { Named, PickEntry, SprayEntry } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/block.ts'
import { yearOf } from '../../records/date.ts'
import { ENTRY_CALLED } from '../../records/kinds.ts'
import type { Variety } from '../../records/variety.ts'
import { type Found, mention, type Rule } from '../rule.ts'
import { slipsOf } from './usual.ts'

/** A block whose figures no vineyard has, and a variety or a site likewise. */
export const unlikelyBlock: Rule = {
  name: 'unlikely-block',
  about: {
    what: 'Spacing, length, canopy, year or targets of a block or variety are far from usual, or contradict each other. Or two blocks have one name. Or a block has entries from before it was planted, or a pick of the year of planting.',
    limits:
      'Usual are: rows 0.8 to 4.5 m apart, up to 600 m long; vines 0.4 to 3.5 m apart, three a row or more, 800 to 20 000 a hectare; a canopy up to 2.5 m high, 0.1 m wide or more and narrower than the row; sugar targets of 12 to 30 Brix; planting up to 150 years ago.',
    source: 'common practice, no source',
    basis: 'common practice',
  },
  check: (book) => {
    const blocks = [...book.ledger.blocks.values()]
    return [
      ...blocks.flatMap((block) => ofBlock(block, book.asOf)),
      ...namedTwice(blocks),
      ...blocks.flatMap((block) => beforePlanted(book, block)),
      ...[...book.ledger.varieties.values()].flatMap(ofVariety),
    ]
  },
}

/** Entries that need vines, and a pick, which needs them to have grown for a season. */
const OF_VINES = ['sprays', 'scouting', 'samples', 'stages', 'crop', 'picks'] as const

/** The first entry of a block from before its vines were planted. */
function beforePlanted(book: Book, block: Named<Block>): Found[] {
  const { planted = 0 } = block
  if ([...book.seasons].every((season) => season > planted)) return []
  const isEarly = (season: number, kind: string) =>
    season < planted || (kind === 'picks' && season === planted)
  const early = OF_VINES.flatMap((kind) => {
    const entries: readonly (SprayEntry | PickEntry)[] = judged(book, kind as 'sprays' | 'picks')
    const first = entries.find(
      (entry) =>
        isEarly(entry.season, kind) &&
        ('blocks' in entry ? entry.blocks.includes(block.id) : entry.block === block.id),
    )
    return first ? [{ first, called: ENTRY_CALLED[kind] }] : []
  })
  const [one] = early.toSorted((a, b) => (a.first.date < b.first.date ? -1 : 1))
  if (!one || planted > yearOf(book.asOf)) return []
  const slips = slipsOf(block)
  slips.odd(
    ['planted'],
    `planted in ${planted}, but a ${one.called} is dated ${one.first.date} (${mention(one.first, ['date'])})`,
    'check the year of planting, and the date and block of the entry. Vines planted anew are a block of their own, in a new file',
  )
  return slips.found
}

/** Years after which a planting is likelier a wrong century. */
const OLDEST = 150

const SUGAR = { low: 12, high: 30, what: 'sugar target' }

/** Blocks with the same name as another: a second record of one block, or a copied file whose name was kept. */
function namedTwice(blocks: readonly Named<Block>[]): Found[] {
  const first = new Map<string, Named<Block>>()
  return blocks.flatMap((block) => {
    const other = first.get(block.name)
    first.set(block.name, other ?? block)
    if (!other) return []
    const slips = slipsOf(block)
    slips.odd(
      ['name'],
      `${other.id} has the same name (${mention(other, ['name'])})`,
      'give each block a name of its own; if it is the same block, remove one file',
    )
    return slips.found
  })
}

function ofBlock(block: Named<Block>, asOf: string): Found[] {
  const { row_spacing, vine_spacing, canopy, planted = 0, targets } = block
  const slips = slipsOf(block)
  slips.unusual(['row_spacing'], row_spacing, { low: 0.8, high: 4.5, unit: 'm', what: 'row spacing' })
  slips.unusual(['vine_spacing'], vine_spacing, { low: 0.4, high: 3.5, unit: 'm', what: 'vine spacing' })
  if (slips.found.length === 0)
    slips.unusual(['vine_spacing'], vinesPerHa({ rowSpacing: row_spacing, vineSpacing: vine_spacing }), {
      low: 800,
      high: 20_000,
      unit: 'vines/ha',
      what: 'density',
    })
  slips.unusual(['row_length'], block.row_length, { low: 5, high: 600, unit: 'm', what: 'row length' })
  slips.unusual(['rows'], block.rows, { low: 1, high: 500, what: 'number of rows' })
  const leafWall = { low: 0.3, high: 2.5, unit: 'm', what: 'height of the leaf wall' }
  slips.unusual(['canopy', 'height'], canopy?.height, leafWall)
  slips.unusual(['canopy', 'width'], canopy?.width, {
    low: 0.1,
    high: 6,
    unit: 'm',
    what: 'width of the canopy',
  })
  const { brix, ph, ta } = targets ?? {}
  slips.unusual(['targets', 'brix'], brix?.low, SUGAR)
  if (brix && brix.low >= SUGAR.low && brix.low <= SUGAR.high)
    slips.unusual(['targets', 'brix'], brix.high, { ...SUGAR, high: 35 })
  slips.unusual(['targets', 'ph'], ph?.low, { low: 2.8, high: 3.8, what: 'pH target' })
  slips.unusual(['targets', 'ph'], ph?.high, { low: 2.8, high: 4.1, what: 'pH target' })
  slips.unusual(['targets', 'ta'], ta?.high, { low: 3, high: 16, unit: 'g/L', what: 'acid target' })
  if (vine_spacing > row_spacing * 1.3)
    slips.odd(
      ['vine_spacing'],
      `vines ${say(vine_spacing, 'm')} apart in rows only ${say(row_spacing, 'm')} apart`,
      'row spacing is between the rows, vine spacing along them: they may be swapped',
    )
  const { height = Infinity, width = 0 } = canopy ?? {}
  if (width > 1 && width > height * 2)
    slips.odd(
      ['canopy', 'width'],
      `a canopy ${say(width, 'm')} wide and only ${say(height, 'm')} high`,
      'height and width may be swapped; height is that of the leaf wall, without the trunk',
    )
  if (width >= row_spacing)
    slips.odd(
      ['canopy', 'width'],
      `a canopy ${say(width, 'm')} wide fills the ${say(row_spacing, 'm')} between the rows`,
      'width is across the row; measure it, or correct the row spacing',
    )
  if (planted > 0 && planted < yearOf(asOf) - OLDEST)
    slips.odd(['planted'], `planted in ${planted}, more than ${OLDEST} years ago`, 'check the century')
  const { rows, vines } = block
  if (rows !== undefined && vines !== undefined && rows > 1 && vines / rows < 3)
    slips.odd(
      ['rows'],
      `${vines} vines in ${rows} rows are ${say(vines / rows)} a row`,
      '`vines` is the number in the whole block, `rows` that of its rows; count again',
    )
  if (planted > yearOf(asOf))
    slips.odd(['planted'], `planted in ${planted}, in the future on ${asOf}`, 'check the year of planting')
  return slips.found
}

function ofVariety(variety: Named<Variety>): Found[] {
  const { heat, targets, after_veraison } = variety
  const slips = slipsOf(variety)
  const brix = targets?.brix
  if (brix && brix.high - brix.low > 10)
    slips.odd(
      ['targets', 'brix'],
      `ripe from ${say(brix.low)} to ${say(brix.high)} Brix is too wide a range`,
      'write the Brix between which you would pick',
    )
  slips.unusual(['targets', 'brix'], brix?.low, SUGAR)
  const days = { low: 15, high: 100, unit: 'd', what: 'time from veraison to ripeness' }
  slips.unusual(['after_veraison'], after_veraison?.high, days)
  const { flowering = 0, veraison = Infinity } = heat ?? {}
  if (veraison <= flowering)
    slips.odd(
      ['heat', 'veraison'],
      `veraison at ${veraison} degree days, but flowering at ${flowering}`,
      'both are heat sums from the start of the year: they may be swapped',
    )
  const sums = Object.entries(heat?.sugar ?? {}).toSorted(([a], [b]) => Number(a) - Number(b))
  const backwards = sums.findIndex(([, sum], index) => index > 0 && sum <= sums[index - 1]![1])
  if (backwards > 0)
    slips.odd(
      ['heat', 'sugar', sums[backwards]![0]],
      `more sugar without more heat: ${sums[backwards]!.join(' g/L at ')} degree days, ${sums[backwards - 1]!.join(' g/L at ')}`,
      'more g/L of sugar takes a larger heat sum; check both pairs',
    )
  return slips.found
}
