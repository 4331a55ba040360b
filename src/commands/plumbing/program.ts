import { CommanderError, InvalidArgumentError, Option, Command as Parser } from 'commander'
import { safe } from '../../render/safe.ts'
import { renderLines } from '../../render/text.ts'
import { commandOf } from '../index.ts'
import { TABLE } from '../table.ts'
import { Call } from './call.ts'
import { COMMON_OPTIONS, type Command, HTML_OPTIONS, type OptionSpec, optionName } from './command.ts'
import type { Env } from './env.ts'
import { UsageError } from './errors.ts'
import { renderHelp } from './help.ts'

/**
 * Reads a command line and runs its command.
 * @returns the exit status: 0 done; 1 done, and something is wrong in the ledger; 2 usage error.
 */
export async function runCommandLine(line: readonly string[], env: Env, version: string): Promise<number> {
  // `help spray` is answered as `spray` is.
  const argv =
    line[0] === 'help' && line.length > 1 && !TABLE.some(({ name }) => name === line[1])
      ? line.slice(1)
      : line
  let status = 0
  const parser = new Parser('rowbook')
    .version(`rowbook ${version}`, '--version', 'print the version')
    .helpOption('-h, --help', 'show help')
    .helpCommand('help [command]', 'show help for a command')
    .showSuggestionAfterError(true)
    .configureOutput({ writeOut: env.out, outputError: () => {} })
    .configureHelp({ helpWidth: env.columns })
    .exitOverride()
  parser.helpInformation = () => renderHelp(env.columns)
  for (const { name, summary } of TABLE) {
    const sub = parser.command(name).description(summary).exitOverride()
    if (argv.includes(name))
      fillIn(sub, await commandOf(name), {
        argv,
        env,
        done: (result) => {
          status = result
        },
      })
  }
  try {
    if (argv.length === 0) return (await import('./bare.ts')).printNextStep(env)
    const name = TABLE.find((one) => argv.find((word) => !word.startsWith('-')) === one.name)?.name
    const ordered = name === undefined ? argv : wordFirst(argv, { ...(await commandOf(name)), name })
    await parser.parseAsync([...ordered], { from: 'user' })
    return status
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error
    if (error.exitCode === 0) return 0
    const { unreadLineMessage } = await import('./meant.ts')
    const named = TABLE.find(({ name }) => name === argv.find((word) => !word.startsWith('-')))
    const command = named && { ...(await commandOf(named.name)), name: named.name }
    const { message, help } = unreadLineMessage(error, argv, command)
    env.err(`rowbook: ${safe(message)}\n  ${safe(help)}\n`)
    return 2
  }
}

/**
 * The line with its first argument moved in front of options that take several values and would swallow it.
 */
function wordFirst(argv: readonly string[], command: Pick<Command, 'name' | 'arguments'>): readonly string[] {
  const words = command.arguments[0]?.choices ?? []
  const name = argv.indexOf(command.name)
  const isWord = (text: string | undefined) => words.includes(text?.split('.')[0] ?? '')
  const at = argv.findIndex((text, at) => at > name && isWord(text) && !argv[at - 1]!.startsWith('-'))
  return at < 0 || isWord(argv[name + 1])
    ? argv
    : [...argv.slice(0, name + 1), argv[at]!, ...argv.toSpliced(at, 1).slice(name + 1)]
}

/** Adds options and arguments to a command, only where it is on the command line: there are hundreds. */
function fillIn(
  sub: Parser,
  command: Command,
  { argv, env, done }: { argv: readonly string[]; env: Env; done: (status: number) => void },
): void {
  for (const { form, what } of command.arguments)
    sub.argument(form.startsWith('[') ? form : `<${form}>`, what)
  const word = argv.find((one) => command.arguments[0]?.choices?.includes(one))
  const options = [...(command.options ?? []), ...(command.html ? HTML_OPTIONS : [])]
  const taken = new Set(options.map(optionName))
  for (const option of options) sub.addOption(underHeading(toOption(option), { option, word }))
  for (const option of COMMON_OPTIONS)
    if (!taken.has(optionName(option))) sub.addOption(toOption(option).helpGroup('Options of every command:'))
  const fitting = command.examples.filter(([line]) => word && line.includes(` ${command.name} ${word}`))
  const shown = fitting.length > 0 ? fitting : command.examples
  sub.addHelpText('before', () => `Examples:\n${renderLines(shown, env.columns)}\n`)
  sub.action(async () => {
    const call = new Call(command.name, sub.args, sub.opts(), env)
    try {
      done(await command.run(call))
    } catch (error) {
      throw error instanceof UsageError ? await call.inOwnUnits(error) : error
    }
  })
}

/** Puts an option under the heading of its kind; where one kind is asked for, hides the options of the others. */
function underHeading(
  made: Option,
  { option, word }: { option: OptionSpec; word: string | undefined },
): Option {
  const { of } = option
  if (!of) return made
  if (word && !of.includes(word)) return made.hideHelp()
  if (word) made.description = ownPart(made.description, word)
  if (word) return made.helpGroup(`Fields of ${word}:`)
  return made.helpGroup(of.length > 2 ? 'Fields of several kinds:' : `Fields of ${of[0]}:`)
}

/** The part for one kind of a text like `spray: air; sample: juice`; the whole text where it has no such part. */
function ownPart(text: string, word: string): string {
  const parts = text.split('; ').map((part) => /^(\w+(?:, \w+)*): (.*)$/.exec(part))
  const own = parts.find((part) => part !== null && part[1]!.split(', ').includes(word))
  if (!own) return text
  const from = parts.indexOf(own)
  const next = parts.findIndex((part, at) => at > from && part !== null)
  const rest = text.split('; ').slice(from + 1, next < 0 ? undefined : next)
  return [own[2]!, ...rest].join('; ')
}

function toOption({ flags, what, repeats, choices }: OptionSpec): Option {
  const option = new Option(flags.replace(/ ([A-Z][A-Z=.-]*)$/, ' <$1>'), what)
  if (choices) option.choices([...choices])
  if (repeats)
    option.argParser((value: string, before: unknown) =>
      Array.isArray(before) ? [...before, value] : [value],
    )
  else if (flags.includes(' ')) option.argParser((value: string, before: unknown) => once(value, before))
  if (choices && !repeats)
    option.argParser((value: string, before: unknown) => chosen(value, before, choices))
  return option
}

function once(value: string, before: unknown): string {
  if (before === undefined) return value
  throw new InvalidArgumentError('Give it once: it was typed twice.')
}

function chosen(value: string, before: unknown, choices: readonly string[]): string {
  if (choices.includes(value)) return once(value, before)
  throw new InvalidArgumentError(`Write one of ${choices.join(', ')}.`)
}
