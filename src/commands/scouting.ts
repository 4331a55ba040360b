import { scouting as report } from '../reports/scouting/report.ts'
import { renderScouting } from '../reports/scouting/terminal.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'

export const scouting: CommandBody = {
  options: optionsOf([
    ['--precision PERCENT', 'wanted precision of the share, ± %; else 5'],
    ['--detect PERCENT', 'share that a scouting round finds with 95 % confidence; else 3'],
  ]),
  html: true,
  examples: [
    ['rowbook scouting', 'every block and disease'],
    ['rowbook scouting --block top-terrace --detect 1', 'one block; how many to look at to find 1 %'],
  ],
  async run(call) {
    const share = (name: string, most: number) => {
      const percent = call.number(name, FINEST, most)
      if (percent === most) throw new UsageError(`--${name} is less than ${most} %`)
      return percent === undefined ? undefined : percent / 100
    }
    const options = { precision: share('precision', 50), detect: share('detect', 100) }
    const history = ['scouting', 'stages', 'samples', 'picks', 'sprays'] as const
    const input = call.open({ kinds: history, history })
    return call.print(report(input, options), renderScouting, {
      page: () => import('../reports/scouting/page.ts'),
    })
  },
}

/** Percent to which a share can be asked for: finer ones take more vines than any vineyard has. */
const FINEST = 0.01
