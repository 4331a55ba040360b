import type { Units } from '../../facts/ledger-units.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { nearest } from '../../ledger/read/read-entry.ts'
import type { PlainEntry, PlainValue } from '../../ledger/write/entry-text.ts'
import { type Fault, fault, type Read } from '../../records/fault.ts'
import { inUnitsOf, readQuantity } from '../../records/quantity.ts'
import { findNamed } from '../../records/typed/named.ts'
import { inSiteUnits } from '../../records/typed/site-way.ts'
import { CONCENTRATION_UNITS, RATE_UNITS } from '../../records/units.ts'
import { tidy } from './read.ts'

type ReadParts = Read<{ value: PlainEntry[] }>

const DOSES = { rate: RATE_UNITS, amount: ['kg', 'L'], concentration: CONCENTRATION_UNITS } as const

/** Reads `sulphur-80=3 kg/ha`, `sulphur-80` or a part of its name: the products of a spray, all that was in the tank. */
export function readProducts(
  texts: readonly string[],
  like: readonly PlainEntry[],
  ledger: Pick<Ledger, 'products' | 'vineyard'>,
): ReadParts {
  const parts: PlainEntry[] = []
  for (const text of texts) {
    const cut = text.indexOf('=')
    const said = (cut === -1 ? text : text.slice(0, cut)).trim()
    const { found, several } = findNamed(said, ledger.products.values())
    if (several.length > 1)
      return fault(
        `\`${said}\` fits ${several.length} products`,
        `write one of ${several.map(({ id }) => id).join(', ')}`,
      )
    const product = found?.id ?? said
    if (parts.some((part) => part.product === product))
      return fault(`\`${product}\` is named twice`, 'list each product once')
    const before = like.find((part) => part.product === product)
    if (cut === -1) {
      parts.push(before ?? { product })
      continue
    }
    const dose = readDose(inSiteUnits(text.slice(cut + 1), ledger.vineyard.units), ledger.vineyard.units)
    if (dose.fault) return fault(`${product}: ${dose.fault.message}`, dose.fault.help)
    const kept: PlainEntry = before?.for === undefined ? {} : { for: before.for }
    parts.push({ product, [dose.key]: dose.text, ...kept })
  }
  return { value: parts }
}

const OFTEN =
  'kg/ha, L/ha, g/L, mL/L, kg, %, lb/acre, oz/acre, US pt/acre, US fl oz/acre, imp pt/acre, imp fl oz/acre, lb'

/** A dose as typed, with the key that its unit belongs to; what is wrong names the units of the site. */
export function readDose(text: string, units: Units): Read<{ key: keyof typeof DOSES; text: PlainValue }> {
  let firstFault: Fault | null = null
  for (const [key, keeps] of Object.entries(DOSES)) {
    const { fault: wrong } = readQuantity(text, keeps)
    if (!wrong) return { key: key as keyof typeof DOSES, text: tidy(text, { keeps }) }
    if (wrong.name !== 'wrong-unit') firstFault ??= wrong
  }
  const { message, help } = firstFault ?? { message: `\`${text.trim()}\` is not a dose`, help: '' }
  const isBare = /has no unit|no dose/.test(message)
  return fault(message, inUnitsOf(isBare ? `write the unit: ${OFTEN}` : help, units))
}

/**
 * Says of each product what it was against. `--for sulphur-80=powdery` is of one product; `--for powdery` of
 * those whose label names it, or of the only product there is.
 */
export function setTargets(
  parts: readonly PlainEntry[],
  texts: readonly string[],
  ledger: Ledger,
): ReadParts {
  const idOf = ({ product }: PlainEntry) => String(product)
  const ids = [...new Set(parts.map(idOf))]
  const targets = new Map<string, string[]>(ids.map((id) => [id, []]))
  for (const text of texts.flatMap((one) => one.split(',')).map((one) => one.trim())) {
    const cut = text.indexOf('=')
    const target = text.slice(cut + 1).trim()
    const id = cut === -1 ? null : text.slice(0, cut).trim()
    const isMeant = (one: string) =>
      ids.length === 1 || ledger.products.get(one)?.uses.some((use) => use.against === target)
    const chosen = ids.filter((one) => (id === null ? isMeant(one) : one === id))
    if (chosen.length === 0)
      return id === null
        ? fault(
            `no label here names ${text}, so it is unclear which product was against it`,
            `write --for PRODUCT=${text}, with one of ${ids.join(', ')}`,
          )
        : fault(
            `\`${id}\` is not among the products of this spray`,
            nearest(id, ids) ?? `products here: ${ids.join(', ')}`,
          )
    for (const one of chosen) targets.get(one)!.push(target)
  }
  return {
    value: parts.map((part) => {
      const own = targets.get(idOf(part))!
      return own.length === 0 ? part : { ...part, for: own.length === 1 ? own[0]! : own }
    }),
  }
}
