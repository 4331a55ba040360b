import type { CommandName } from '../table.ts'
import type { Call } from './call.ts'

/** One option of a command. The table of commands is the single source of parser, help, completion and pages. */
export interface OptionSpec {
  /** As commander writes it: `--water QUANTITY`, `--block ID...`. */
  flags: string
  what: string
  /** May be given several times. */
  repeats?: boolean
  choices?: readonly string[]
  /** The words of the first argument that it belongs to; all where left out. Help groups options by them. */
  of?: readonly string[]
  /** Whose ids complete the value. */
  ids?: 'blocks' | 'products' | 'sprayers' | 'varieties' | 'seasons'
}

/** Makes options from lines of flags, purpose and further settings; `...` after the flags marks one that repeats. */
export const optionsOf = (
  lines: readonly (readonly [flags: string, what: string, more?: Omit<OptionSpec, 'flags' | 'what'>])[],
): readonly OptionSpec[] =>
  lines.map(([flags, what, more]) => ({ flags, what, repeats: flags.endsWith('...'), ...more }))

/** The name of an option, without its hyphens. */
export const optionName = ({ flags }: Pick<OptionSpec, 'flags'>): string => /--([a-z-]+)/.exec(flags)![1]!

/** What a command takes and does, apart from its line in the table. */
export interface CommandBody {
  /** Its arguments, in the order of the forms in the table. */
  arguments?: readonly { what: string; choices?: readonly string[] }[]
  options?: readonly OptionSpec[]
  /** Example command lines, each with what it does. */
  examples: readonly (readonly [line: string, does: string])[]
  /** Whether `--html FILE` is taken. */
  html?: boolean
  /** @param commands finds other commands, to print or to run them. @returns the exit status. */
  run(call: Call, commands: Commands): Promise<number>
}

/** A complete command; its options are all but those of every command. */
export interface Command extends CommandBody {
  name: CommandName
  summary: string
  /** `KIND`, `[NAME]`, `SEASON...`. */
  arguments: readonly { form: string; what: string; choices?: readonly string[] }[]
  options: readonly OptionSpec[]
}

/** Loads the commands named, or all of them. */
export type Commands = (names?: readonly CommandName[]) => Promise<Command[]>

/** The options that every command takes. */
export const COMMON_OPTIONS = optionsOf([
  ['--ledger DIR', 'the ledger folder, else the nearest with a vineyard.yaml'],
  ['--season YEAR', 'the season, by its harvest year', { ids: 'seasons' }],
  ['--as-of DATE', 'report as of this day, else today'],
  ['--block ID...', 'only these blocks', { ids: 'blocks' }],
  ['--units SYSTEM', 'units to print', { choices: ['metric', 'us', 'imperial', 'uk'] }],
  ['--json', 'print data for programs'],
  ['--no-color', 'print without colours'],
  ['--sources', 'name the source of each figure under the report'],
  ['--timings', 'show on stderr where the time went'],
])

/** The options of every command, but for those that this one has in a way of its own. */
export function commonOptions({ options }: Command): readonly OptionSpec[] {
  const own = new Set(options.map(optionName))
  return COMMON_OPTIONS.filter((option) => !own.has(optionName(option)))
}

/** The options of commands that can write their report as a page. */
export const HTML_OPTIONS = optionsOf([
  ['--html FILE', 'write a page to look at and print, or - for stdout'],
  ['--force', 'replace a file that rowbook did not make'],
])
