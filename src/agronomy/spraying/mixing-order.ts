/** Rank of what has no formulation code of its own: a water conditioner first, a wetter or oil last. */
export const WATER_CONDITIONER_RANK = 1
export const WETTER_RANK = 7

interface MixingRank {
  /** 2 to 6, lower into the tank first; null where the product never goes into one or nobody places it. */
  rank: number | null
  reason: string
  /** Where published orders differ on this kind; null where they agree. The label's order wins over all. */
  disagreement: string | null
}

const SOLUBLE_POWDERS =
  'North Dakota 2021 puts soluble powders before dispersible ones; Country Guide and Oklahoma begin with the dispersible'
const SOLUTIONS =
  'North Dakota 2021 and Country Guide put emulsions (EC) before solutions (SL), Oklahoma State after'
const MICRO =
  'ME is a micro-emulsion internationally; on US labels it is micro-encapsulated, which Oklahoma and North Dakota put with the suspensions: ask'

/** A compromise between the orders named in mixingRank, derived, no source prints this very order. */
const STEPS: { rank: number; codes: string[]; reason: string; disagreement: string | null }[] = [
  { rank: 2, codes: ['SG', 'SP', 'ST'], reason: 'soluble in water', disagreement: SOLUBLE_POWDERS },
  { rank: 3, codes: ['WG', 'WP', 'WT'], reason: 'dispersible in water', disagreement: SOLUBLE_POWDERS },
  { rank: 4, codes: ['SC', 'CS', 'ZC', 'SE', 'ZE'], reason: 'suspension', disagreement: null },
  { rank: 5, codes: ['OD', 'EW', 'EC', 'DC'], reason: 'emulsion or oil dispersion', disagreement: SOLUTIONS },
  { rank: 5, codes: ['ME'], reason: 'micro-emulsion', disagreement: MICRO },
  { rank: 6, codes: ['SL'], reason: 'solution', disagreement: SOLUTIONS },
]

/** Kinds that the list of formulation codes itself says are not stirred into a spray tank of water. */
const NEVER = {
  'applied undiluted or used as it is': 'AE AL BR DP DT GR RB SD SO SU UL VP',
  'a seed treatment': 'DS ES FS LS WS',
  'mixed with oil, not water': 'OF OL',
  'material for making products, not for use': 'TC TK',
}

/**
 * Place of a formulation in the order of filling the tank.
 * @param code international two-letter formulation code; US trade letters must be translated before
 * Sources: North Dakota Weed Control Guide 2021 (A.P.P.L.E.S., second-hand); Oklahoma State University
 * Extension "Herbicide mixing order"; Pest Patrol column, Country Guide; codes by CropLife Technical Monograph
 * 2, 7th edition 2017 (second-hand).
 */
export function mixingRank(code: string): MixingRank {
  const plain = code.trim().toUpperCase()
  const step = STEPS.find(({ codes }) => codes.includes(plain))
  if (step) return { rank: step.rank, reason: step.reason, disagreement: step.disagreement }
  const never = Object.entries(NEVER).find(([, codes]) => codes.split(' ').includes(plain))
  const reason = never ? `never in a tank: ${never[0]}` : 'no published order places it: see the label'
  return { rank: null, reason, disagreement: null }
}
