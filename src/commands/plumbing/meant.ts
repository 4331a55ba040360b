import { DISEASES } from '../../records/disease.ts'
import { targetNamed } from '../../reports/note/read-label.ts'
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

/** The option that a bare word after a command most likely stands for, where it isn't `--block`; empty for none. */
const BARE_WORD: Readonly<Record<string, string>> = {
  sugar: '--brix',
  check: '',
  changes: '',
  label: '',
  calibrate: '',
  start: '',
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

/** The parts of a command that are needed to explain a mistyped line. */
interface Known {
  name: string
  arguments: readonly { form: string; what: string }[]
  examples: readonly (readonly [string, string])[]
}

/**
 * What is wrong with a command line that the parser could not read, in plain words, and what to type.
 * @param command the command that the line names; undefined where it names none
 */
export function unreadLineMessage(
  { code, message }: { code: string; message: string },
  argv: readonly string[],
  command: Known | undefined,
): { message: string; help: string } {
  const [first = '', second = ''] = argv.filter((word) => !word.startsWith('-'))
  const near = /Did you mean (?:one of )?([^?]+)\?/.exec(message)?.[1]
  const options = `rowbook ${command?.name ?? 'help'}${command ? ' --help' : ''}`
  switch (code) {
    case 'commander.unknownCommand': {
      const line = lineFor(first) ?? (near === undefined ? null : `rowbook ${near.split(',')[0]}`)
      return {
        message: `there is no command \`${first}\``,
        help: line === null ? 'all commands: rowbook help' : `did you mean \`${line}\`?`,
      }
    }
    case 'commander.excessArguments': {
      const words = argv.filter((one) => !one.startsWith('-'))
      const at = (command?.arguments.length ?? 0) + 1
      const word = words[at] ?? second
      const line = lineWith(words.slice(0, at).join(' '), word)
      const whole = wholeLedger(command?.name, word)
      if (whole) return whole
      return {
        message: `it is not clear what \`${word}\` is for`,
        help: line === null ? `what it takes: ${options}` : `did you mean \`${line}\`?`,
      }
    }
    case 'commander.missingArgument': {
      const given = argv.filter((one) => !one.startsWith('-')).length - 1
      const missing = command?.arguments[given] ?? command?.arguments.at(-1)
      const [example] = command?.examples[0] ?? [options]
      return {
        message: `\`rowbook ${command?.name ?? first}\` needs ${missing?.form.replace(/[<>[\].]/g, '') ?? 'more'}: ${missing?.what ?? ''}`,
        help: `for example \`${example}\``,
      }
    }
    case 'commander.unknownOption': {
      const option = /'(--?[\w-]+)/.exec(message)?.[1] ?? ''
      const named = OPTIONS[`${command?.name} ${option}`] ?? OPTIONS[option] ?? near
      return {
        message: `\`rowbook ${command?.name ?? ''}\` has no option ${option}`.replace(' `', '`'),
        help:
          named === undefined
            ? `its options: ${options}`
            : `did you mean \`${named.replaceAll(', ', '` or `')}\`?`,
      }
    }
    case 'commander.optionMissingArgument': {
      const option = /'(?:-\w, )?(--[\w-]+)/.exec(message)?.[1] ?? 'an option'
      return { message: `${option} needs a value behind it`, help: `its options: ${options}` }
    }
    default: {
      const option = /'(--[\w-]+)/.exec(message)?.[1]
      const [, behind] = message.split("' argument '", 2)
      const [given, way] = behind?.split("' is invalid. ", 2) ?? []
      return option && way
        ? {
            message: `${option} does not take \`${given}\``,
            help: `${way[0]!.toLowerCase()}${way.slice(1)}`.replace(/\.$/, ''),
          }
        : { message: message.replace(/^error: /, ''), help: `its options: ${options}` }
    }
  }
}

/** A file or a product named to a command that takes the whole ledger. */
function wholeLedger(command: string | undefined, word: string): { message: string; help: string } | null {
  if (command === 'label')
    return {
      message: '`rowbook label` lists every product, and takes no name',
      help: `run \`rowbook label\`; what is recorded of one product is in its file under products/`,
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

/** The line that a word in the place of a command most likely stands for. */
function lineFor(word: string): string | null {
  const kind = [...NOTE_KINDS, ...RECORD_KINDS].find((one) => one === word) ?? KINDS[word]
  const said = (DISEASES as readonly string[]).includes(targetNamed(word)) ? 'disease' : word
  return kind ? `rowbook note ${kind}` : (ELSEWHERE[said] ?? null)
}

/** A command with the option that a bare word after it most likely stands for. */
function lineWith(command: string, word: string): string | null {
  const option = optionFor(command, word)
  if (option === '') return null
  return `rowbook ${command} ${option} ${/\s/.test(word) ? `"${word}"` : option === '--for' ? targetNamed(word) : word}`
}

/** Words that name a product, and no block. */
const SUBSTANCE = /^(?:sul(?:ph|f)ur|copper|oil)(?![^\W_])/i

function optionFor(command: string, word: string): string {
  if ((DISEASES as readonly string[]).includes(targetNamed(word))) return command === 'cover' ? '--for' : ''
  if (SUBSTANCE.test(word)) return command === 'mix' ? '--product' : ''
  if (command === 'heat' && /^\d+$/.test(word)) return '--base'
  if (command === 'harvest' && /^\d{1,2}$/.test(word)) return '--people'
  if (command === 'diary' && /^(?:full|eu|uk|us)$/.test(word)) return '--form'
  if (command === 'mix' && word.includes('=')) return '--product'
  if (BARE_WORD[command] !== undefined) return BARE_WORD[command]
  if (/^20\d\d$/.test(word)) return '--season'
  return /^(?:today|tomorrow|yesterday|20\d\d-\d\d-\d\d)$/.test(word) ? '--as-of' : '--block'
}
