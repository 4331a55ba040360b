import type { Product } from '../../records/kinds/product.ts'

interface Wanted {
  key: string
  /** How to write it. */
  write: string
  /** What goes unchecked without it. */
  needed: string
  isThere: (product: Product) => boolean
}

/** A field that a product's record lacks, and what can't be checked without it. */
type LabelGap = Omit<Wanted, 'isThere'>

const sprayedAlone = ({ kind }: Product) => kind !== 'adjuvant'

/** What the rules and reports take from a label, in the order in which a missing figure does harm. */
const WANTED: readonly Wanted[] = [
  {
    key: 'before_harvest',
    write: 'before_harvest: 21 d',
    needed: 'the pre-harvest interval (PHI)',
    isThere: (product) =>
      product.before_harvest !== undefined || product.uses.every((use) => use.before_harvest !== undefined),
  },
  {
    key: 're_entry',
    write: 're_entry: 24 h',
    needed: 'the re-entry interval (REI)',
    isThere: ({ re_entry }) => re_entry !== undefined,
  },
  {
    key: 'authorisation.number',
    write: 'authorisation: { number: ... }',
    needed: 'the official record',
    isThere: ({ authorisation }) => authorisation?.number !== undefined,
  },
  {
    key: 'authorisation.until',
    write: 'authorisation: { until: 2029-12-31 }',
    needed: 'whether it may still be used',
    isThere: ({ authorisation }) => authorisation?.until !== undefined,
  },
  {
    key: 'actives.content',
    write: 'actives: [ { name: ..., content: 800 g/kg } ]',
    needed: 'active substance and copper per area',
    isThere: ({ actives }) => actives.every(({ content }) => content !== undefined),
  },
  {
    key: 'actives.group',
    write: 'actives: [ { name: ..., group: M02 } ]',
    needed: 'how often a mode of action is used in a row',
    isThere: (product) => !sprayedAlone(product) || product.actives.every(({ group }) => group !== undefined),
  },
  {
    key: 'uses.interval',
    write: 'uses: [ { interval: 7-14 d } ]',
    needed: 'the days between two applications',
    isThere: (product) =>
      !sprayedAlone(product) || product.uses.every(({ interval }) => interval !== undefined),
  },
  {
    key: 'max_per_season',
    write: 'max_per_season: 8',
    needed: 'how many applications are left',
    isThere: (product) =>
      product.max_per_season !== undefined ||
      product.max_total !== undefined ||
      product.uses.every((use) => use.max_per_season !== undefined),
  },
  {
    key: 'max_in_row',
    write: 'max_in_row: 3',
    needed: 'when to change the mode of action',
    isThere: (product) => product.max_in_row !== undefined || product.actives.every(isUnlimited),
  },
  {
    key: 'water',
    write: 'water: 200-1000 L/ha',
    needed: 'whether the water is within the label',
    isThere: ({ water }) => water !== undefined,
  },
  {
    key: 'protects',
    write: 'protects: 10 d',
    needed: 'how long the vines are protected',
    isThere: (product) => !sprayedAlone(product) || product.protects !== undefined,
  },
]

/** How to write what is missing, with the units of the ledger. */
export function writeIn({ write }: LabelGap, units: 'metric' | 'us' | 'imperial'): string {
  if (units === 'metric') return write
  return write.replace('200-1000 L/ha', `20-100 ${units === 'us' ? 'US' : 'imp'} gal/acre`)
}

/** FRAC groups M (multi-site), BM (biologicals) and NC (not classified) carry no limit of applications in a row. From memory. */
const isUnlimited = ({ group }: Product['actives'][number]) =>
  group === undefined || /^(?:M\d\d|BM\d\d|NC)$/.test(group)

/** What a product's record lacks of its label. */
export const labelGaps = (product: Product): LabelGap[] =>
  WANTED.flatMap(({ isThere, ...gap }) => (isThere(product) ? [] : [gap]))
