import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { RecordCache } from '../../../src/ledger/cache/record-cache.ts'
import { filesOnDisk } from '../../../src/ledger/read/files.ts'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { makeLedger } from '../make.ts'

const SPRAY = 'seasons/2026/sprays/2026-05-06-home.yaml'
const site = (timezone: string, units: string) =>
  `name: Far Ridge\nlatitude: 45\ntimezone: ${timezone}\nunits: ${units}\nlimits: { copper: { per_season: 4 lb/ac } }\n`
const files = (timezone: string, units: string) => ({
  'vineyard.yaml': site(timezone, units),
  'blocks/home.yaml': 'name: Home\nvariety: oak\narea: 2 ac\nrow_spacing: 8 feet\nvine_spacing: 5 ft\n',
  'varieties/oak.yaml': 'name: Oak\ncolour: white\n',
  'products/sulfur.yaml':
    'name: Sulfur\nform: WG\nkind: fungicide\nactives: [{ name: sulphur, content: 80 %, group: M02 }]\nuses:\n  - { against: powdery, rate: 2 to 6 lb/ac }\n  - { against: downy, concentration: 1.5 oz per gallon }\nwater: 25-100 gal/ac\n',
  'sprayers/rig.yaml':
    'name: Rig\ntank: 25 gal\ncalibrated: 04/05/2026\nnozzles: [0.2 gal/min, 0.2 gal/min]\n',
  [SPRAY]:
    'date: 05/06/2026\ntime: 6:30pm-7:10pm\nblocks: [home]\nsprayer: rig\nwater: 30 gal\nproducts:\n  - { product: sulfur, rate: 3 lb/ac, for: powdery }\nnote: 3 gal left, 2 ac done\n',
})
const open = (root: string, cache?: RecordCache) =>
  openLedger(root, { seasons: 'all' }, { ...filesOnDisk(root), ...(cache ? { cache } : {}) })

describe('what the values of a file mean in the country of its site', () => {
  test('a US one: month first, US gallons, acres', () => {
    const { findings, sprays, sprayers, products, blocks, vineyard } = open(
      makeLedger(files('America/Denver', 'us')),
    )
    expect(findings.filter(({ level }) => level === 'error')).toEqual([])
    expect(sprays[0]).toMatchObject({ date: '2026-05-06', time: { start: 1110, end: 1150 } })
    expect(sprays[0]!.water!.value).toBeCloseTo(30 * 3.785411784, 9)
    expect(sprays[0]!.note).toBe('3 gal left, 2 ac done')
    expect(sprayers.get('rig')).toMatchObject({ calibrated: '2026-04-05' })
    expect(sprayers.get('rig')!.nozzles![0]).toBeCloseTo(0.2 * 3.785411784, 9)
    expect(products.get('sulfur')!.uses[0]!.rate!.high).toBeCloseTo((6 * 0.45359237) / 0.40468564224, 9)
    expect(products.get('sulfur')!.uses[1]!.concentration!.low).toBeCloseTo(
      (1.5 * 28.349523125) / 3.785411784,
      6,
    )
    expect(blocks.get('home')!.area).toBeCloseTo(0.80937, 5)
    expect(vineyard.limits!.copper!.per_season).toBeCloseTo((4 * 0.45359237) / 0.40468564224, 9)
  })
  test('a British one: day first, imperial gallons', () => {
    const { findings, sprays } = open(makeLedger(files('Europe/London', 'uk')))
    expect(findings.filter(({ level }) => level === 'error')).toEqual([])
    expect(sprays[0]!.date).toBe('2026-06-05')
    expect(sprays[0]!.water!.value).toBeCloseTo(30 * 4.54609, 9)
  })
  test('a site in a country that uses both orders: ambiguous dates are refused at their place, with what to write', () => {
    const { findings } = open(makeLedger(files('America/Toronto', 'metric')))
    const at = (file: string) =>
      findings.filter((one) => one.file === file).map(({ name, help }) => `${name}: ${help}`)
    expect(at(SPRAY)).toEqual([
      'bad-date: write 2026-06-05 or 2026-05-06',
      'ambiguous-unit: write `30 US gal` or `30 imp gal`',
      'ambiguous-unit: write `3 lb/acre`',
    ])
    expect(at('vineyard.yaml')).toEqual(['ambiguous-unit: write `4 lb/acre`'])
  })
  test('an unambiguous date is accepted everywhere', () => {
    const made = files('America/Toronto', 'metric')
    const root = makeLedger({
      ...made,
      [SPRAY]: 'date: 23/05/2026\nblocks: [home]\nproducts: [{ product: sulfur, rate: 3 kg/ha }]\n',
    })
    expect(open(root).sprays[0]!.date).toBe('2026-05-23')
  })
  test('the cache follows a change of the site, even where the file itself is unchanged', () => {
    const root = makeLedger(files('America/Denver', 'us'))
    const folder = mkdtempSync(join(tmpdir(), 'rowbook-cache-'))
    const read = () => {
      const cache = new RecordCache(folder, 'test', root)
      const { sprays } = open(root, cache)
      cache.save()
      return { date: sprays[0]?.date, water: sprays[0]?.water?.value }
    }
    const first = read()
    expect(read()).toEqual(first)
    const before = readFileSync(join(root, SPRAY), 'utf8')
    writeFileSync(join(root, 'vineyard.yaml'), site('Europe/London', 'imperial'))
    expect(read()).toEqual({ date: '2026-06-05', water: 30 * 4.54609 })
    writeFileSync(join(root, 'vineyard.yaml'), site('America/Denver', 'us'))
    expect(read()).toEqual(first)
    expect(readFileSync(join(root, SPRAY), 'utf8')).toBe(before)
  })
})

describe('a clean scouting round recorded by one word', () => {
  const ROUND = 'seasons/2026/scouting/2026-06-05-home.yaml'
  const withRound = (found: string, more = '') =>
    open(
      makeLedger({
        ...files('Europe/London', 'uk'),
        'vineyard.yaml': `${site('Europe/London', 'uk')}${more}`,
        [ROUND]: `date: 2026-06-05\nblock: home\nlooked_at: { bunches: 50, leaves: 20 }\nfound: ${found}\n`,
      }),
    )
  const none = { bunches: 0, leaves: 0 }
  test.each([
    ['clean', '', { powdery: none, downy: none, botrytis: none }],
    ['nothing', 'diseases: [powdery, black-rot]\n', { powdery: none, 'black-rot': none }],
    ['{ powdery: { bunches: 2 }, downy: clean }', '', { powdery: { bunches: 2 }, downy: none }],
    ['{ powdery: 0 }', '', { powdery: none }],
  ])('found: %s', (found, more, read) => {
    const { scouting, findings } = withRound(found, more)
    expect(findings.filter(({ level }) => level === 'error')).toEqual([])
    expect(scouting[0]!.found).toEqual(read)
  })
  test('another word is refused with what to write', () => {
    expect(withRound('cleen').findings.find(({ file }) => file === ROUND)?.help).toContain('write `clean`')
  })
})
