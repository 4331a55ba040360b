/** Every command with its arguments and what it does, in the order of the help, which must not have to load them. */
export const TABLE = [
  ['start DIR', 'start a new ledger: five questions on a terminal'],
  ['check', 'find what is incomplete, impossible, mistyped or not allowed'],
  ['note [KIND]', 'record what you did or saw, or a new block, variety, product or sprayer'],
  ['today', 'what is due: re-entry, protection, scouting rounds, samples, windows, stock'],
  ['mix', 'amounts for each fill of the tank'],
  ['calibrate', 'what a sprayer applies per hectare, and whether its nozzles agree'],
  ['totals', 'what was sprayed, by block, product and active substance; copper and its allowance left'],
  ['heat', 'degree days, climate indices, and this season beside earlier ones'],
  ['pressure', 'when infection was likely: powdery, downy, botrytis and black rot, day by day'],
  ['cover', 'whether the vines are protected, by what and until when, and where the gaps were'],
  ['sheet KIND', 'a page to print and fill in among the vines, or the fill sheet of a spray'],
  ['scouting', 'disease found on scouting rounds, how sure that is, and the change since last time'],
  ['ripeness', 'what the berry samples show: sugar, acid, how sure, and how fast they change'],
  ['sugar', 'convert one reading to every scale, sugar and potential alcohol'],
  ['window', 'when each block reaches its sugar target: earliest, likely, latest, and why'],
  ['crop', 'estimate the crop from bunch counts and weights, with its error'],
  ['harvest', 'plan the picking: order, kilograms, crates, buckets, people, hours, litres'],
  ['ready', 'decide whether blocks can be picked: what was checked, the result and why'],
  ['season', 'the answer of every report at once; --html puts the whole season on one page'],
  ['diary', 'print the official spray record, and what is missing from it'],
  ['compare SEASON...', 'put seasons side by side, the biggest changes first'],
  ['changes [FROM] [TO]', 'what changed in the records between two git revisions, and what follows'],
  ['label', 'list labels to re-read: old, lapsing, or incomplete records'],
  ['export [WHAT]', 'write records and reports as tables, CSV or JSON Lines; of many ledgers at once, too'],
  ['explain [NAME]', 'explain a figure or a finding: formula, limits and source'],
  ['import KIND FILE', 'bring in what another program wrote; shows what it will do first'],
  [
    'calendar',
    'write a calendar file: re-entry, first picking day, ends of protection, windows, scouting rounds',
  ],
  ['schema [KIND]', 'print the JSON Schema of a kind of record, or write all of them for editors'],
  ['manual [COMMAND]', 'the reference of a command, or the man page of all'],
  ['completion [SHELL]', 'print a script that completes commands, options and ids in a shell'],
] as const

type FirstWord<Line extends string> = Line extends `${infer Word} ${string}` ? Word : Line

export type CommandName = FirstWord<(typeof TABLE)[number][0]>

export const COMMAND_NAMES = TABLE.map(([usage]) => usage.split(' ')[0] as CommandName)

/** The command that a word names, if it does. */
export const commandNamed = (word: string | undefined): CommandName | undefined =>
  COMMAND_NAMES.find((name) => name === word)
