import { inLedgerUnits, typedIn } from '../../facts/ledger-units.ts'
import type { ReportInput } from '../../facts/report.ts'
import { rangeText } from '../../facts/sentences.ts'
import { usesFor } from '../../facts/spraying/label.ts'
import { type Quantity, readRange } from '../../records/quantity.ts'
import { findNamed } from '../../records/typed/named.ts'
import { CONCENTRATION_UNITS, RATE_UNITS } from '../../records/units.ts'
import type { MixPart } from '../../reports/mix/job.ts'
import type { Call } from '../plumbing/call.ts'
import { notOne, UsageError } from '../plumbing/errors.ts'

const DOSE_UNITS = [...RATE_UNITS, ...CONCENTRATION_UNITS, 'kg', 'L']

/** The products of `--product` and `--dose`, in the order typed. */
export function partsOf(call: Call, input: ReportInput | null): MixPart[] {
  const wanted = call.texts('for')
  const parts: MixPart[] = []
  for (const option of ['product', 'dose'] as const)
    for (const text of call.texts(option)) {
      const { said, dose } = parted(text)
      if (said === '') throw new UsageError(`--${option} ${text} names no product`, 'write it as name=dose')
      const product = productMeant(input, { option, said, dose })
      const id = product?.id ?? said
      if (parts.some((part) => part.id === id))
        throw new UsageError(`${id} is named twice`, 'give one dose of it')
      const fitting = wanted.filter((target) => product?.uses.some((use) => use.against === target))
      const targets = fitting.length > 0 ? fitting : wanted.length > 0 ? wanted : undefined
      parts.push({
        id,
        product,
        dose: doseOf(call, { option, id, dose }, { product, targets }),
        targets,
      })
    }
  if (parts.length === 0)
    throw new UsageError('mix needs what to mix', 'name it: --dose "sulphur=3 kg/ha", or --product ID=RATE')
  addMost(call, parts)
  return parts
}

/** Splits `soap=15 g/L` or `soap 15 g/L` into product and dose; the dose is empty where there is none. */
function parted(text: string): { said: string; dose: string } {
  const at = text.indexOf('=')
  if (at !== -1) return { said: text.slice(0, at).trim(), dose: text.slice(at + 1).trim() }
  const [, said, dose] = /^(.*\S)\s+(\d[\d.]*\s*[a-z%].*)$/i.exec(text.trim()) ?? []
  const isDose = dose !== undefined && readRange(dose, DOSE_UNITS).fault === undefined
  return isDose ? { said: said!, dose } : { said: text.trim(), dose: '' }
}

/** The product of the ledger, by id, name or an unambiguous part; null for a `--dose` of a product without a record. */
function productMeant(
  input: ReportInput | null,
  { option, said, dose }: { option: string; said: string; dose: string },
): MixPart['product'] {
  const products = input ? [...input.ledger.products.values()] : []
  const { found, several } = findNamed(said, products)
  if (found) return found
  if (option === 'dose' && several.length < 2) return null
  const help = `; without a record write --dose "${said}=${dose || '3 kg/ha'}"`
  throw notOne('product', said, { several, all: products, help })
}

/** Adds `--max`, the most per ground area, to the product that it names, or to the only one. */
function addMost(call: Call, parts: readonly MixPart[]): void {
  for (const text of call.texts('max')) {
    const at = text.indexOf('=')
    const id = at === -1 ? (parts.length === 1 ? parts[0]!.id : '') : text.slice(0, at).trim()
    const part = parts.find((one) => one.id === id)
    if (!part)
      throw new UsageError(
        id === '' ? `--max ${text} names none of the products` : `--max: there is no \`${id}\` in this mix`,
        `write it as "${parts[0]!.id}=5 kg/ha"`,
      )
    const { low, high, unit } = call.read('max', text.slice(at + 1).trim(), ['kg/ha', 'L/ha'])
    if (low !== high || !(low > 0)) throw new UsageError(`--max ${text}: say one figure, more than nothing`)
    const measured = /^(k?g)\b/.test(part.dose.unit) ? 'kg/ha' : /^m?L\b/.test(part.dose.unit) ? 'L/ha' : unit
    if (measured !== unit)
      throw new UsageError(
        `--max ${text} is not in the measure of the dose, ${part.dose.unit}`,
        `write it in ${measured}`,
      )
    part.most = { value: low, unit }
  }
}

function doseOf(
  call: Call,
  { option, id, dose: text }: { option: string; id: string; dose: string },
  { product, targets }: Pick<MixPart, 'product' | 'targets'>,
): Quantity {
  if (text !== '') {
    const read = call.read(option, text, DOSE_UNITS)
    if (read.low !== read.high) throw new UsageError(`--${option} ${id}: say one dose, not a range`)
    return { value: read.low, unit: read.unit }
  }
  if (!product) throw new UsageError(`--${option} ${id} has no dose`, `write it as "${id}=3 kg/ha"`)
  const ranges = usesFor(product, targets).map(({ use }) => use.rate ?? use.concentration!)
  const [first] = ranges
  if (first && ranges.length === 1 && first.low === first.high) return { value: first.low, unit: first.unit }
  const { units } = call.style()
  const said = ranges.map((range) => inLedgerUnits(rangeText(range), units, 'spray'))
  const most = first && typedIn({ value: first.high, unit: first.unit }, units, { digits: 3, within: first })
  throw new UsageError(
    `the label of ${id} leaves the dose open${said.length > 0 ? `: ${said.join(', ')}` : ''}`,
    `say which: --product "${id}=${most ?? '3 kg/ha'}"`,
  )
}
