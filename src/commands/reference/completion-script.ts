import { type Command, commonOptions, type OptionSpec, optionName } from '../plumbing/command.ts'

/** The completion script of each shell. It lists ids by `rowbook completion --words KIND`, and is silent on any error. */
export const SCRIPTS = { bash, zsh, fish }

/** The command that lists ids; the scripts add `--ledger` as typed, so that it looks in the right ledger. */
const ASK = 'rowbook completion --words'
const HELP: OptionSpec = { flags: '--help', what: 'show help' }

const takesValue = ({ flags }: OptionSpec) => flags.includes(' ')
const takesFile = ({ flags }: OptionSpec) => /\b(FILE|DIR)\b/.test(flags)

/**
 * Each thing to complete, as a shell writes it, with the commands that take it: many options are those of most commands.
 * @param first writes the words that a first argument may be. @param option writes an option.
 */
function shared(
  commands: readonly Command[],
  { first, option }: { first: (words: string) => string; option: (option: OptionSpec) => string },
): [what: string, of: string[]][] {
  const found = new Map<string, string[]>()
  for (const command of commands) {
    const words = command.arguments[0]?.choices ?? []
    const options = [...command.options, ...commonOptions(command), HELP].map(option)
    for (const what of words.length > 0 ? [first(words.join(' ')), ...options] : options)
      found.set(what, [...(found.get(what) ?? []), command.name])
  }
  return [...found]
}

function bash(commands: readonly Command[]): string {
  const names = commands.map(({ name }) => name).join(' ')
  const offers = shared(commands, {
    first: (words) => quote(words),
    option(option) {
      const { ids, choices = [] } = option
      if (!takesValue(option)) return `--${optionName(option)}`
      const value = ids ? `ids ${ids}` : takesFile(option) ? 'files' : `words ${quote(choices.join(' '))}`
      return `--${optionName(option)} ${value}`
    },
  })
  return `# rowbook completion for bash. Load it with: source <(rowbook completion bash)
_rowbook_ids() {
  local i ledger=()
  for ((i = 1; i < COMP_CWORD; i++)); do
    [[ \${COMP_WORDS[i]} == --ledger ]] && ledger=(--ledger "\${COMP_WORDS[i + 1]}")
  done
  ${ASK} "$1" "\${ledger[@]}" 2>/dev/null
}
# The commands $1 take $2. Behind it follow files, ids or words ($3), and which of them ($4), or nothing.
_rowbook_offer() {
  [[ " $1 " == *" $command "* ]] || return
  words+=" $2"
  [[ $before == "$2" ]] && follows=$3 which=$4
}
_rowbook() {
  local current=\${COMP_WORDS[COMP_CWORD]} before=\${COMP_WORDS[COMP_CWORD - 1]} command='' words='' follows='' which='' i
  for ((i = 1; i < COMP_CWORD; i++)); do
    [[ \${COMP_WORDS[i]} == -* ]] || { command=\${COMP_WORDS[i]}; break; }
  done
  case $command in
    '') words=${quote(`${names} help --help --version`)} ;;
    help) words=${quote(names)} ;;
  esac
${offers.map(([what, of]) => `  _rowbook_offer ${quote(of.join(' '))} ${what}`).join('\n')}
  case $follows in
    ids) words=$(_rowbook_ids "$which") ;;
    words) words=$which ;;
  esac
  if [[ $follows == files ]]; then
    COMPREPLY=($(compgen -f -- "$current"))
  else
    COMPREPLY=($(compgen -W "$words" -- "$current"))
  fi
}
complete -F _rowbook rowbook
`
}

function zsh(commands: readonly Command[]): string {
  const listed = commands.map(({ name, summary }) => `    ${quote(`${name}:${summary.replace(/:/g, ';')}`)}`)
  const offers = shared(commands, {
    first: (words) => quote(`1:word:(${words})`),
    option(option) {
      const { what, ids, choices } = option
      const value = ids ? `->${ids}` : choices ? `(${choices.join(' ')})` : takesFile(option) ? '_files' : ' '
      const about = what.replace(/[[\]':]/g, ' ')
      return quote(`*--${optionName(option)}[${about}]${takesValue(option) ? `:value:${value}` : ''}`)
    },
  })
  return `#compdef rowbook
# rowbook completion for zsh. Load it with: source <(rowbook completion zsh)
_rowbook_ids() {
  local -a ledger ids
  local at=\${words[(I)--ledger]}
  (( at > 0 )) && ledger=(--ledger "\${words[at + 1]}")
  ids=(\${(f)"$(${ASK} $1 $ledger 2>/dev/null)"})
  compadd -a ids
}
_rowbook() {
  local state line
  local -a commands offers
  commands=(
${listed.join('\n')}
  )
  if (( CURRENT == 2 )); then
    _describe command commands
    return
  fi
  local command=$words[2]
  shift words
  (( CURRENT-- ))
  case $command in
${offers.map(([what, of]) => `    ${of.join('|')}) offers+=(${what}) ;|`).join('\n')}
  esac
  (( $#offers )) && _arguments -C $offers '*: :_files'
  [[ -n $state ]] && _rowbook_ids $state
}
compdef _rowbook rowbook
`
}

function fish(commands: readonly Command[]): string {
  const listed = commands.map(
    ({ name, summary }) => `-n __fish_use_subcommand -a ${name} -d ${quote(summary)}`,
  )
  const offers = shared(commands, {
    first: (words) => `-a ${quote(words)}`,
    option(option) {
      const { what, ids, choices } = option
      const takes = takesFile(option) ? ' -r -F' : takesValue(option) ? ' -x' : ''
      const value = ids ? `(__rowbook_ids ${ids})` : choices?.join(' ')
      return `-l ${optionName(option)}${takes}${value ? ` -a ${quote(value)}` : ''} -d ${quote(what)}`
    },
  }).map(([what, of]) => `-n ${quote(`__fish_seen_subcommand_from ${of.join(' ')}`)} ${what}`)
  return `# rowbook completion for fish. Load it with: rowbook completion fish | source
function __rowbook_ids
  set -l ledger
  set -l typed (commandline -opc)
  if set -l at (contains -i -- --ledger $typed)
    set ledger --ledger $typed[(math $at + 1)]
  end
  ${ASK} $argv[1] $ledger 2>/dev/null
end
complete -c rowbook -f
${[...listed, ...offers].map((line) => `complete -c rowbook ${line}`).join('\n')}
`
}

const quote = (text: string) => `'${text.replace(/'/g, `'\\''`)}'`
