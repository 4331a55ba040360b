import { importSpreadsheet } from './import/rows.ts'
import { importWeather } from './import/weather.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'
import { mappingOf, weatherFormOptions } from './weather/file.ts'

/** What can be brought in. */
const KINDS = ['weather', 'sprays', 'samples', 'picks'] as const

export const importCommand: CommandBody = {
  arguments: [{ what: KINDS.join(', '), choices: KINDS }, { what: 'the file to bring in' }],
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
    const [word = '', file = ''] = call.args
    const kind = KINDS.find((one) => one === word)
    if (!kind) {
      const near = KINDS.find((one) => one === `${word}s`)
      throw new UsageError(
        `\`${word}\` can't be imported`,
        near ? `did you mean \`rowbook import ${near}\`?` : `kinds: ${KINDS.join(', ')}`,
      )
    }
    if (kind === 'weather') return importWeather(call, file)
    if (mappingOf(call) !== undefined)
      throw new UsageError(
        `--columns and the like are for weather; for ${kind}, write it into the file of --map`,
      )
    return importSpreadsheet(call, file, kind)
  },
}
