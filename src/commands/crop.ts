import { namesOf } from '../facts/names.ts'
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
    const error = await call.quantity('error', ['%'])
    if (error && !(error.value > 0 && error.value <= 100))
      throw new UsageError('--error takes a share above 0 up to 100 %')
    const thinTo = (await call.quantity('thin-to', ['kg/ha']))?.value
    if (thinTo !== undefined && !(thinTo > 0)) throw new UsageError('--thin-to must be above 0')
    const kinds = ['crop', 'picks', 'work'] as const
    const input = await call.open({ kinds, history: kinds })
    const { crop: report } = await import('../reports/crop/report.ts')
    const { renderCrop } = await import('../reports/crop/terminal.ts')
    const names = namesOf(input.ledger).blocks
    const result = report(input, {
      error: error && error.value / 100,
      thinTo,
      learned: call.flag('learned'),
    })
    return call.print(result, (result, style) => renderCrop(result, names, style), {
      page: async () => (await import('../reports/crop/page.ts')).cropPage,
    })
  },
}
