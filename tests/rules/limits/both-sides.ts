import fc from 'fast-check'
import { expect } from 'vitest'
import { findingsOf } from '../../ledger/in-memory.ts'

export type Files = Readonly<Record<string, string | null>>

/** One ledger just inside a limit and one just outside of it, made from a limit that was drawn. */
export interface Sides {
  inside: Files
  outside: Files
  asOf?: string
}

const RUNS = Number(process.env.ROWBOOK_RUNS ?? 25)

/** A rule is silent just inside whatever limit is drawn, and speaks, at the level given, just outside of it. */
export function holdsFor<T>(rule: string, level: string, drawn: fc.Arbitrary<T>, sides: (limit: T) => Sides) {
  fc.assert(
    fc.property(drawn, (limit) => {
      const { inside, outside, asOf } = sides(limit)
      const levels = (files: Files) => findingsOf(rule, files, asOf).map((finding) => finding.level)
      expect(levels(inside)).not.toContain(level)
      expect(levels(outside)).toContain(level)
    }),
    { numRuns: RUNS },
  )
}

/** Decimals as a grower writes them: `low` to `high` in hundredths. */
export const figure = (low: number, high: number): fc.Arbitrary<number> =>
  fc.integer({ min: Math.round(low * 100), max: Math.round(high * 100) }).map((value) => value / 100)

export const whole = (min: number, max: number): fc.Arbitrary<number> => fc.integer({ min, max })

/** Digits enough that reading them back gives the same number within 1 part in 10^12. */
export const digits = (value: number): string => String(Number(value.toPrecision(13)))

export const SPRAYS = 'seasons/2026/sprays.yaml'
export const EXTRA = 'products/extra.yaml'
export const SITE_FILE = 'vineyard.yaml'

interface SprayText {
  date?: string
  /** Of each product, as in `product: sulphur, rate: 3 kg/ha, for: powdery`. */
  products: string[]
  water?: string
  more?: string
}

/** A spray of the block `upper`, which has 0.4 ha in 20 rows. */
export function spray({ date = '2026-06-10', products, water = '300 L/ha', more = '' }: SprayText): string {
  const list = products.map((product) => `    - { ${product} }\n`).join('')
  return `- date: ${date}\n  blocks: [upper]\n  water: ${water}\n${more}  products:\n${list}`
}

interface Label {
  use?: string
  kind?: string
  form?: string
  actives?: string
  more?: string
}

/** The label of an invented product of the id `extra`. */
export function label({ use, kind = 'fungicide', form = 'WG', actives, more = '' }: Label = {}): string {
  const one = use ?? 'rate: 0-900 kg/ha'
  const holds = actives ?? '{ name: testazole, content: 100 g/kg, group: "3" }'
  return `name: Extra\nform: ${form}\nkind: ${kind}\nactives: [ ${holds} ]\nuses:\n  - { against: powdery, ${one} }\n${more}`
}

export const site = (more: string): string =>
  `name: T\nlatitude: 51.5\ntimezone: Europe/Berlin\nlimits:\n  ${more}\n`

/** A dose of `perHa` on the 0.4 ha of `upper` in `water` L/ha, in one of the forms in which it can be typed. */
export function typedDose(form: 'rate' | 'amount' | 'concentration', perHa: number, water: number): string {
  if (form === 'rate') return `rate: ${digits(perHa)} kg/ha`
  if (form === 'amount') return `amount: ${digits(perHa * 0.4)} kg`
  return `concentration: ${digits((perHa * 1000) / water)} g/L`
}

export const formOfDose = fc.constantFrom('rate' as const, 'amount' as const, 'concentration' as const)

export const dayAfter = (date: string, days: number): string =>
  new Date(Date.parse(date) + days * 86_400_000).toISOString().slice(0, 10)
