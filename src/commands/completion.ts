import type { Call } from './plumbing/call.ts'
import {
  COMMON_OPTIONS,
  type Command,
  type CommandBody,
  HTML_OPTIONS,
  type OptionSpec,
  optionName,
  optionsOf,
} from './plumbing/command.ts'
import type { Completable } from './plumbing/completion-script.ts'
import { UsageError } from './plumbing/errors.ts'

const SHELLS = ['bash', 'zsh', 'fish'] as const
const IDS = ['blocks', 'products', 'sprayers', 'varieties', 'seasons'] as const

/** @param table every command, asked for only when a script is printed. */
export const completionCommand = (table: () => Promise<readonly Command[]>): CommandBody => ({
  arguments: [{ what: SHELLS.join(', '), choices: SHELLS }],
  options: optionsOf([['--words KIND', 'list the ids of the ledger, for the scripts', { choices: IDS }]]),
  examples: [
    ['source <(rowbook completion bash)', 'in this bash; in ~/.bashrc for good'],
    ['source <(rowbook completion zsh)', 'in this zsh; in ~/.zshrc for good'],
    ['rowbook completion fish > ~/.config/fish/completions/rowbook.fish', 'in fish for good'],
  ],
  async run(call: Call) {
    const kind = call.text('words')
    if (kind !== undefined) return listWords(call, kind as (typeof IDS)[number])
    const shell = SHELLS.find((one) => one === call.args[0])
    if (!shell)
      throw new UsageError(
        call.args[0] === undefined ? 'which shell?' : `\`${call.args[0]}\` is no shell known here`,
        `write one of ${SHELLS.join(', ')}`,
      )
    const { renderCompletion } = await import('./plumbing/completion-script.ts')
    call.env.out(renderCompletion(shell, (await table()).map(completable)))
    return 0
  },
})

/** Lists file names only, and stays silent on failure, since the user is typing a line. */
async function listWords(call: Call, kind: (typeof IDS)[number]): Promise<number> {
  try {
    const [{ findLedger }, { namesIn }] = await Promise.all([
      import('../ledger/read/find.ts'),
      import('../ledger/read/names.ts'),
    ])
    const names = namesIn(findLedger(call.env.cwd, call.text('ledger')), kind)
    call.env.out(names.map((name) => `${name}\n`).join(''))
  } catch {
    // No ledger here: nothing to offer.
  }
  return 0
}

/** A command as the scripts know it. */
function completable(command: Command): Completable {
  const own = [...(command.options ?? []), ...(command.html ? HTML_OPTIONS : [])]
  const names = new Set(own.map(longName))
  const common = COMMON_OPTIONS.filter((option) => !names.has(longName(option)))
  const options = [...own, ...common].map((option) => ({
    name: longName(option),
    what: option.what,
    takes: option.flags.includes(' '),
    choices: option.choices ?? [],
    ids: option.ids ?? null,
    file: /\b(FILE|DIR)\b/.test(option.flags),
  }))
  const help = { name: '--help', what: 'show help', takes: false, choices: [], ids: null, file: false }
  return {
    name: command.name,
    summary: command.summary,
    words: command.arguments[0]?.choices ?? [],
    options: [...options, help],
  }
}

const longName = (option: OptionSpec) => `--${optionName(option)}`
