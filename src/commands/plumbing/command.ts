import type { Call } from './call.ts'

/** One option of a command. The table of commands is the single source of parser, help, completion and pages. */
export interface OptionSpec {
  /** As commander writes it: `--water QUANTITY`, `--block ID...`. */
  flags: string
  what: string
  /** May be given several times. */
  repeats?: boolean
  choices?: readonly string[]
  /** The words of the first argument that it goes with; with each where left out. Help is parted by them. */
  of?: readonly string[]
  /** Whose ids complete the value. */
  ids?: 'blocks' | 'products' | 'sprayers' | 'varieties' | 'seasons'
}

/** The name of an option, without its hyphens. */
export const optionName = ({ flags }: Pick<OptionSpec, 'flags'>): string => /--([a-z-]+)/.exec(flags)![1]!

interface ArgumentSpec {
  /** `KIND`, `[NAME]`, `SEASON...`. */
  form: string
  what: string
  choices?: readonly string[]
}

/** What a command takes and does, apart from its line in the table. `run` returns the exit status. */
export interface CommandBody {
  /** Of its arguments, in the order of the table's forms. */
  arguments?: readonly Omit<ArgumentSpec, 'form'>[]
  options?: readonly OptionSpec[]
  /** Command lines that teach, each with what it does. */
  examples: readonly (readonly [line: string, does: string])[]
  /** Whether `--html FILE` is taken. */
  html?: boolean
  run(call: Call): Promise<number>
}

/** A command whole. */
export interface Command extends CommandBody {
  name: string
  summary: string
  arguments: readonly ArgumentSpec[]
}

/** The options that every command takes. */
export const COMMON_OPTIONS: readonly OptionSpec[] = [
  { flags: '--ledger DIR', what: 'the ledger folder, else the nearest with a vineyard.yaml' },
  { flags: '--season YEAR', what: 'the season, by its harvest year', ids: 'seasons' },
  { flags: '--as-of DATE', what: 'report as of this day, else today' },
  { flags: '--block ID...', what: 'only these blocks', repeats: true, ids: 'blocks' },
  { flags: '--units SYSTEM', what: 'units to print', choices: ['metric', 'us', 'imperial', 'uk'] },
  { flags: '--json', what: 'print data for programs' },
  { flags: '--no-color', what: 'print without colours' },
  { flags: '--sources', what: 'name the source of each figure under the report' },
  { flags: '--timings', what: 'say on stderr where the time went' },
]

/** The options of commands whose report can be looked at. */
export const HTML_OPTIONS: readonly OptionSpec[] = [
  { flags: '--html FILE', what: 'write a page to look at and print, or - for stdout' },
  { flags: '--force', what: 'replace a file that rowbook did not make' },
]
