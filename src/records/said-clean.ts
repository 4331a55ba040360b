import type { Disease } from './disease.ts'

/** Words for a scouting round that found nothing. */
export const CLEAN = /^(?:clean|none|nothing|0|all clean|no disease|nothing found|zero)$/i

/**
 * A scouting round with `found: clean` and `powdery: clean` written out as counts of zero on what was looked at.
 * @param diseases those judged at the site, which a grower looks for
 */
export function foundInFull<T extends Record<string, unknown>>(entry: T, diseases: readonly Disease[]): T {
  const { looked_at: looked, found } = entry
  if (typeof looked !== 'object' || looked === null) return entry
  const none = () => Object.fromEntries(Object.keys(looked).map((organ) => [organ, 0]))
  if (isClean(found))
    return { ...entry, found: Object.fromEntries(diseases.map((disease) => [disease, none()])) }
  if (typeof found !== 'object' || found === null || !Object.values(found).some(isClean)) return entry
  const full = Object.entries(found).map(([disease, one]) => [disease, isClean(one) ? none() : one])
  return { ...entry, found: Object.fromEntries(full) }
}

const isClean = (value: unknown) => (typeof value === 'string' || value === 0) && CLEAN.test(String(value))
