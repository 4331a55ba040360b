import { DISEASES } from '../../records/disease.ts'
import { targetNamed } from '../../reports/note/read-label.ts'
import type { Command } from './command.ts'
import { NOTE_KINDS, RECORD_KINDS } from './note-options.ts'

/** Other words for the kinds of entry, as people type them where a command stands. */
const KINDS: Readonly<Record<string, string>> = {
  sprays: 'spray',
  scout: 'scouting',
  round: 'scouting',
  samples: 'sample',
  stages: 'stage',
  picks: 'pick',
  harvested: 'pick',
  picking: 'pick',
  count: 'crop',
}

/** Words that people try as commands, and the line to type instead. */
const ELSEWHERE: Readonly<Record<string, string>> = {
  undo: 'rowbook note --undo',
  amend: 'rowbook note --amend last',
  add: 'rowbook note',
  record: 'rowbook note',
  init: 'rowbook start DIR',
  new: 'rowbook start DIR',
  status: 'rowbook today',
  lint: 'rowbook check',
  version: 'rowbook --version',
  delete: 'rowbook note --undo',
  edit: 'rowbook note --amend last',
  change: 'rowbook note --amend last',
  brix: 'rowbook sugar --brix 18',
  when: 'rowbook window',
  forecast: 'rowbook window',
  disease: 'rowbook pressure',
  mildew: 'rowbook pressure',
  copper: 'rowbook totals',
}

/** Options that a command has under another name. */
const OPTIONS: Readonly<Record<string, string>> = {
  'window --brix': '--target brix=20',
  '--date': '--as-of',
  '--day': '--as-of',
  '--blocks': '--block',
  '-b': '--block',
  '--year': '--season',
  'note --dose': '--product "ID=3 kg/ha"',
  'note --rate': '--product "ID=3 kg/ha"',
  'note --amount': '--product "ID=1.2 kg"',
  'note --concentration': '--product "ID=5 g/L"',
}

interface Unread {
  message: string
  help: string
}

/**
 * What is wrong with a command line that the parser could not read, in plain words, and what to type.
 * @param command the command that the line names; undefined where it names none
 */
export function unreadLineMessage(
  { code, message }: { code: string; message: string },
  argv: readonly string[],
  command: Pick<Command, 'name' | 'arguments' | 'examples'> | undefined,
): Unread {
  const words = argv.filter((word) => !word.startsWith('-'))
  const near = /Did you mean (?:one of )?([^?]+)\?/.exec(message)?.[1]
  const [, option = 'an option'] = /'(?:-\w, )?(--?[\w-]+)/.exec(message) ?? []
  const name = command ? `rowbook ${command.name}` : 'rowbook'
  const ask = command ? `${name} --help` : 'rowbook help'
  switch (code) {
    case 'commander.unknownCommand': {
      const [, word = ''] = /unknown command '(.*)'/s.exec(message) ?? []
      const line = lineFor(word) ?? (near && `rowbook ${near.split(',')[0]}`)
      return {
        message: `there is no command \`${word}\``,
        help: line ? `did you mean \`${line}\`?` : 'all commands: rowbook help',
      }
    }
    case 'commander.excessArguments': {
      const at = (command?.arguments.length ?? 0) + 1
      const word = words[at] ?? ''
      const line = lineWith(words.slice(0, at).join(' '), word)
      return (
        wholeLedger(command?.name, word) ?? {
          message: `it is not clear what \`${word}\` is for`,
          help: line === null ? `what it takes: ${ask}` : `did you mean \`${line}\`?`,
        }
      )
    }
    case 'commander.missingArgument': {
      const { arguments: args, examples } = command!
      const { form, what } = args[words.length - 1] ?? args.at(-1)!
      return {
        message: `\`${name}\` needs ${form.replace(/[[\].]/g, '')}: ${what}`,
        help: `for example \`${examples[0]![0]}\``,
      }
    }
    case 'commander.unknownOption': {
      const named = OPTIONS[`${command?.name} ${option}`] ?? OPTIONS[option] ?? near
      return {
        message: `\`${name}\` has no option ${option}`,
        help: named ? `did you mean \`${named.replaceAll(', ', '` or `')}\`?` : `its options: ${ask}`,
      }
    }
    case 'commander.optionMissingArgument':
      return { message: `${option} needs a value behind it`, help: `its options: ${ask}` }
    default: {
      const [, given, way] = /' argument '(.*)' is invalid\. (.*)$/s.exec(message) ?? []
      if (!way) return { message: message.replace(/^error: /, ''), help: `its options: ${ask}` }
      const help = `${way[0]!.toLowerCase()}${way.slice(1)}`.replace(/\.$/, '')
      return { message: `${option} does not take \`${given}\``, help }
    }
  }
}

/** A file or a product named to a command that takes the whole ledger. */
function wholeLedger(command: string | undefined, word: string): Unread | null {
  if (command === 'label')
    return {
      message: '`rowbook label` lists every product, and takes no name',
      help: 'run `rowbook label`; what is recorded of one product is in its file under products/',
    }
  if (command !== 'check') return null
  const [season] = /(?<=seasons\/)\d{4}(?![^/])/.exec(word) ?? []
  const at = word.search(/(?:seasons|blocks|varieties|products|sprayers)(?![^/])|[^/.]{1,200}\.\w{1,9}$/)
  const folder = (at < 0 ? word : word.slice(0, at)).replace(/\/$/, '')
  const line = `rowbook check${folder ? ` --ledger ${folder}` : ''}${season ? ` --season ${season}` : ''}`
  return {
    message: '`rowbook check` takes no file: a record is checked together with the others',
    help: `run \`${line}\`. In a git repository \`--changed\` lists only what you changed since the last commit`,
  }
}

const isDisease = (word: string) => (DISEASES as readonly string[]).includes(targetNamed(word))

/** The line that a word in the place of a command most likely stands for. */
function lineFor(word: string): string | null {
  const kind = [...NOTE_KINDS, ...RECORD_KINDS].find((one) => one === word) ?? KINDS[word]
  return kind ? `rowbook note ${kind}` : (ELSEWHERE[isDisease(word) ? 'disease' : word] ?? null)
}

/** A command with the option that a bare word after it most likely stands for. */
function lineWith(command: string, word: string): string | null {
  const [, , option] = BARE_WORDS.find(
    ([isWord, of]) =>
      (of === null || of.split(' ').includes(command)) &&
      (isWord instanceof RegExp ? isWord.test(word) : isWord(word)),
  )!
  if (option === null) return null
  const value = /\s/.test(word) ? `"${word}"` : option === '--for' ? targetNamed(word) : word
  return `rowbook ${command} ${option} ${value}`
}

/** Words that name a product, and no block. */
const SUBSTANCE = /^(?:sul(?:ph|f)ur|copper|oil)(?![^\W_])/i

/** The option that a bare word after some commands, or after any, stands for; null for none. The first that fits counts. */
const BARE_WORDS: readonly (readonly [
  word: RegExp | ((word: string) => boolean),
  after: string | null,
  option: string | null,
])[] = [
  [isDisease, 'cover', '--for'],
  [isDisease, null, null],
  [SUBSTANCE, 'mix', '--product'],
  [SUBSTANCE, null, null],
  [/^\d+$/, 'heat', '--base'],
  [/^\d{1,2}$/, 'harvest', '--people'],
  [/^(?:full|eu|uk|us)$/, 'diary', '--form'],
  [/=/, 'mix', '--product'],
  [/^/, 'sugar', '--brix'],
  [/^/, 'check changes label calibrate start', null],
  [/^20\d\d$/, null, '--season'],
  [/^(?:today|tomorrow|yesterday|20\d\d-\d\d-\d\d)$/, null, '--as-of'],
  [/^/, null, '--block'],
]
