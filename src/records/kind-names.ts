/** The kinds of record by folder, and their names, without loading the schemas. */

export const STANDING_KINDS = ['blocks', 'varieties', 'products', 'sprayers'] as const
export const SEASON_KINDS = [
  'sprays',
  'scouting',
  'samples',
  'stages',
  'crop',
  'picks',
  'work',
  'weather',
] as const

export type StandingKind = (typeof STANDING_KINDS)[number]
export type SeasonKind = (typeof SEASON_KINDS)[number]

/** What one entry of a kind is called, as on the command line: `rowbook note spray`. */
export const SINGULAR: Record<StandingKind | SeasonKind, string> = {
  blocks: 'block',
  varieties: 'variety',
  products: 'product',
  sprayers: 'sprayer',
  sprays: 'spray',
  scouting: 'scouting',
  samples: 'sample',
  stages: 'stage',
  crop: 'crop',
  picks: 'pick',
  work: 'work',
  weather: 'weather',
}

/** What one entry is called in a sentence: `this scouting round`. */
export const ENTRY_CALLED: Record<SeasonKind, string> = {
  sprays: 'spray',
  scouting: 'scouting round',
  samples: 'sample',
  stages: 'growth stage',
  crop: 'bunch count',
  picks: 'pick',
  work: 'work entry',
  weather: 'weather entry',
}

/** The id of a record: lower-case words joined by hyphens. */
export const ID_SHAPE = /^[a-z0-9]+(?:-[a-z0-9]+)*$/
