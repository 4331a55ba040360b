import { ripeness as report } from '../reports/ripeness/report.ts'
import { renderRipeness } from '../reports/ripeness/terminal.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'

const KINDS = ['samples', 'picks'] as const
/** A page draws the window too, which is based on more. */
const WINDOW_KINDS = [...KINDS, 'stages', 'sprays'] as const

export const ripeness: CommandBody = {
  options: optionsOf([['--as-pressed', 'add the field-to-press difference of past picks']]),
  html: true,
  examples: [
    ['rowbook ripeness', 'all blocks'],
    ['rowbook ripeness --block top-terrace --as-of 2026-09-14', 'one block, on that day'],
  ],
  async run(call) {
    const windows = call.text('html') !== undefined
    const kinds = windows ? WINDOW_KINDS : KINDS
    const input = call.open({ kinds, history: kinds })
    const asPressed = call.flag('as-pressed')
    const result = report(input, { windows })
    return call.print(
      result,
      (_, style, { blocks }) => renderRipeness(result, { blocks, asPressed }, style),
      { page: () => import('../reports/ripeness/page.ts') },
    )
  },
}
