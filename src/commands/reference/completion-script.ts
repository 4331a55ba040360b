import { type Command, commonOptions, optionName } from '../plumbing/command.ts'

/** The completion script of each shell. It lists ids by `rowbook completion --words KIND`, and is silent on any error. */
export const SCRIPTS = { bash, zsh, fish }

/** A command as a script knows it: the words that its first argument may be, and its options. */
function completable(command: Command) {
  const options = [...command.options, ...commonOptions(command)].map((option) => ({
    name: `--${optionName(option)}`,
    what: option.what,
    /** Whether a value follows, and what it may be: words, a kind of id, or a file or folder. */
    takes: option.flags.includes(' '),
    choices: option.choices ?? [],
    ids: option.ids,
    file: /\b(FILE|DIR)\b/.test(option.flags),
  }))
  const help = { name: '--help', what: 'show help', takes: false, choices: [], ids: undefined, file: false }
  const words = command.arguments[0]?.choices ?? []
  return { name: command.name, summary: command.summary, words, options: [...options, help] }
}

/** The command that lists ids; the scripts add `--ledger` as typed, so that it looks in the right ledger. */
const ASK = 'rowbook completion --words'

function bash(commands: readonly Command[]): string {
  const all = commands.map(completable)
  const names = commands.map(({ name }) => name).join(' ')
  const cases = all.map(
    ({ name, words, options }) =>
      `    ${name}) words=${quote([...words, ...options.map((option) => option.name)].join(' '))} ;;`,
  )
  const values = all.flatMap(({ name: command, options }) =>
    options
      .filter(({ takes }) => takes)
      .map(({ name, ids, file, choices }) => {
        const source = ids
          ? `words=$(_rowbook_ids ${ids})`
          : file
            ? 'files=1'
            : `words=${quote(choices.join(' '))}`
        return `    ${command}:${name}) ${source} ;;`
      }),
  )
  return `# rowbook completion for bash. Load it with: source <(rowbook completion bash)
_rowbook_ids() {
  local i ledger=()
  for ((i = 1; i < COMP_CWORD; i++)); do
    [[ \${COMP_WORDS[i]} == --ledger ]] && ledger=(--ledger "\${COMP_WORDS[i + 1]}")
  done
  ${ASK} "$1" "\${ledger[@]}" 2>/dev/null
}
_rowbook() {
  local current=\${COMP_WORDS[COMP_CWORD]} before=\${COMP_WORDS[COMP_CWORD - 1]} command='' words='' files='' i
  COMPREPLY=()
  for ((i = 1; i < COMP_CWORD; i++)); do
    [[ \${COMP_WORDS[i]} == -* ]] || { command=\${COMP_WORDS[i]}; break; }
  done
  case "$command:$before" in
${values.join('\n')}
    *)
      case "$command" in
    '') words=${quote(`${names} help --help --version`)} ;;
    help) words=${quote(names)} ;;
${cases.join('\n')}
      esac ;;
  esac
  if [[ -n $files ]]; then
    COMPREPLY=($(compgen -f -- "$current"))
  else
    COMPREPLY=($(compgen -W "$words" -- "$current"))
  fi
}
complete -F _rowbook rowbook
`
}

function zsh(commands: readonly Command[]): string {
  const listed = commands.map(({ name, summary }) => `    ${quote(`${name}:${noColon(summary)}`)}`)
  const cases = commands.map(completable).map(({ name, words, options }) => {
    const specs = options.map((option) => {
      const about = option.what.replace(/[[\]':]/g, ' ')
      const action = option.ids
        ? `->${option.ids}`
        : option.choices.length > 0
          ? `(${option.choices.join(' ')})`
          : option.file
            ? '_files'
            : ' '
      return `        ${quote(`*${option.name}[${about}]${option.takes ? `:value:${action}` : ''}`)}`
    })
    const first = words.length > 0 ? `        ${quote(`1:word:(${words.join(' ')})`)}` : null
    return `      ${name})\n        _arguments -C \\\n${[...specs, ...(first ? [first] : []), "        '*: :_files'"].join(' \\\n')} ;;`
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
  local -a commands
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
${cases.join('\n')}
  esac
  [[ -n $state ]] && _rowbook_ids $state
}
compdef _rowbook rowbook
`
}

function fish(commands: readonly Command[]): string {
  const lines = commands.map(completable).flatMap(({ name, summary, words, options }) => {
    const seen = `-n ${quote(`__fish_seen_subcommand_from ${name}`)}`
    return [
      `complete -c rowbook -n __fish_use_subcommand -a ${name} -d ${quote(summary)}`,
      ...(words.length > 0 ? [`complete -c rowbook ${seen} -a ${quote(words.join(' '))}`] : []),
      ...options.map((option) => {
        const value = option.ids
          ? ` -a ${quote(`(__rowbook_ids ${option.ids})`)}`
          : option.choices.length > 0
            ? ` -a ${quote(option.choices.join(' '))}`
            : ''
        const takes = option.takes ? (option.file ? ' -r -F' : ' -x') : ''
        return `complete -c rowbook ${seen} -l ${option.name.slice(2)}${takes}${value} -d ${quote(option.what)}`
      }),
    ]
  })
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
${lines.join('\n')}
`
}

const quote = (text: string) => `'${text.replace(/'/g, `'\\''`)}'`
const noColon = (text: string) => text.replace(/:/g, ';')
