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

/**
 * Mode-of-action groups by FRAC code, with the older codes that labels still carry.
 * Source: FRAC Code Lists 2018 to 2021; U8 became 50, 44 became BM02, P7 or 33 became P07.
 */
const RENAMED: ReadonlyMap<string, string> = new Map([
  ['U8', '50'],
  ['U08', '50'],
  ['44', 'BM02'],
  ['33', 'P07'],
])

/**
 * One spelling for a group code: `M2` gives `M02`, `U8` gives `50`, `44` gives `BM02`, `frac 3` gives `3`.
 * A code that FRAC doesn't use (an insecticide's or herbicide's) is returned in upper case.
 */
export function normalGroup(code: string): string {
  const text = code
    .trim()
    .toUpperCase()
    .replace(/^FRAC\s*/, '')
  const renamed = RENAMED.get(text)
  if (renamed) return renamed
  const lettered = /^(M|U|P|BM)(\d)$/.exec(text)
  return lettered ? `${lettered[1]}0${lettered[2]}` : text.replace(/^0+(?=\d)/, '')
}
