import type { Ledger } from '../../ledger/read/ledger.ts'
import type { PlainEntry, PlainValue } from '../../ledger/write/entry-text.ts'
import { inSiteUnits } from '../../records/typed/site-way.ts'
import type { Style } from '../../render/style.ts'
import { displayRange } from '../../render/units.ts'
import { readDose } from '../../reports/note/read-products.ts'
import { readWeather } from '../../reports/note/read-weather.ts'
import { UsageError } from '../plumbing/errors.ts'
import { choosing } from './choices.ts'
import { saidFault, valueText } from './field-question.ts'
import type { Part, Question, Read } from './question.ts'
import { asked, exampleIn, unlessMetric, wordingOf } from './wording.ts'

const PART_HELP = 'Type all, rows 1-8, 50 %, 12 vines, or spot 12 vines.'

/**
 * Asks whether the whole block was sprayed, or which part.
 * @param advised the answer of Enter alone
 */
export function partQuestion(advised = 'all'): Question {
  return {
    key: 'part',
    ask: 'Was all of it sprayed? Else for example rows 1-8, 50 %, or spot 12 vines.',
    why: 'Doses, copper and protection count for the part that was sprayed. `spot` is a treatment of single vines.',
    preset: advised,
    read: readPart,
  }
}

/** Reads `all`, `rows 1-8`, `half`, `50 %`, `12 vines`, `spot 12 vines`, `spot` as options of a spray. */
function readPart(text: string): Read {
  const word = text.trim().toLowerCase()
  if (/^(?:all|all of it|yes|y|whole|the whole)$/.test(word)) return { parts: [] }
  const isSpot = /^spots?\b/.test(word)
  const parts: Part[] = isSpot ? [{ option: 'method', text: 'spot' }] : []
  const rest = word.replace(/^spots?(?: (?:spray|treatment))?(?: of| on|:|,)?/, '').trim()
  const rows = /^(?:in )?rows? (\d+(?:\s*(?:-|to)\s*\d+)?)$/.exec(rest)
  const share =
    /^(\d+(?:\.\d+)?) ?(?:%|percent|per cent)$/.exec(rest)?.[1] ??
    (/^half(?: of it)?$/.test(rest) ? '50' : undefined)
  const vines = /^(\d+) vines?$/.exec(rest)
  if (rows) parts.push({ option: 'rows', text: rows[1]!.replace(/\s/g, '').replace('to', '-') })
  else if (share !== undefined && Number(share) > 0 && Number(share) <= 100)
    parts.push({ option: 'share', text: `${share} %` })
  else if (vines && Number(vines[1]) > 0) parts.push({ option: 'vines', text: vines[1]! })
  else if (/\bvines?\b.*\brows?\b/.test(rest))
    return { fault: 'Type the vines or the rows, not both. By rows, sprays of other rows are told apart.' }
  else if (rest !== '' || !isSpot) return { fault: PART_HELP }
  return { parts }
}

/** The same of an entry: `all`, `rows 1-8`, `spot 12 vines`. */
export function partText({ method, rows, share, vines }: PlainEntry): string {
  const said = [
    method === 'spot' ? 'spot' : [],
    rows === undefined ? [] : `${/-/.test(String(rows)) ? 'rows' : 'row'} ${rows}`,
    share === undefined ? [] : String(share),
    vines === undefined ? [] : `${vines} vines`,
  ]
  return said.flat().join(' ') || 'all'
}

/** Asks for the water of a spot spray, in all; a bare number gets the unit of the example. */
export function spotWater(question: Question, units: Style['units']): Question {
  const unit = { metric: 'L', us: 'US gal', imperial: 'imp gal' }[units]
  const example = `${units === 'metric' ? '2' : '0.5'} ${unit}`
  return {
    ...question,
    ask: `How much spray was used on them? For example ${example}.`,
    why: 'All of it together: the amount of product follows from it.',
    optional: false,
    read: (text) => {
      const said = text.trim()
      const read = question.read(/^\d+(?:\.\d+)?$/.test(said) ? `${said} ${unit}` : said)
      if (said.includes('/') || (read.fault && !read.fault.includes('comma')))
        return { fault: `Type what was used in all, like ${example}.` }
      return read
    },
  }
}

/** Asks for the weather, on one line. */
export function weatherQuestion(units: Style['units'], preset = ''): Question {
  const wording = wordingOf('sprays', 'weather')!
  return {
    key: 'weather',
    ask: asked(wording, units),
    why: wording.why,
    optional: true,
    preset,
    read: (text) => {
      const { fault } = readWeather(text, exampleIn(wording.like, units))
      return fault ? { fault: saidFault(fault) } : { parts: [{ option: 'weather', text }] }
    },
  }
}

/** The weather of an entry, as it would be typed: `1.8 m/s SW 17 C 70 %`. */
export function weatherText(weather: PlainValue | undefined): string {
  const said = (weather ?? {}) as PlainEntry
  return ['wind', 'from', 'temperature', 'humidity', 'sky'].flatMap((key) => said[key] ?? []).join(' ')
}

interface AboutProducts {
  ledger: Ledger
  /** The products of the last spray. */
  before: readonly PlainEntry[]
  /** Ids of the chosen products. */
  chosen: readonly string[]
  /** Whether `--for` was typed. */
  hasTargets: boolean
}

/** Asks which products were used, then for the dose and target of each. */
export function productQuestions({ ledger, before, chosen, hasTargets }: AboutProducts): Question[] {
  const products = [...ledger.products.values()]
  if (products.length === 0)
    throw new UsageError(
      'no product is recorded yet',
      'record it first, copied from its label: `rowbook note product`',
    )
  const names = before.map(({ product }) => ledger.products.get(String(product))?.name ?? String(product))
  const which: Question = {
    key: 'product',
    ask: 'Which products were in the tank? Several with commas.',
    why: 'The list shows the products in your records. `rowbook note product` adds one from its label.',
    ...choosing('product', products, { several: true }),
    preset: names.join(', '),
  }
  const more = chosen.flatMap((id) => {
    const like = before.find((part) => part.product === id)
    return [doseQuestion(id, ledger, like), ...(hasTargets ? [] : targetQuestion(id, ledger, like))]
  })
  return [which, ...more]
}

const IN_ALL = /\s{0,9}(?:in all|in total|altogether)$/i

/** `100 g per 10 litres`, as a label prints it: `100 g in 10 L`. */
const asLabel = (text: string) =>
  text
    .replace(/\blit(?:er|re)s?\b/gi, 'L')
    .replace(/\s{0,9}\b(?:per|to) (?=\d)/i, ' in ')
    .replace(/\s{1,9}per (?=[a-z])/i, '/')

function doseQuestion(id: string, { products, vineyard }: Ledger, like: PlainEntry | undefined): Question {
  const product = products.get(id)
  const use = product?.uses[0]
  const label = use?.rate ?? use?.concentration
  const span = label ? displayRange(label, vineyard.units) : null
  const example = unlessMetric('3 kg/ha, or 1.2 kg in all', '3 lb/acre, or 2.5 lb in all')
  return {
    key: `dose:${id}`,
    ask: `Dose of ${product?.name ?? id}? ${span === null ? `For example ${example[vineyard.units]}.` : `The label says ${span}.`}`,
    why: `Per area, per volume of spray, or what you used in all (${unlessMetric('kg/ha, g/L, kg', 'lb/acre, oz/gal, lb')[vineyard.units]}). Always with its unit.`,
    preset: valueText(like?.rate ?? like?.concentration ?? like?.amount),
    read: (text) => {
      const isBare = /^\d+(?:\.\d+)?$/.test(text.trim())
      // The question shows the unit of the label, so a bare number gets that unit.
      const meant = isBare && span ? `${text.trim()} ${span.replace(/^[\d\s.,-]+/, '')}` : text
      const typed = inSiteUnits(asLabel(meant), vineyard.units).replace(IN_ALL, '')
      const { fault } = readDose(typed, vineyard.units)
      return fault ? { fault: saidFault(fault) } : { parts: [{ option: 'product', text: `${id}=${typed}` }] }
    },
  }
}

/** Whether the water was left out although a dose is for a volume of spray. */
export const isWaterOpen = (answers: ReadonlyMap<string, readonly Part[]>): boolean =>
  answers.get('water')?.length === 0 &&
  [...answers].some(
    ([key, parts]) =>
      key.startsWith('dose:') &&
      parts.some(({ text }) => readDose(text.slice(text.indexOf('=') + 1), 'metric').key === 'concentration'),
  )

/** Asks what a product was used against, where its label names several targets. */
function targetQuestion(id: string, { products }: Ledger, like: PlainEntry | undefined): Question[] {
  const targets = [...new Set(products.get(id)?.uses.map((use) => use.against) ?? [])]
  if (targets.length < 2) return []
  const records = targets.map((target) => ({ id: target, name: target }))
  return [
    {
      key: `for:${id}`,
      ask: `What was ${products.get(id)?.name ?? id} against? Several with commas.`,
      why: 'Dose, interval and pre-harvest interval (PHI) depend on it.',
      ...choosing('for', records, { several: true, before: `${id}=` }),
      optional: true,
      preset: valueText(like?.for),
    },
  ]
}
