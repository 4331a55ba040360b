import { crop as report } from '../reports/crop/report.ts'
import { renderCrop } from '../reports/crop/terminal.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'

export const crop: CommandBody = {
  options: optionsOf([
    ['--error SHARE', 'wanted error, like "10 %" (the default)'],
    ['--thin-to QUANTITY', 'yield to thin to, like "7000 kg/ha"; else the high end of the target'],
    ['--learned', 'correct by how past estimates compared with the picks'],
  ]),
  html: true,
  examples: [
    ['rowbook crop', 'every block'],
    ['rowbook crop --block top-terrace --error "15 %"', 'how many more vines to count'],
    ['rowbook crop --thin-to "6000 kg/ha"', 'how many bunches to drop'],
  ],
  async run(call) {
    const error = call.value('error', '%')
    if (error !== undefined && !(error > 0 && error <= 100))
      throw new UsageError('--error takes a share above 0 up to 100 %')
    const thinTo = call.above('thin-to', 'kg/ha')
    const kinds = ['crop', 'picks', 'work'] as const
    const input = call.open({ kinds, history: kinds })
    const result = report(input, {
      error: error && error / 100,
      thinTo,
      learned: call.flag('learned'),
    })
    return call.print(result, renderCrop, { page: () => import('../reports/crop/page.ts') })
  },
}
