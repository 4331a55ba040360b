import type { PlainEntry } from '../../ledger/write/entry-text.ts'
import { DISEASES } from '../../records/disease.ts'
import { type Fault, fault, type Read } from '../../records/fault.ts'
import { formulationCode } from '../../records/fields/label-codes.ts'
import { product } from '../../records/kinds/product.ts'
import { findNamed } from '../../records/typed/named.ts'
import { faultOf, tidy } from './read.ts'

type ReadEntry = Read<{ value: PlainEntry }>

const CONTENT = /\b(\d+(?:\.\d+)?)\s*(g\/kg|g\/L|%)/i
/** A code of the mode-of-action groups (FRAC, IRAC) behind the substance: `M02`, `11`, `BM 02`. */
const GROUP =
  /[\s,(]{1,9}(?:FRAC|IRAC|HRAC)?\s{0,9}(?:group|code)?\s{0,9}((?:[A-Z]{1,2}\s?)?\d{1,2}[A-Z]?|NC)\)?$/i

const ACTIVE_HELP = 'write it as `sulphur 800 g/kg M02`: substance, content, mode-of-action group'

/** Reads an active substance as its label prints it: `sulphur 800 g/kg M02`; content and group may be missing. */
export function readActive(text: string): ReadEntry {
  const typed = text.trim()
  const content = CONTENT.exec(typed)
  const rest = content ? typed.replace(content[0], ' ') : typed
  const group = GROUP.exec(rest.trimEnd())
  const name = (group ? rest.trimEnd().slice(0, group.index) : rest).replace(/[\s,]+/g, ' ').trim()
  if (!/[a-z]{2}/i.test(name)) return fault(`\`${typed}\` names no substance`, ACTIVE_HELP)
  if (formulationCode(name) !== null)
    return fault(
      `\`${name}\` is the form of a product, not a substance`,
      'write what is in the product, like `sulphur 800 g/kg M02`; the form is asked for by itself',
    )
  const value: PlainEntry = { name }
  if (content) value.content = `${content[1]} ${content[2]}`
  if (group) value.group = group[1]!.replace(/\s/g, '').toUpperCase()
  return checked('actives', value, ACTIVE_HELP)
}

const USE_HELP = 'write it as `powdery 2-6 kg/ha every 7-14 d`: disease, dose as printed, days between sprays'
const INTERVAL =
  /[,;]?\s{0,9}(?:every|interval|after)\s{1,9}(\d{1,4}(?:\s{0,9}-\s{0,9}\d{1,4})?)\s{0,9}(?:d|days?|(weeks?))?(?=\s{0,9}(?:[,;]|$))/i

/**
 * Reads a use of a label: `powdery 2-6 kg/ha every 7-14 d, at most 6 a season`, `downy 50 g in 10 L`, the dose in the
 * units printed.
 */
export function readUse(text: string): ReadEntry {
  const typed = text.trim()
  const interval = INTERVAL.exec(typed)
  const said =
    /^(\D*?[^\d\s:,=])[\s:,=]+((?:(?:up to|at most|max(?:imum|\.)?|no more than)\s{1,9})?\d.*)$/i.exec(
      interval ? typed.replace(interval[0], '') : typed,
    )
  if (!said) return fault(`\`${typed}\` is not a disease and its dose`, USE_HELP)
  const dose = readLabelDose(said[2]!)
  if (dose.fault) return dose
  const every: PlainEntry = interval
    ? { interval: `${interval[1]!.replace(/\s/g, '')} ${interval[2] ?? 'd'}` }
    : {}
  return checked('uses', { against: targetNamed(said[1]!), ...dose.value, ...every }, USE_HELP)
}

/** A decimal comma; three figures behind it may as well be thousands. */
const DECIMAL_COMMA = /(\d),(?=\d{1,2}(?!\d))/g

/** A dose as a label prints it, with the key that its unit belongs to. Typed here, a decimal comma leaves no doubt. */
export function readLabelDose(text: string): ReadEntry {
  const dose = tidy(text.trim().replace(DECIMAL_COMMA, '$1.'), { keeps: ['kg/ha'] })
  let first: Fault | null = null
  for (const key of ['rate', 'concentration']) {
    const { fault: wrong } = checked('uses', { against: 'powdery', [key]: dose }, USE_HELP)
    if (!wrong) return { value: { [key]: dose } }
    first ??= wrong
  }
  const { message, help } = first!
  const isOwn = /comma|everywhere|an acre/.test(message)
  return fault(message, isOwn ? help : DOSE_HELP)
}

const DOSE_HELP = 'write the dose as printed: 2-6 kg/ha, 5-20 g/L, 50 g in 10 L'

/** The disease that is meant, or the word itself: a label may name a pest too. */
export function targetNamed(said: string): string {
  const word = said
    .trim()
    .toLowerCase()
    .replace(/\s{1,9}mildew$/, '')
  const diseases = DISEASES.map((id) => ({ id, name: id }))
  return findNamed(word, diseases).found?.id ?? said.trim()
}

/** Checks one item of a list of a product. */
function checked(list: 'actives' | 'uses', value: PlainEntry, help: string): ReadEntry {
  const result = product().shape[list].safeParse([value])
  return result.success ? { value } : faultOf(result.error.issues[0]!, help)
}
