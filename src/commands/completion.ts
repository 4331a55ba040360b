import { findLedger } from '../ledger/read/find.ts'
import { namesIn } from '../ledger/read/names.ts'
import type { Call } from './plumbing/call.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'
import { SCRIPTS } from './reference/completion-script.ts'

const SHELLS = ['bash', 'zsh', 'fish'] as const
const IDS = ['blocks', 'products', 'sprayers', 'varieties', 'seasons'] as const

export const completion: CommandBody = {
  arguments: [{ what: SHELLS.join(', '), choices: SHELLS }],
  options: optionsOf([['--words KIND', 'list the ids of the ledger, for the scripts', { choices: IDS }]]),
  examples: [
    ['source <(rowbook completion bash)', 'in this bash; in ~/.bashrc for good'],
    ['source <(rowbook completion zsh)', 'in this zsh; in ~/.zshrc for good'],
    ['rowbook completion fish > ~/.config/fish/completions/rowbook.fish', 'in fish for good'],
  ],
  async run(call, commands) {
    const kind = IDS.find((one) => one === call.text('words'))
    if (kind !== undefined) return listWords(call, kind)
    const shell = SHELLS.find((one) => one === call.args[0])
    if (!shell)
      throw new UsageError(
        call.args[0] === undefined ? 'which shell?' : `\`${call.args[0]}\` is no shell known here`,
        `write one of ${SHELLS.join(', ')}`,
      )
    call.env.out(SCRIPTS[shell](await commands()))
    return 0
  },
}

/** Lists file names only, and stays silent on failure, since the user is typing a line. */
function listWords(call: Call, kind: (typeof IDS)[number]): number {
  try {
    const names = namesIn(findLedger(call.env.cwd, call.text('ledger')), kind)
    call.env.out(names.map((name) => `${name}\n`).join(''))
  } catch {
    // No ledger here: nothing to offer.
  }
  return 0
}
