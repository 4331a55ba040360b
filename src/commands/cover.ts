import { windowOf } from '../facts/window/block-window.ts'
import type { Disease } from '../records/disease.ts'
import { cover as report } from '../reports/cover/report.ts'
import { renderCover } from '../reports/cover/terminal.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'

export const cover: CommandBody = {
  options: optionsOf([
    [
      '--for DISEASE',
      'the disease to show first, else powdery',
      { choices: ['powdery', 'downy', 'botrytis', 'black-rot'] },
    ],
  ]),
  html: true,
  examples: [
    ['rowbook cover', 'every block, powdery mildew first'],
    ['rowbook cover --for downy --block top-terrace', 'one block and another disease'],
  ],
  async run(call) {
    const kinds = ['sprays', 'stages', 'picks', 'samples', 'scouting'] as const
    const input = call.open({ kinds, history: kinds })
    const { blocks } = input.ledger
    const disease = call.text('for') as Disease | undefined
    return call.print(
      report(input, { disease, windowOf: (id) => windowOf(blocks.get(id)!, input) }),
      renderCover,
      { page: () => import('../reports/cover/page.ts') },
    )
  },
}
