import * as z from 'zod'
import { DISEASES, type Disease } from './disease.ts'
import { atFirstUse } from './field.ts'
import { measure } from './fields.ts'

type Key = Disease | `${Disease}-${'bunches' | 'leaves'}`

const share = () => measure('%', 'share of bunches or leaves at which to act', 0, 100, '5 %').optional()

const keys = DISEASES.flatMap((disease): Key[] => [disease, `${disease}-bunches`, `${disease}-leaves`])

/** The share at which the grower acts, by disease or disease and organ; a misspelt key would be silently ignored. */
export const thresholds = atFirstUse(() =>
  z.strictObject(
    Object.fromEntries(keys.map((key) => [key, share()])) as Record<Key, ReturnType<typeof share>>,
  ),
)
