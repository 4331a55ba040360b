import { readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { convert } from '../../src/records/units.ts'
import { ledgerCopy } from '../commands/run.ts'

export type Units = 'metric' | 'us' | 'imperial'

/** The customary unit that a label or a grower writes for a metric one; `gal` is the gallon of the country. */
const WRITTEN: Record<string, string> = {
  'kg/ha': 'lb/acre',
  'L/ha': 'gal/acre',
  'g/L': 'oz/gal',
  'g/kg': '%',
  'kg/h': 'lb/h',
  'km/h': 'mph',
  'm/s': 'mph',
  'L/min': 'gal/min',
  'L/t': 'gal/US ton',
  kg: 'lb',
  g: 'oz',
  ha: 'acre',
  mm: 'in',
  m: 'ft',
  cm: 'in',
  L: 'gal',
  C: 'F',
  bar: 'psi',
}
const METRIC = new RegExp(
  `(?<![\\w.-])(\\d+(?:\\.\\d+)?)(?:-(\\d+(?:\\.\\d+)?))? (${Object.keys(WRITTEN)
    .toSorted((a, b) => b.length - a.length)
    .join('|')})(?![\\w/])`,
  'g',
)

/** A record with every quantity as a grower of that country writes it. Must is weighed and titrated in g/L everywhere. */
function written(text: string, units: 'us' | 'imperial'): string {
  const gallon = units === 'us' ? 'US gal' : 'imp gal'
  const one = (number: string, from: string, to: string) =>
    from === 'g/kg'
      ? String(Number(number) / 10)
      : String(Number(convert(Number(number), from, to).toPrecision(5)))
  return text
    .split('\n')
    .map((line) =>
      /\bta:|^#|content: \d+ g\/L/.test(line)
        ? line
        : line.replace(METRIC, (_, low: string, high: string | undefined, unit: string) => {
            const to = WRITTEN[unit]!.replace(/\bgal\b/, gallon)
            return `${one(low, unit, to)}${high === undefined ? '' : `-${one(high, unit, to)}`} ${to}`
          }),
    )
    .join('\n')
}

/** Changes every YAML file of a ledger by `change`. */
function eachFile(root: string, change: (text: string) => string): void {
  for (const file of readdirSync(root, { recursive: true, encoding: 'utf8' }))
    if (file.endsWith('.yaml')) {
      const path = join(root, file)
      writeFileSync(path, change(readFileSync(path, 'utf8')))
    }
}

/** A copy of an example that prints in these units; with `records`, its records are written in them too. */
export function bookIn(units: Units, example: string, how: { records?: boolean } = {}): string {
  const root = ledgerCopy(example)
  eachFile(root, (text) => {
    const site = text.replace(/^units: metric$/m, `units: ${units}`)
    return how.records && units !== 'metric' ? written(site, units) : site
  })
  return root
}

const NAMES: Record<string, string> = {
  blocks: 'Oberhalbderaltenkalkbrennereiamwestlichenmuehlbachgelegen, planted again in the spring of 1998',
  varieties: 'The old variety of the monastery garden that nobody could name',
  products: 'Wettable granules of the cooperative in the large paper sack',
  sprayers: 'Second-hand mounted sprayer with the tall outlets of the uncle',
}

/** Gives every block, variety, product and sprayer of a ledger a name and an id of some 60 letters. */
export function lengthened(root: string): string {
  const ids = new Map<string, string>()
  for (const [kind, name] of Object.entries(NAMES))
    for (const [index, file] of readdirSync(join(root, kind))
      .filter((each) => each.endsWith('.yaml'))
      .entries()) {
      const id = file.slice(0, -5)
      const long = `${id}-${'that-lies-behind-the-old-lime-kiln-by-the-brook-in-the-shade'.slice(0, 58 - id.length)}x`
      ids.set(id, long)
      const path = join(root, kind, file)
      writeFileSync(path, readFileSync(path, 'utf8').replace(/^name: .*$/m, `name: ${name} ${index}`))
      renameSync(path, join(root, kind, `${long}.yaml`))
    }
  const word = new RegExp(`(?<![\\w./-])(${[...ids.keys()].join('|')})(?![\\w.:-])`, 'g')
  eachFile(root, (text) =>
    text
      .split('\n')
      .map((line) =>
        /^(name|note|#|actives)|^ *- \{ against/.test(line) ? line : line.replace(word, (id) => ids.get(id)!),
      )
      .join('\n'),
  )
  return root
}
