import { vinesPerHa } from '../../agronomy/crop/area.ts'
import { type JudgedLedger, judged } from '../../facts/judged.ts'
import { figureText } from '../../facts/sentences.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import { yearOf } from '../../records/date.ts'
import type { Block } from '../../records/kinds/block.ts'
import type { Variety } from '../../records/kinds/variety.ts'
import { ENTRY_CALLED } from '../../records/kinds.ts'
import { longDate } from '../../records/spoken-date.ts'
import { mention, PRACTICE, type Rule } from '../rule.ts'
import { isUsual, type Slips, slipsIn, type Usual } from './usual.ts'

/** A block whose figures no vineyard has, and a variety likewise. */
export const unlikelyBlock: Rule = {
  name: 'unlikely-block',
  what: 'Spacing, length, canopy, year or targets of a block or variety are far from usual, or contradict each other. Or two blocks have one name. Or a block has entries from before it was planted, or a pick of the year of planting.',
  limits:
    'Usual are: rows 0.8 to 4.5 m apart, up to 600 m long; vines 0.4 to 3.5 m apart, three a row or more, 800 to 20 000 a hectare; a canopy up to 2.5 m high, 0.1 m wide or more and narrower than the row; sugar targets of 12 to 30 Brix; planting up to 150 years ago.',
  ...PRACTICE,
  check: (input) => {
    const blocks = [...input.ledger.blocks.values()]
    return [
      ...slipsIn(blocks, (slips, block) => {
        spacings(slips, block)
        canopies(slips, block)
        plantings(slips, input, block)
        const namesake = blocks.find(({ name }) => name === block.name)!
        if (namesake !== block)
          slips.odd(
            ['name'],
            `${namesake.id} has the same name (${mention(namesake, ['name'])})`,
            'give each block a name of its own; if it is the same block, remove one file',
          )
      }),
      ...slipsIn(input.ledger.varieties.values(), ofVariety),
    ]
  },
}

const SPACINGS: Usual = {
  row_spacing: ['row spacing', 0.8, 4.5, 'm'],
  vine_spacing: ['vine spacing', 0.4, 3.5, 'm'],
}
const SUGAR = [12, 30] as const
const OTHERS: Usual = {
  row_length: ['row length', 5, 600, 'm'],
  rows: ['number of rows', 1, 500],
  'canopy.height': ['height of the leaf wall', 0.3, 2.5, 'm'],
  'canopy.width': ['width of the canopy', 0.1, 6, 'm'],
  'targets.ph.low': ['pH target', 2.8, 3.8],
  'targets.ph.high': ['pH target', 2.8, 4.1],
  'targets.ta.high': ['acid target', 3, 16, 'g/L'],
  'targets.brix.low': ['sugar target', ...SUGAR],
}
/** Years after which a planting is likelier a wrong century. */
const OLDEST = 150

function spacings(slips: Slips, block: Named<Block>): void {
  const { row_spacing, vine_spacing, targets, rows, vines } = block
  slips.compare(SPACINGS)
  const density = vinesPerHa({ rowSpacing: row_spacing, vineSpacing: vine_spacing })
  if (slips.found.length === 0) slips.unusual(['vine_spacing'], density, 'density', [800, 20_000, 'vines/ha'])
  slips.compare(OTHERS)
  const brix = targets?.brix
  if (brix && isUsual(brix.low, SUGAR))
    slips.unusual(['targets', 'brix'], brix.high, 'sugar target', [12, 35])
  if (vine_spacing > row_spacing * 1.3)
    slips.odd(
      ['vine_spacing'],
      `vines ${figureText(vine_spacing, 'm')} apart in rows only ${figureText(row_spacing, 'm')} apart`,
      'row spacing is between the rows, vine spacing along them: they may be swapped',
    )
  if (rows !== undefined && vines !== undefined && rows > 1 && vines / rows < 3)
    slips.odd(
      ['rows'],
      `${vines} vines in ${rows} rows are ${figureText(vines / rows)} a row`,
      '`vines` is the number in the whole block, `rows` that of its rows; count again',
    )
}

function canopies(slips: Slips, { canopy, row_spacing }: Named<Block>): void {
  const { height = Infinity, width = 0 } = canopy ?? {}
  if (width > 1 && width > height * 2)
    slips.odd(
      ['canopy', 'width'],
      `a canopy ${figureText(width, 'm')} wide and only ${figureText(height, 'm')} high`,
      'height and width may be swapped; height is that of the leaf wall, without the trunk',
    )
  if (width >= row_spacing)
    slips.odd(
      ['canopy', 'width'],
      `a canopy ${figureText(width, 'm')} wide fills the ${figureText(row_spacing, 'm')} between the rows`,
      'width is across the row; measure it, or correct the row spacing',
    )
}

/** Entries that need vines, and a pick, which needs them to have grown for a season. */
const OF_VINES = ['sprays', 'scouting', 'samples', 'stages', 'crop', 'picks'] as const

function plantings(slips: Slips, input: JudgedLedger, { id, planted }: Named<Block>): void {
  const thisYear = yearOf(input.asOf)
  if (planted === undefined) return
  if (planted > thisYear) {
    const message = `planted in ${planted}, in the future on ${longDate(input.asOf)}`
    slips.odd(['planted'], message, 'check the year of planting')
    return
  }
  if (planted < thisYear - OLDEST)
    slips.odd(['planted'], `planted in ${planted}, more than ${OLDEST} years ago`, 'check the century')
  if ([...input.seasons].every((season) => season > planted)) return
  const early = OF_VINES.flatMap((kind) => {
    const first = judged(input, kind).find(
      (entry) =>
        (kind === 'picks' ? entry.season <= planted : entry.season < planted) &&
        ('blocks' in entry ? entry.blocks.includes(id) : entry.block === id),
    )
    return first ? [{ first, called: ENTRY_CALLED[kind] }] : []
  })
  const [one] = early.toSorted((a, b) => (a.first.date < b.first.date ? -1 : 1))
  if (one)
    slips.odd(
      ['planted'],
      `planted in ${planted}, but a ${one.called} is dated ${longDate(one.first.date)} (${mention(one.first, ['date'])})`,
      'check the year of planting, and the date and block of the entry. Vines planted anew are a block of their own, in a new file',
    )
}

const OF_VARIETY: Usual = {
  'targets.brix.low': ['sugar target', ...SUGAR],
  'after_veraison.high': ['time from veraison to ripeness', 15, 100, 'd'],
}

function ofVariety(slips: Slips, { heat, targets }: Named<Variety>): void {
  const brix = targets?.brix
  if (brix && brix.high - brix.low > 10)
    slips.odd(
      ['targets', 'brix'],
      `ripe from ${figureText(brix.low)} to ${figureText(brix.high)} Brix is too wide a range`,
      'write the Brix between which you would pick',
    )
  slips.compare(OF_VARIETY)
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
}
