/** A command as the help of all tells it. */
interface CommandLine {
  name: string
  /** Its arguments: `KIND`, `[NAME]`, `SEASON...`. */
  forms?: readonly string[]
  summary: string
}

/** Every command, in the order of the help, apart from what they do: help must not have to load that. */
export const TABLE = [
  { name: 'start', forms: ['DIR'], summary: 'start a new ledger: five questions on a terminal' },
  { name: 'check', summary: 'find what is incomplete, impossible, mistyped or not allowed' },
  {
    name: 'note',
    forms: ['[KIND]'],
    summary: 'record what you did or saw, or a new block, variety, product or sprayer',
  },
  {
    name: 'today',
    summary: 'what is due: re-entry, protection, scouting rounds, samples, windows, stock',
  },
  { name: 'mix', summary: 'amounts for each fill of the tank' },
  { name: 'calibrate', summary: 'what a sprayer applies per hectare, and whether its nozzles agree' },
  {
    name: 'totals',
    summary: 'what was sprayed, by block, product and active substance; copper and its allowance left',
  },
  { name: 'heat', summary: 'degree days, climate indices, and this season beside earlier ones' },
  {
    name: 'pressure',
    summary: 'when infection was likely: powdery, downy, botrytis and black rot, day by day',
  },
  {
    name: 'cover',
    summary: 'whether the vines are protected, by what and until when, and where the gaps were',
  },
  {
    name: 'sheet',
    forms: ['KIND'],
    summary: 'a page to print and fill in among the vines, or the fill sheet of a spray',
  },
  {
    name: 'scouting',
    summary: 'disease found on scouting rounds, how sure that is, and the change since last time',
  },
  {
    name: 'ripeness',
    summary: 'what the berry samples show: sugar, acid, how sure, and how fast they change',
  },
  { name: 'sugar', summary: 'convert one reading to every scale, sugar and potential alcohol' },
  {
    name: 'window',
    summary: 'when each block reaches its sugar target: earliest, likely, latest, and why',
  },
  { name: 'crop', summary: 'estimate the crop from bunch counts and weights, with its error' },
  { name: 'harvest', summary: 'plan the picking: order, kilograms, crates, buckets, people, hours, litres' },
  {
    name: 'ready',
    summary: 'decide whether blocks can be picked: what was checked, the result and why',
  },
  { name: 'season', summary: 'the answer of every report at once; --html puts the whole season on one page' },
  { name: 'diary', summary: 'print the official spray record, and what is missing from it' },
  { name: 'compare', forms: ['SEASON...'], summary: 'put seasons side by side, the biggest changes first' },
  {
    name: 'changes',
    forms: ['[FROM]', '[TO]'],
    summary: 'what changed in the records between two git revisions, and what follows',
  },
  { name: 'label', summary: 'list labels to re-read: old, lapsing, or incomplete records' },
  {
    name: 'export',
    forms: ['[WHAT]'],
    summary: 'write records and reports as tables, CSV or JSON Lines; of many ledgers at once, too',
  },
  {
    name: 'explain',
    forms: ['[NAME]'],
    summary: 'explain a figure or a finding: formula, limits and source',
  },
  {
    name: 'import',
    forms: ['KIND', 'FILE'],
    summary: 'bring in what another program wrote; shows what it will do first',
  },
  {
    name: 'calendar',
    summary:
      'write a calendar file: re-entry, first picking day, ends of protection, windows, scouting rounds',
  },
  {
    name: 'schema',
    forms: ['[KIND]'],
    summary: 'print the JSON Schema of a kind of record, or write all of them for editors',
  },
  { name: 'manual', forms: ['[COMMAND]'], summary: 'the reference of a command, or the man page of all' },
  {
    name: 'completion',
    forms: ['[SHELL]'],
    summary: 'print a script that completes commands, options and ids in a shell',
  },
] as const satisfies readonly CommandLine[]

export type CommandName = (typeof TABLE)[number]['name']
