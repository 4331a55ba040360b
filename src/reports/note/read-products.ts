import type { Units } from '../../facts/book-units.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { nearest } from '../../ledger/read/read-entry.ts'
import type { PlainEntry, PlainValue } from '../../ledger/write/entry-text.ts'
import { CONCENTRATION_UNITS, RATE_UNITS } from '../../records/dose-units.ts'
import { inUnitsOf, readQuantity } from '../../records/quantity.ts'
import type { Fault } from '../../records/said-date.ts'
import { findNamed } from '../../records/said-name.ts'
import { inSiteUnits } from '../../records/site-way.ts'
import { tidy } from './read-value.ts'

type PartsResult = { parts: PlainEntry[]; fault?: undefined } | { parts?: undefined; fault: Fault }

const DOSES = { rate: RATE_UNITS, amount: ['kg', 'L'], concentration: CONCENTRATION_UNITS } as const

/** Reads `sulphur-80=3 kg/ha`, `sulphur-80` or a part of its name: the products of a spray, all that was in the tank. */
export function readProducts(
  texts: readonly string[],
  like: readonly PlainEntry[],
  ledger: Pick<Ledger, 'products' | 'vineyard'>,
): PartsResult {
  const parts: PlainEntry[] = []
  for (const text of texts) {
    const cut = text.indexOf('=')
    const said = (cut === -1 ? text : text.slice(0, cut)).trim()
    const { found, several } = findNamed(said, ledger.products.values())
    if (several.length > 1)
      return {
        fault: {
          message: `\`${said}\` fits ${several.length} products`,
          help: `write one of ${several.map(({ id }) => id).join(', ')}`,
        },
      }
    const product = found?.id ?? said
    if (parts.some((part) => part.product === product))
      return { fault: { message: `\`${product}\` is named twice`, help: 'list each product once' } }
    const before = like.find((part) => part.product === product)
    if (cut === -1) {
      parts.push(before ?? { product })
      continue
    }
    const dose = readDose(inSiteUnits(text.slice(cut + 1), ledger.vineyard.units), ledger.vineyard.units)
    if (dose.fault) return { fault: { ...dose.fault, message: `${product}: ${dose.fault.message}` } }
    const kept: PlainEntry = before?.for === undefined ? {} : { for: before.for }
    parts.push({ product, [dose.key]: dose.text, ...kept })
  }
  return { parts }
}

const OFTEN =
  'kg/ha, L/ha, g/L, mL/L, kg, %, lb/acre, oz/acre, US pt/acre, US fl oz/acre, imp pt/acre, imp fl oz/acre, lb'

/** A dose as typed, with the key that its unit belongs to; what is wrong names the units of the site. */
export function readDose(
  text: string,
  units: Units,
): { key: keyof typeof DOSES; text: PlainValue; fault?: undefined } | { key?: undefined; fault: Fault } {
  let firstFault: Fault | null = null
  for (const [key, keeps] of Object.entries(DOSES)) {
    const { fault } = readQuantity(text, keeps)
    if (!fault) return { key: key as keyof typeof DOSES, text: tidy(text, { keeps }) }
    if (fault.name !== 'wrong-unit') firstFault ??= fault
  }
  const fault = firstFault ?? { message: `\`${text.trim()}\` is not a dose`, help: '' }
  const help = /has no unit|no dose/.test(fault.message)
    ? inUnitsOf(`write the unit: ${OFTEN}`, units)
    : fault.help
  return { fault: { message: fault.message, help } }
}

/**
 * Says of each product what it was against. `--for sulphur-80=powdery` is of one product; `--for powdery` of
 * those whose label names it, or of the only product there is.
 */
export function setTargets(
  parts: readonly PlainEntry[],
  texts: readonly string[],
  ledger: Ledger,
): PartsResult {
  const targets = parts.map(() => [] as string[])
  for (const text of texts.flatMap((one) => one.split(',')).map((one) => one.trim())) {
    const cut = text.indexOf('=')
    const chosen = cut === -1 ? byLabel(parts, text, ledger) : byName(parts, text.slice(0, cut).trim())
    if (chosen.length === 0) return { fault: unclear(parts, text, cut) }
    for (const index of chosen) targets[index]!.push(cut === -1 ? text : text.slice(cut + 1).trim())
  }
  return {
    parts: parts.map((part, index) => {
      const own = targets[index]!
      return own.length === 0 ? part : { ...part, for: own.length === 1 ? own[0]! : own }
    }),
  }
}

const byName = (parts: readonly PlainEntry[], id: string) =>
  parts.flatMap((part, index) => (part.product === id ? [index] : []))

function byLabel(parts: readonly PlainEntry[], target: string, ledger: Ledger): number[] {
  if (parts.length === 1) return [0]
  return parts.flatMap((part, index) => {
    const product = ledger.products.get(String(part.product))
    return product?.uses.some((use) => use.against === target) ? [index] : []
  })
}

function unclear(parts: readonly PlainEntry[], text: string, cut: number): Fault {
  const ids = parts.map((part) => String(part.product))
  if (cut !== -1) {
    const id = text.slice(0, cut).trim()
    return {
      message: `\`${id}\` is not among the products of this spray`,
      help: nearest(id, ids) ?? `products here: ${ids.join(', ')}`,
    }
  }
  return {
    message: `no label here names ${text}, so it is unclear which product was against it`,
    help: `write --for PRODUCT=${text}, with one of ${ids.join(', ')}`,
  }
}
