import { UsageError } from './call.ts'
import type { Command } from './command.ts'

/** What can be brought in, by the kind that is named first. */
const KINDS: Readonly<Record<string, () => Promise<typeof import('./import-weather.ts')['importWeather']>>> =
  {
    weather: async () => (await import('./import-weather.ts')).importWeather,
  }

export const importCommand: Command = {
  name: 'import',
  summary: 'bring in what another program wrote; shows what it would do before it does it',
  arguments: [
    { form: 'KIND', what: 'weather', choices: Object.keys(KINDS) },
    { form: 'FILE', what: 'the file to bring in' },
  ],
  options: [{ flags: '--yes', what: 'write it, after the look' }],
  examples: [
    ['rowbook import weather export.csv', 'see which rows of a station are new'],
    ['rowbook import weather export.csv --yes', 'and put them into the season folders'],
  ],
  async run(call) {
    const [kind = '', file = ''] = call.args
    const work = Object.hasOwn(KINDS, kind) ? KINDS[kind] : undefined
    if (!work)
      throw new UsageError(`\`${kind}\` can't be brought in`, `kinds: ${Object.keys(KINDS).join(', ')}`)
    return (await work())(call, file)
  },
}
