import * as z from 'zod'
import { DISEASES, type Disease } from '../disease.ts'
import { atFirstUse, field, underEach } from '../fields/field.ts'
import { measure, range } from '../fields/fields.ts'

type Key = Disease | `${Disease}-${'bunches' | 'leaves'}`

const share = () => measure('%', 'share of bunches or leaves at which to act', 0, 100, '5 %').optional()

const keys = DISEASES.flatMap((disease): Key[] => [disease, `${disease}-bunches`, `${disease}-leaves`])

/** The share at which the grower acts, by disease or disease and organ; a misspelt key would be silently ignored. */
export const thresholds = atFirstUse(() => z.strictObject(underEach(keys, share)))

/** Kinds of wine that the fruit is grown for; each is picked in its own range. */
const STYLES = ['sparkling', 'white', 'rosé', 'red', 'dessert'] as const

export type WineStyle = (typeof STYLES)[number]

/** The wine that a block or a variety is for. */
export const style = () =>
  field(
    (value, refuse): WineStyle => {
      const word = String(value).trim().toLowerCase()
      const known = STYLES.find((one) => one === word || plain(one) === word)
      return (
        known ??
        refuse('unknown-word', `\`${String(value)}\` is no style of wine`, `write ${STYLES.join(', ')}`)
      )
    },
    {
      type: 'string',
      enum: [...STYLES, 'rose'],
      description: 'what wine the fruit is for, which sets the usual ranges',
    },
  )

const plain = (word: string) => word.normalize('NFD').replace(/\p{M}/gu, '')

/** What ripe means for a block or a variety. */
export const targets = atFirstUse(() =>
  z.strictObject({
    brix: range([''], 'sugar of the must at picking, degrees Brix', 5, 45, '20-22').optional(),
    ta: range(['g/L'], 'titratable acidity as tartaric acid', 0, 30, '7-9 g/L').optional(),
    ph: range([''], 'pH of the must', 2.4, 4.5, '3.0-3.3').optional(),
    yield: range(['kg/ha'], 'crop wanted', 0, 60_000, '6000-8000 kg/ha').optional(),
  }),
)
