/**
 * International two-letter formulation codes.
 * Source: CropLife International, Technical Monograph 2, 7th edition, 2017, as reproduced by third parties.
 */
const FORMULATIONS: ReadonlyMap<string, string> = new Map([
  ['AE', 'aerosol'],
  ['AL', 'other liquid, used undiluted'],
  ['CS', 'capsule suspension'],
  ['DC', 'dispersible concentrate'],
  ['DP', 'dustable powder'],
  ['EC', 'emulsifiable concentrate'],
  ['EG', 'emulsifiable granules'],
  ['EO', 'emulsion, water in oil'],
  ['EP', 'emulsifiable powder'],
  ['EW', 'emulsion, oil in water'],
  ['GL', 'emulsifiable gel'],
  ['GR', 'granules'],
  ['GW', 'water-soluble gel'],
  ['ME', 'micro-emulsion'],
  ['OD', 'oil dispersion'],
  ['OF', 'oil-miscible flowable'],
  ['OL', 'oil-miscible liquid'],
  ['PA', 'paste'],
  ['RB', 'ready-for-use bait'],
  ['SC', 'suspension concentrate'],
  ['SE', 'suspo-emulsion'],
  ['SG', 'water-soluble granules'],
  ['SL', 'soluble concentrate'],
  ['SO', 'spreading oil'],
  ['SP', 'water-soluble powder'],
  ['ST', 'water-soluble tablets'],
  ['SU', 'ultra-low volume suspension'],
  ['TB', 'tablets'],
  ['TC', 'technical material'],
  ['TK', 'technical concentrate'],
  ['UL', 'ultra-low volume liquid'],
  ['VP', 'vapour-releasing product'],
  ['WG', 'water-dispersible granules'],
  ['WP', 'wettable powder'],
  ['WT', 'water-dispersible tablets'],
  ['XX', 'other'],
  ['ZC', 'capsule suspension with suspension concentrate'],
  ['ZE', 'capsule suspension with suspo-emulsion'],
  ['ZW', 'capsule suspension with oil-in-water emulsion'],
])

/** Trade letters of some labels, and the international code that they stand for (from memory). */
const TRADE_LETTERS: ReadonlyMap<string, string> = new Map([
  ['WDG', 'WG'],
  ['DF', 'WG'],
  ['F', 'SC'],
  ['FL', 'SC'],
  ['E', 'EC'],
  ['S', 'SL'],
])

/** The international code for what a label says, or null where it is neither code nor known trade letters. */
export function formulationCode(text: string): string | null {
  const code = text.trim().toUpperCase()
  if (FORMULATIONS.has(code)) return code
  return TRADE_LETTERS.get(code) ?? null
}
