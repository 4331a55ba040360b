interface GroupLimit {
  group: string
  disease: 'powdery' | 'downy'
  maxInRow: number | null
  maxPerSeason: number | null
  /** A stricter count in seasons with few sprays against the disease. */
  fewSprays?: { upTo: number; maxPerSeason: number }
  /** What the body advises beside the counts and no count can hold. */
  note?: string
  body: string
  year: number | null
}

/** The page that was read names `Avcare` as its source, a body of some 20 years ago: the limits may have changed since. */
const AUSTRALIA = {
  body: 'Avcare (Australia) via AWRI, some 20 years old: check for newer limits',
  year: null,
}

/** Limits that were read. They differ by body and year; the label's own limit stands above them. */
export const GROUP_LIMITS: readonly GroupLimit[] = [
  {
    group: '49',
    disease: 'downy',
    maxInRow: 1,
    maxPerSeason: 2,
    fewSprays: { upTo: 4, maxPerSeason: 1 },
    note: 'no more than 33 % of the time under protection, before infection, in mixture',
    body: 'FRAC OSBPI working group',
    year: 2024,
  },
  { group: '3', disease: 'powdery', maxInRow: 2, maxPerSeason: 3, ...AUSTRALIA },
  { group: '5', disease: 'powdery', maxInRow: 2, maxPerSeason: 3, ...AUSTRALIA },
  { group: '13', disease: 'powdery', maxInRow: 2, maxPerSeason: 3, ...AUSTRALIA },
  {
    group: '11',
    disease: 'powdery',
    maxInRow: null,
    maxPerSeason: 2,
    body: 'CropLife Australia via AWRI eBulletin, 19 June 2012',
    year: 2012,
  },
]

/**
 * How often a limit allows its group in a season, Infinity where it doesn't say.
 * @param sprays all sprays of the season against the limit's disease on one block, not only this group's
 */
export function mostPerSeason({ fewSprays, maxPerSeason }: GroupLimit, sprays: number): number {
  const most = fewSprays && sprays <= fewSprays.upTo ? fewSprays.maxPerSeason : maxPerSeason
  return most ?? Infinity
}
