/**
 * International two-letter formulation codes.
 * Source: CropLife International, Technical Monograph 2, 7th edition, 2017, as reproduced by third parties.
 */
const FORMULATIONS: ReadonlySet<string> = new Set(
  'AE AL CS DC DP EC EG EO EP EW GL GR GW ME OD OF OL PA RB SC SE SG SL SO SP ST SU TB TC TK UL VP WG WP WT XX ZC ZE ZW'.split(
    ' ',
  ),
)

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
