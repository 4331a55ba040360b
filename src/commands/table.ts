/** A command as the help of all tells it. */
interface CommandLine {
  name: string
  /** Its arguments: `KIND`, `[NAME]`, `SEASON...`. */
  forms?: readonly string[]
  summary: string
}

/** Every command, in the order of the help, apart from what they do: help must not have to load that. */
export const TABLE = [
  { name: 'start', forms: ['DIR'], summary: 'begin a new ledger, with five questions on a terminal' },
  { name: 'check', summary: 'find what is incomplete, impossible, mistyped or not allowed' },
  {
    name: 'note',
    forms: ['[KIND]'],
    summary: 'write down what was done or seen, or a new block, variety, product or sprayer',
  },
  {
    name: 'today',
    summary: 'what is due: where not to enter, protection, scouting rounds, samples, windows, stock',
  },
  { name: 'mix', summary: 'how much of what goes into each fill of the tank' },
  { name: 'calibrate', summary: 'what a sprayer puts out on a hectare, and whether its nozzles agree' },
  { name: 'totals', summary: 'what was sprayed, by block, product and active, with copper and room left' },
  { name: 'heat', summary: 'degree days, climate indices, and this season beside earlier ones' },
  {
    name: 'pressure',
    summary: 'when infection was likely: powdery, downy, botrytis and black rot, day by day',
  },
  {
    name: 'cover',
    summary: 'whether the vines are covered, by what and until when, and where the gaps were',
  },
  {
    name: 'sheet',
    forms: ['KIND'],
    summary: 'a page to print and write on in the rows, or the fill sheet of a spray',
  },
  {
    name: 'scouting',
    summary: 'how bad it is by the disease walks, with its uncertainty, and better or worse than last time',
  },
  { name: 'ripeness', summary: 'what the berry samples say: means, intervals, sugar, acid, and how fast' },
  { name: 'sugar', summary: 'turn one reading of must into every scale, sugar and potential alcohol' },
  {
    name: 'window',
    summary: 'say when each block reaches its sugar target: earliest, likely, latest, and why',
  },
  { name: 'crop', summary: 'estimate the crop from bunch counts and weights, with its error' },
  { name: 'harvest', summary: 'plan the picking: order, kilograms, crates, buckets, people, hours, litres' },
  {
    name: 'ready',
    summary: 'give the word to pick: every gate with its state and the reason, block by block',
  },
  { name: 'season', summary: 'the answer of every report at once; with --html the whole season on one page' },
  { name: 'diary', summary: 'print the official spray record, and what it lacks' },
  { name: 'compare', forms: ['SEASON...'], summary: 'put seasons side by side, what changed most first' },
  {
    name: 'changes',
    forms: ['[FROM]', '[TO]'],
    summary: 'say what changed in the book between two revisions in git, and what that does',
  },
  { name: 'label', summary: 'say which labels to read again: old, lapsing, or incomplete in the book' },
  {
    name: 'export',
    forms: ['[WHAT]'],
    summary: 'write records and reports as tables, CSV or JSON Lines; of many ledgers at once, too',
  },
  {
    name: 'explain',
    forms: ['[NAME]'],
    summary: 'say what a figure or a finding is, its formula, limits and source',
  },
  {
    name: 'import',
    forms: ['KIND', 'FILE'],
    summary: 'bring in what another program wrote; shows what it would do before it does it',
  },
  {
    name: 'calendar',
    summary:
      'write a calendar file: re-entry, first day of picking, ends of protection, windows, scouting rounds',
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
