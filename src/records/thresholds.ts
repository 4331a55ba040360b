import * as z from 'zod'
import { measure } from './fields.ts'
import { DISEASES, type Disease } from './target.ts'

const share = () => measure('%', 'share of bunches or leaves at which to act', 0, 100, '5 %').optional()

/** From which share of bunches or leaves on the grower acts, by disease; a misspelt one would never be heeded. */
export const thresholds = z.strictObject(
  Object.fromEntries(DISEASES.map((disease) => [disease, share()])) as Record<
    Disease,
    ReturnType<typeof share>
  >,
)
