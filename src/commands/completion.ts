import type { Call } from './plumbing/call.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'

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
    const { SCRIPTS } = await import('./reference/completion-script.ts')
    call.env.out(SCRIPTS[shell](await commands()))
    return 0
  },
}

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
