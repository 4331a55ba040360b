import type { ImportKind } from '../ledger/import/mapping.ts'
import type { Call } from './plumbing/call.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'
import { mappingOf, weatherFormOptions } from './weather/file.ts'

/** What can be brought in, by the kind that is named first. */
const KINDS: Readonly<Record<string, () => Promise<(call: Call, file: string) => Promise<number>>>> = {
  weather: async () => (await import('./import/weather.ts')).importWeather,
  sprays: () => spreadsheet('sprays'),
  samples: () => spreadsheet('samples'),
  picks: () => spreadsheet('picks'),
}

async function spreadsheet(kind: ImportKind) {
  const { importSpreadsheet } = await import('./import/rows.ts')
  return (call: Call, file: string) => importSpreadsheet(call, file, kind)
}

export const importCommand: CommandBody = {
  arguments: [
    { what: Object.keys(KINDS).join(', '), choices: Object.keys(KINDS) },
    { what: 'the file to bring in' },
  ],
  options: [
    ...optionsOf([
      [
        '--map FILE',
        'for sprays, samples and picks: which column holds which key, as YAML; see `rowbook schema mapping`',
      ],
    ]),
    ...weatherFormOptions('for weather, where rowbook reads it wrongly'),
    ...optionsOf([
      [
        '--rain KIND',
        'for weather: whether rain is of each row, or a counter of which the rise is taken',
        { choices: ['each', 'counter'] },
      ],
      ['--yes', 'write it; without this it only shows what it would do'],
      ['--anyway', 'also entries that are recorded already or break a rule'],
    ]),
  ],
  examples: [
    ['rowbook import weather export.csv', 'see how its columns are read, and which rows are new'],
    ['rowbook import weather export.csv --yes', 'add the new rows to the ledger'],
    [
      'rowbook import weather logger.csv --columns "time=Zeit, temperature=Temp" --decimal comma --dates day-first',
      'say what a column holds where it is not recognised',
    ],
    [
      'rowbook import weather logger.csv --column-units "time=UTC, rain=0.2 mm"',
      'its clock is UTC, and each tip of its rain gauge is 0.2 mm',
    ],
    [
      'rowbook import sprays old-log.csv --map old-log.map.yaml',
      'see which entries the rows of a spreadsheet make',
    ],
    ['rowbook import sprays old-log.csv --map old-log.map.yaml --yes', 'write all of them, or none'],
  ],
  async run(call) {
    const [kind = '', file = ''] = call.args
    const work = Object.hasOwn(KINDS, kind) ? KINDS[kind] : undefined
    if (!work)
      throw new UsageError(
        `\`${kind}\` can't be imported`,
        Object.hasOwn(KINDS, `${kind}s`)
          ? `did you mean \`rowbook import ${kind}s\`?`
          : `kinds: ${Object.keys(KINDS).join(', ')}`,
      )
    if (kind !== 'weather' && mappingOf(call) !== undefined)
      throw new UsageError(
        `--columns and the like are for weather; for ${kind}, write it into the file of --map`,
      )
    return (await work())(call, file)
  },
}
