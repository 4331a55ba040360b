import { type JudgedLedger, judged } from '../../facts/judged.ts'
import type { Ledger, SprayEntry } from '../../ledger/read/ledger.ts'
import { type Node, nodeAt, type Path, type Placed } from '../../ledger/read/source.ts'
import { SEASON_KINDS } from '../../records/kinds.ts'
import { type Found, findingAt, type Rule } from '../rule.ts'

/** A unit of another system than the ledger or the label has, whose figure would pass for a likely one. */
export const mixedUnits: Rule = {
  name: 'mixed-units',
  what: 'Imperial gallons, pints or fluid ounces in a ledger with `units: us`, or US ones with `units: imperial`. Or some lengths of a block are in feet and others in metres. Or a dose is for an acre where label and ledger have hectares, or the other way round.',
  limits:
    'These units are so close that a slip passes elsewhere: an imperial gallon is 1.2 US gal; a metre is 3.28 ft; a lb/acre is 1.12 kg/ha.',
  source: 'own rule; units as their names say',
  basis: 'own',
  check: (input) => {
    const { ledger } = input
    const standing = [ledger.blocks, ledger.products, ledger.sprayers].flatMap(
      (records): Placed<object>[] => [...records.values()],
    )
    const entries = SEASON_KINDS.flatMap((kind): Placed<object>[] => judged(input, kind))
    return [
      ...[ledger.vineyard, ...standing, ...entries].flatMap((record) => foreign(record, ledger)),
      ...[...ledger.blocks.values()].flatMap(lengths),
      ...judged(input, 'sprays').flatMap((spray) => doses(input, spray)),
    ]
  },
}

const warning = (record: Placed<object>, path: Path, message: string): Found =>
  findingAt(record, path, {
    message,
    help: 'check the unit. A figure converted on purpose is safer in the unit of the label or of the ledger',
  })

/** Fields in which a unit is only words. */
const WORDS = new Set(['name', 'note', 'label', 'location', 'job', 'taste', 'seeds'])

const GALLONS = {
  us: { other: /\bimp (?:gal|pt|fl oz)\b/, said: 'imperial' },
  imperial: { other: /\bUS (?:gal|pt|qt|fl oz)\b/, said: 'US' },
} as const

/** Gallons and their parts as another country measures them. */
function foreign(record: Placed<object>, { vineyard: { units } }: Ledger): Found[] {
  if (units === 'metric') return []
  const { other, said } = GALLONS[units]
  // Looking into a record parses its file again, so only files with such a unit are parsed.
  if (!other.test(record.source.at.text)) return []
  const found: Found[] = []
  const look = (node: Node, path: Path): void => {
    if (node.kind === 'map') {
      for (const { key, value } of node.entries) if (!WORDS.has(key)) look(value, [...path, key])
    } else if (node.kind === 'list') {
      for (const [index, item] of node.items.entries()) look(item, [...path, index])
    } else if (other.test(node.text))
      found.push(
        warning(record, path, `${node.text} is in ${said} units, but the ledger has \`units: ${units}\``),
      )
  }
  look(record.source.node, [])
  return found
}

const LENGTHS = [
  ['row_spacing'],
  ['vine_spacing'],
  ['row_length'],
  ['canopy', 'height'],
  ['canopy', 'width'],
] as const

/** One length in feet among others in metres, or the reverse. */
function lengths(block: Placed<object>): Found[] {
  if (!/\d\s*(?:ft|in)\b/.test(block.source.at.text)) return []
  const read = LENGTHS.flatMap((path) => {
    const text = textAt(block, path)
    return text === null ? [] : { path, text }
  })
  const feet = read.filter(({ text }) => /(?:ft|in)$/.test(text))
  const metres = read.filter((one) => !feet.includes(one))
  if (feet.length === 0 || metres.length === 0 || read.length < 3) return []
  const [few, others] = feet.length < metres.length ? [feet, 'metres'] : [metres, 'feet']
  return few.map(({ path, text }) => warning(block, path, `${text}, but the other lengths are in ${others}`))
}

/** Doses for another unit of ground than the label's, where the ledger has the label's. */
function doses({ ledger }: JudgedLedger, spray: SprayEntry): Found[] {
  const [wanted, other] = ledger.vineyard.units === 'metric' ? ['ha', 'acre'] : ['acre', 'ha']
  return spray.products.flatMap((part, index) => {
    const path = ['products', index, 'rate']
    const typed = textAt(spray, path)
    const product = ledger.products.get(part.product)
    if (typed === null || !product || groundOf(typed) !== other) return []
    const label = product.uses.map((_, use) => textAt(product, ['uses', use, 'rate']))
    if (!label.some((text) => text !== null && groundOf(text) === wanted)) return []
    return [warning(spray, path, `${typed}, but the label of ${product.name} gives its rates per ${wanted}`)]
  })
}

const groundOf = (text: string) => /\/\s*(ha|acre)\b/.exec(text)?.[1] ?? null

function textAt(record: Placed<object>, path: Path): string | null {
  const node = nodeAt(record.source.node, path)
  return node?.kind === 'scalar' ? node.text : null
}
