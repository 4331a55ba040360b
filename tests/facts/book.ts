import { applicationsOf } from '../../src/facts/spraying/applications.ts'
import { ledgerOf } from '../ledger/in-memory.ts'
import { type Files, label, SPRAYS } from '../rules/limits/both-sides.ts'

/** A block of 0.4 ha whose rows were never counted. */
export const WIDE =
  'name: Wide\nvariety: palava\narea: 0.4 ha\nrow_spacing: 2.5 m\nvine_spacing: 1 m\ncanopy: { height: 1 m }\n'

/** A spray of `upper` with 300 L/ha, and these keys added or in place of its own. */
export const sprayed = (date: string, products: string[], more = 'water: 300 L/ha', blocks = 'upper') =>
  `- { date: ${date}, blocks: [${blocks}], ${more ? `${more}, ` : ''}products: [ ${products.map((one) => `{ ${one} }`).join(', ')} ] }\n`

/** The vineyard of the tests with sprays of 2026, and these further files. */
export const bookOf = (sprays: string, files: Files = {}) =>
  ledgerOf({ 'blocks/wide.yaml': WIDE, 'products/extra.yaml': label(), [SPRAYS]: sprays, ...files })

/** Every application of one spray. */
export const applied = (products: string[], more?: string, blocks?: string, files: Files = {}) =>
  applicationsOf(bookOf(sprayed('2026-06-10', products, more, blocks), files))
