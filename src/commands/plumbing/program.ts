import { CommanderError, InvalidArgumentError, Option, Command as Parser } from 'commander'
import { safe } from '../../render/safe.ts'
import { renderLines } from '../../render/text.ts'
import { commandOf, commandsOf } from '../index.ts'
import { commandNamed, TABLE } from '../table.ts'
import { Call } from './call.ts'
import { type Command, commonOptions, type OptionSpec } from './command.ts'
import type { Env } from './env.ts'
import { UsageError } from './errors.ts'
import { renderHelp } from './help.ts'

/**
 * Reads a command line and runs its command.
 * @returns the exit status: 0 done; 1 done, and something is wrong in the ledger; 2 usage error.
 */
export async function runCommandLine(line: readonly string[], env: Env, version: string): Promise<number> {
  if (line.length === 0) return (await import('./bare.ts')).printNextStep(env)
  // `help spray` is answered as `spray` is.
  const argv = line[0] === 'help' && line.length > 1 && !commandNamed(line[1]) ? line.slice(1) : line
  const [first, second] = argv.filter((word) => !word.startsWith('-'))
  const named = commandNamed(first)
  const asked = named ?? (first === 'help' ? commandNamed(second) : undefined)
  const command = asked && (await commandOf(asked))
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
  for (const [usage, summary] of TABLE) {
    const [name] = usage.split(' ')
    const sub = parser.command(name!).description(summary).exitOverride()
    if (!command || name !== command.name) continue
    fillIn(sub, command, { argv, columns: env.columns })
    sub.action(async () => {
      const call = new Call(command.name, sub.args, sub.opts(), env)
      if (call.coloured) call.paint = (await import('../../render/colours.ts')).COLOURS
      status = await runTyped(command, call)
    })
  }
  try {
    await parser.parseAsync(named ? wordFirst(argv, command!) : argv, { from: 'user' })
    return status
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error
    if (error.exitCode === 0) return 0
    const { unreadLineMessage } = await import('./meant.ts')
    const { message, help } = unreadLineMessage(error, argv, named && command)
    env.err(`rowbook: ${safe(message)}\n  ${safe(help)}\n`)
    return 2
  }
}

async function runTyped(command: Command, call: Call): Promise<number> {
  try {
    return await command.run(call, commandsOf)
  } catch (error) {
    throw error instanceof UsageError ? call.inOwnUnits(error) : error
  }
}

/**
 * The line with its first argument moved in front of options that take several values and would swallow it.
 */
function wordFirst(argv: readonly string[], { name, arguments: [argument] }: Command): readonly string[] {
  const isWord = (text: string | undefined) => argument?.choices?.includes(text?.split('.')[0] ?? '')
  const start = argv.indexOf(name) + 1
  const at = argv.findIndex((text, at) => at >= start && isWord(text) && !argv[at - 1]!.startsWith('-'))
  return at < 0 || isWord(argv[start]) ? argv : argv.toSpliced(at, 1).toSpliced(start, 0, argv[at]!)
}

/** Adds options and arguments to a command, only where it is on the command line: there are hundreds. */
function fillIn(
  sub: Parser,
  command: Command,
  { argv, columns }: { argv: readonly string[]; columns: number },
): void {
  for (const { form, what } of command.arguments)
    sub.argument(form.startsWith('[') ? form : `<${form}>`, what)
  const word = argv.find((one) => command.arguments[0]?.choices?.includes(one))
  for (const option of command.options) sub.addOption(underHeading(option, word))
  for (const option of commonOptions(command))
    sub.addOption(toOption(option).helpGroup('Options of every command:'))
  const fitting = command.examples.filter(([line]) => word && line.includes(` ${command.name} ${word}`))
  const shown = fitting.length > 0 ? fitting : command.examples
  sub.addHelpText('before', () => `Examples:\n${renderLines(shown, columns)}\n`)
}

/** Puts an option under the heading of its kind; where one kind is asked for, hides the options of the others. */
function underHeading(spec: OptionSpec, word: string | undefined): Option {
  const { of } = spec
  if (!of) return toOption(spec)
  if (!word) return toOption(spec).helpGroup(`Fields of ${of.length > 2 ? 'several kinds' : of[0]}:`)
  if (!of.includes(word)) return toOption(spec).hideHelp()
  return toOption({ ...spec, what: ownPart(spec.what, word) }).helpGroup(`Fields of ${word}:`)
}

/** The part for one kind of a text like `spray: air; sample: juice`; the whole text where it has no such part. */
function ownPart(text: string, word: string): string {
  const parts = text.split('; ')
  const kindsOf = (part: string) => /^\w+(?:, \w+)*(?=: )/.exec(part)?.[0].split(', ')
  const from = parts.findIndex((part) => kindsOf(part)?.includes(word))
  if (from < 0) return text
  const next = parts.findIndex((part, at) => at > from && kindsOf(part))
  const own = parts.slice(from, next < 0 ? undefined : next).join('; ')
  return own.slice(own.indexOf(': ') + 2)
}

function toOption({ flags, what, repeats, choices }: OptionSpec): Option {
  const option = new Option(flags.replace(/ ([A-Z][A-Z=.-]*)$/, ' <$1>'), what)
  if (choices) option.choices([...choices])
  // A switch takes no value, and one such as --no-color is on before it is typed.
  if (!flags.includes(' ')) return option
  return option.argParser((value: string, before: unknown) => {
    if (choices && !choices.includes(value))
      throw new InvalidArgumentError(`Write one of ${choices.join(', ')}.`)
    if (repeats) return Array.isArray(before) ? [...before, value] : [value]
    if (before !== undefined) throw new InvalidArgumentError('Give it once: it was typed twice.')
    return value
  })
}
