/** A phrase that no screen, page or help may hold, and what to write instead. */
export interface Retired {
  phrase: RegExp
  write: string
}

const retired = (phrase: RegExp, write: string): Retired => ({ phrase, write })

/** Words that a grower doesn't use, or that were ours alone. One thing has one word. */
export const RETIRED: readonly Retired[] = [
  retired(/\bbooks?\b(?!-units)/i, 'records, or ledger for the folder'),
  retired(/\bdays before harvest\b/i, 'pre-harvest interval (PHI)'),
  retired(/^keep out$|\bwhen to keep out\b|\bkeep-out\b/i, 're-entry interval (REI)'),
  retired(/(?<!you )\bwalks?\b(?! at)/i, 'scouting round'),
  retired(
    /(?<!rowbook |`|-|ready, |pressure |^|svg \.|--)\b(un)?cover(ed|s|ing)?\b(?!`|\.|,| {2})/i,
    'protection, protected',
  ),
  retired(/\broom (left|this|over)\b|\bcopper and room\b|\bits room$|\bthe room over\b/i, 'allowance left'),
  retired(/.\bwashed off\b(?! by)|\bwashed off (?!by)./i, 'washed off by rain'),
  retired(/\btoo sharp\b/i, 'acid too high'),
  retired(/\bhalf colour(?!ed)|\bcolouring\b/i, '50 % veraison, veraison under way'),
  retired(/\blike shot\b/i, 'peppercorn size'),
  retired(/\bbegin to touch\b/i, 'start of bunch closure'),
  retired(/(?<!\.)\bactives\b(?!`|:)/i, 'active substances'),
  retired(/(?<!mode-of-)\baction groups?\b/i, 'mode-of-action group'),
  retired(/\bas pressed\b|\bpress bias\b|\bfield against press\b/i, 'field-to-press difference'),
  retired(/\bthe word to pick\b/i, 'harvest decision'),
  retired(/\bgates?\b(?!-field)|^Gates\b/, 'what was checked'),
  retired(/\bputs? out\b/i, 'applies'),
  retired(/\breckon/i, 'calculate, expect'),
  retired(/\bsay `?rowbook/i, 'run `rowbook'),
  retired(/\bdecides? over anything\b/i, 'override anything'),
  retired(/\bsay it in the tank\b|\bwith the scale in your hand\b/i, 'At the sprayer'),
  retired(/\bas they are said\b/i, 'in everyday form'),
  retired(/\bsound as it stands\b/i, 'valid as created'),
  retired(/\bwhat must be decided\b/i, 'you want to'),
  retired(/\bused wrongly\b/i, 'usage error'),
  retired(/\bthe same in, the same out\b/i, 'same input, same output'),
  retired(/\bof the rows: /i, 'Vineyard records in plain text files'),
  retired(/\bhow bad it is\b/i, 'disease found on scouting rounds'),
  retired(/\bhow much of what goes into\b/i, 'amounts for'),
  retired(/\bof must into\b/i, 'convert one reading to'),
  retired(/\blabels to read again\b/i, 'list labels to re-read'),
  retired(/\bin spite of\b/i, 'despite'),
  retired(/\bis no kind of entry\b/i, 'is not an entry kind'),
  retired(/\bspace marks\b/i, 'space selects, Enter confirms'),
  retired(/\blabel's own order wins\b/i, "follow the label's order"),
  retired(/^Against it\b/i, 'Problems'),
  retired(/\bwould stand in\b/i, 'would be added'),
  retired(/\ball 2 nozzles\b/i, 'Both nozzles'),
  retired(/\bbeyond doubt\b|\bnot surely\b/i, 'clearly, possibly'),
  retired(/\bpressure can be told\b/i, 'Disease pressure unavailable: no weather file'),
  retired(/\bcan be summed up\b/i, 'No degree-day total'),
  retired(/\bdate can be told\b/i, 'no date available'),
  retired(/\bnothing presses\b/i, 'nothing urgent'),
  retired(/\bmade by the law\b|\bas it could be checked\b/i, 'Based on the law as of'),
  retired(/\b(find|block|label|plan|sample|product) asks for\b/i, 'needs'),
  retired(/\bverdict may turn\b/i, 'may be ready on'),
  retired(/\bforetell/i, 'predict'),
  retired(/\bif it is a slip\b/i, 'if mistyped'),
  retired(/\bhangs on\b/i, 'depends on'),
  retired(/\bis wanted here\b/i, 'expected'),
  retired(/\bacid falls on\b/i, 'Acid is still falling'),
  retired(/\babout now \(likely\b/i, 'any day; most likely'),
  retired(/\bends before it does\b/i, 'not complete yet: weather to'),
  retired(/\bnot counted \(stock left\)/i, 'add `stocked:` (count date)'),
  retired(/\bfor ground area\b/i, 'per ground area'),
  retired(/\bwrite it in spite\b/i, 'Write it?'),
  retired(/\beither way\b/i, 'To be sure to ±5 %, look at'),
  retired(/\bdue every\b/i, 'every 14 days'),
  retired(/\bcounted in days\)/i, 'if the day of spraying counts as day 1'),
  retired(/\bwas to reach\b/i, 'a verb, no inversion'),
  retired(/\bwants (replacing|a)\b/i, 'needs'),
]

/** A day as files write it, standing alone in a sentence: not in a file's name, nor as an option's value. */
export const ISO_DAY = /(?<![\w/=:"`-])(?<!--[a-z-]+ )(?<!\b[a-z_]+: )\d{4}-\d{2}-\d{2}(?![\w-])/

/** A singular worded as a plural, like "1 days". */
export const ONE_AS_MANY =
  /(?<![\d.,/=-] ?)\b1 (days|weeks|hours|sprays|rounds|samples|bunches|vines|blocks|entries|warnings|errors|hints|files|people|fills|rows|records|crates|berries|applications|nozzles|litres|seasons|products|picks|commits|sprayers|varieties|readings|persons)\b/i
