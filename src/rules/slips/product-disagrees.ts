import { distance } from 'fastest-levenshtein'
import { figureText } from '../../facts/sentences.ts'
import { contentOf } from '../../facts/spraying/actives.ts'
import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import type { Path } from '../../ledger/read/source.ts'
import type { Product } from '../../records/kinds/product.ts'
import type { Rule } from '../rule.ts'
import { type Slips, slipsIn } from './usual.ts'

const SOLID = new Set(['WG', 'WP', 'SG', 'SP', 'DP', 'GR', 'WT', 'ST', 'EG', 'EP'])
const LIQUID = new Set(['SC', 'EC', 'SL', 'EW', 'OD', 'SE', 'CS', 'ME', 'DC', 'ZC'])

/** Kinds of product, to catch a misspelt one; other words are allowed. */
const KINDS: readonly string[] =
  'fungicide,insecticide,acaricide,herbicide,molluscicide,bactericide,biological,oil,adjuvant,wetter,water conditioner,fertiliser,fertilizer,growth regulator,repellent'.split(
    ',',
  )

/** Active substances whose name affects calculations, with their group and the kg/ha in a label dose. */
const MINERALS = [
  { name: 'copper', is: /\bcopper\b/i, group: 'M01', low: 0.1, high: 8 },
  { name: 'sulphur', is: /\bsul(?:ph|f)ur\b/i, group: 'M02', low: 0.5, high: 60 },
] as const

/** A product whose figures and words contradict each other. */
export const productDisagrees: Rule = {
  name: 'product-disagrees',
  what: "A product's figures contradict each other: a liquid in kilograms or a powder in litres; stock or price in another measure than the dose; copper or sulphur outside its own mode-of-action group; a label dose with almost no copper or sulphur, or far too much; a word one or two letters from a known one. Or the number in its name is ten times its content. Or its form is XX, which is any other form.",
  limits:
    'The highest dose of the label usually has 0.1 to 8 kg/ha of copper, or 0.5 to 60 kg/ha of sulphur.',
  source: 'groups M01 and M02: FRAC Code List; the rest own rule',
  basis: 'own',
  check: ({ ledger }) =>
    slipsIn(ledger.products.values(), (slips, product) => {
      measures(slips, product)
      minerals(slips, product)
      named(slips, product)
      words(slips, product, ledger)
    }),
}

/** kg or L, where all doses of the label agree. */
function measureOf({ uses }: Product): 'kg' | 'L' | null {
  const doses = uses.flatMap(({ rate, concentration }) => [rate ?? [], concentration ?? []].flat())
  const known = new Set(doses.flatMap(({ unit }) => (unit === '%' ? [] : /^k?g/.test(unit) ? 'kg' : 'L')))
  const [only = null] = known
  return known.size === 1 ? only : null
}

function measures(slips: Slips, product: Named<Product>): void {
  const { form, actives, stock, price } = product
  const dosed = measureOf(product)
  const inSolid = actives.findIndex(({ content }) => content?.unit === 'g/L')
  const weighed = actives.every(({ content }) => content?.unit === 'g/kg')
  if (SOLID.has(form) && inSolid >= 0)
    slips.odd(
      ['actives', inSolid, 'content'],
      `${form} is a solid, but its content is in g/L`,
      'read form and content on the label again: a solid has its content in g/kg or %',
    )
  if (SOLID.has(form) && dosed === 'L')
    slips.odd(
      ['form'],
      `${form} is a solid, but the label's dose is in L`,
      'read the two letters of the form on the label again, and whether its dose is in kg or L',
    )
  if (LIQUID.has(form) && dosed === 'kg' && weighed)
    slips.odd(
      ['form'],
      `${form} is a liquid, but its dose is in kg and its content in g/kg`,
      'read the two letters of the form on the label again; a liquid has its content in g/L',
    )
  if (!dosed) return
  if (stock && stock.unit !== dosed)
    slips.odd(
      ['stock'],
      `the stock is in ${stock.unit}, but the label's dose is in ${dosed}`,
      "write the stock in the measure of the label's dose",
    )
  if (price && price.per !== dosed)
    slips.odd(
      ['price'],
      `the price is per ${price.per}, but the label's dose is in ${dosed}`,
      "write the price for the measure of the label's dose",
    )
}

/**
 * A content that is a tenth of the number in the name, as in `Guard 250 SC`, but for percent, which are tenths of g/kg;
 * and a form that says nothing.
 */
function named(slips: Slips, { id, name, form, actives }: Named<Product>): void {
  const contents = actives.map(({ content }) => (content?.unit === '%' ? undefined : content?.value))
  const numbers = (`${id} ${name}`.match(/\d+/g) ?? []).map(Number)
  for (const [index, content] of contents.entries())
    if (
      content !== undefined &&
      numbers.includes(content * 10) &&
      !contents.some((one) => numbers.includes(one!))
    )
      slips.odd(
        ['actives', index, 'content'],
        `the name says ${content * 10}, but the content is ${figureText(content, actives[index]!.content!.unit)}`,
        'read the content on the label again, and its decimal point',
      )
  if (form === 'XX')
    slips.odd(
      ['form'],
      '`XX` stands for any other form, which has no place in the order of mixing',
      'read the letters on the label again, often after the name: WG, SC, EC and so on',
    )
}

function minerals(slips: Slips, { actives, kind, uses }: Named<Product>): void {
  if (!/fungicide/i.test(kind)) return
  const rates = uses.flatMap(({ rate }) => (rate && !rate.unit.endsWith('wall') ? [rate] : []))
  const most = rates.toSorted((a, b) => b.high - a.high)[0]
  for (const [index, active] of actives.entries())
    for (const { name, is, group, low, high } of MINERALS) {
      if (!is.test(active.name)) continue
      const content = contentOf(active)
      if (active.group !== undefined && active.group !== group)
        slips.odd(
          ['actives', index, 'group'],
          `${active.name} belongs to group ${group}, not ${active.group}`,
          'read the group (FRAC code) on the label again, and the name of the active substance',
        )
      if (content === null || !most) continue
      const perHa = (content / 1000) * most.high
      if (perHa < low || perHa > high)
        slips.odd(
          ['actives', index, 'content'],
          `the label's highest dose, ${figureText(most.high, most.unit)}, would be ${figureText(perHa, 'kg/ha')} of ${name}`,
          'read content and dose on the label again; for copper, the content of the metal',
        )
    }
}

function words(slips: Slips, product: Named<Product>, ledger: Ledger): void {
  const others = [...ledger.products.values()]
  const names = [
    ...others.flatMap(({ id, name, kind, actives }) => [id, name, kind, ...actives.map((one) => one.name)]),
    ...KINDS,
    ...['sulphur', 'sulfur', 'copper', 'lime sulphur', 'oils'],
  ]
  const tell = (path: Path, word: string, known: readonly string[]) => {
    const near = nearMiss(word, known)
    if (near !== null)
      slips.odd(
        path,
        `\`${word}\` is not known here: did you mean \`${near}\`?`,
        "if it is that word, correct it: rules go by it; if it isn't, leave it",
      )
  }
  tell(['kind'], product.kind, KINDS)
  for (const [index, { name }] of product.actives.entries())
    tell(['actives', index, 'name'], name, ['copper', 'sulphur', 'sulfur'])
  for (const [index, { from }] of (product.keep_apart ?? []).entries())
    tell(['keep_apart', index, 'from'], from, names)
}

/** The known word that was probably meant; null where the word is known, or close to none. */
function nearMiss(word: string, known: readonly string[]): string | null {
  const plain = word.trim().toLowerCase()
  const list = known.map((one) => one.toLowerCase())
  if (list.includes(plain) || list.some((one) => ` ${one} `.includes(` ${plain} `))) return null
  const off = (one: string) => distance(one, plain)
  const best = list.toSorted((a, b) => off(a) - off(b))[0]!
  return plain.length > 4 && off(best) <= (plain.length > 7 ? 2 : 1) ? best : null
}
