import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { runHere } from '../faults/in-process.ts'
import { makeLedger } from '../ledger/make.ts'
import { type Envelope, run as spawned } from './run.ts'

// Starting the program takes most of a second each time: a handful of cases do, the rest run in this process.

async function run(args: readonly string[], { cwd = '/' } = {}) {
  const { status, out, err } = await runHere(args, cwd, '2026-06-14')
  return { status, stdout: out, stderr: err }
}

async function runJson(args: readonly string[]): Promise<{ status: number; json: Envelope }> {
  const { status, stdout } = await run([...args, '--json'])
  return { status, json: JSON.parse(stdout) }
}

const THREE = {
  'products/sulphur.yaml':
    'name: Test sulphur\nform: WG\nkind: fungicide\nactives: [ { name: sulphur, content: 800 g/kg, group: M02 } ]\nuses:\n  - { against: powdery, rate: 2-6 kg/ha, interval: 7-14 d }\nbefore_harvest: 21 d\nre_entry: 24 h\nstock: 18 kg\n',
  'blocks/middle.yaml': 'name: Middle\nvariety: palava\nrow_spacing: 2 m\nvine_spacing: 1 m\narea: 0.36 ha\n',
  'sprayers/round.yaml': 'name: Round\ntank: 300 L\nflow: 5 L/min\nspeed: 5 km/h\n',
}

const dataOf = async (args: readonly string[]) => (await runJson(args)).json.data

const HOBBY = {
  'blocks/small.yaml':
    'name: Small\nvariety: palava\nvines: 180\nrows: 6\nrow_length: 36 m\nrow_spacing: 2 m\nvine_spacing: 1.2 m\n',
  'sprayers/mounted.yaml': null,
  'sprayers/knapsack.yaml': 'name: Knapsack\ntank: 12 L\nflow: 1 L/min\n',
  'products/soda.yaml':
    'name: Soda salt\nform: SP\nkind: fungicide\nactives: [ { name: potassium bicarbonate } ]\nuses:\n  - { against: powdery, concentration: 5-20 g/L }\n',
  'products/sulphur.yaml': THREE['products/sulphur.yaml'].replace(
    'before_harvest',
    'water: 200-1000 L/ha\nbefore_harvest',
  ),
}

describe('a knapsack', () => {
  test('12 L at 15 g/L take 180 g, without a block, an area or a ledger', async () => {
    const args = ['mix', '--water', '12L', '--dose', 'bicarb=15 g/L']
    const data = await dataOf(args)
    expect(data).toMatchObject({ area: null, waterPerHa: null, water: { value: 12, unit: 'L' } })
    expect(data.products[0]).toMatchObject({ rate: null, total: { unit: 'kg' } })
    expect(data.products[0].total.value).toBeCloseTo(0.18, 12)
    expect((await run(args)).stdout).toMatch(/^180 g of bicarb in 12 L\./)
  })

  test('grams in 10 litres are read as labels print them, over several fills', async () => {
    const data = await dataOf(['mix', '--water', '30L', '--tank', '12L', '--dose', 'bicarb=150 g in 10 L'])
    expect(data).toMatchObject({ fullTanks: 2, lastTank: { value: 6 } })
    const [product] = data.products
    expect(product.perFullTank.value).toBeCloseTo(0.18, 12)
    expect(product.perLastTank.value).toBeCloseTo(0.09, 12)
  })

  test('the only sprayer is taken by itself, and a known block says what it comes to for a hectare', async () => {
    const ledger = makeLedger(HOBBY)
    const args = ['mix', '--ledger', ledger, '--water', '30L', '--dose', 'soda=8 g/L']
    expect(await dataOf(args)).toMatchObject({ sprayer: 'knapsack', tank: { value: 12 }, waterPerHa: null })
    const data = await dataOf([...args, '--block', 'small'])
    expect(data.waterPerHa.value).toBeCloseTo(30 / 0.0432, 6)
    // 600 x 1 L/min / (694 L/ha x 2 m); 1.2 m and 36 m at that pace.
    expect(data.pace.speed.value).toBeCloseTo(0.432, 6)
    expect(data.pace.perVine).toBeCloseTo(10, 6)
    expect(data.pace.perRow).toBeCloseTo(300, 6)
  })

  test('a strength over the label gives no amounts, also where the label is for ground area', async () => {
    const ledger = makeLedger(HOBBY)
    for (const dose of ['soda=21 g/L', 'sulphur=31 g/L']) {
      const { status, stdout } = await run(['mix', '--ledger', ledger, '--water', '12L', '--dose', dose])
      expect(status).toBe(1)
      expect(stdout).toMatch(/^Do not mix this: it is over the label/)
    }
    const within = await run(['mix', '--ledger', ledger, '--water', '12L', '--dose', 'sulphur=30 g/L'])
    expect(within.status).toBe(0)
  })

  test.each([
    [['--dose', 'sulphur=3 kg/ha', '--water', '12L'], /needs the area/],
    [['--dose', 'soda=8 g/L', '--water', '300 L/ha'], /--water for a hectare needs the area/],
    [['--dose', 'soda=8 g/L'], /write --water 12L for one fill/],
    [['--dose', 'soda=8 g/L', '--spot'], /the amount of spray is missing/],
    [['--dose', 'soda=8 g/L', '--water', '3L', '--vines', '12'], /--vines is of one block/],
    [['--block', 'small', '--rows', '5-9', '--water', '3L', '--dose', 'soda=8 g/L'], /small has 6 rows/],
    [
      ['--block', 'small', '--rows', '2', '--share', '5 %', '--water', '3L', '--dose', 'soda=8 g/L'],
      /given twice/,
    ],
    [
      ['--block', 'small', '--share', '120 %', '--water', '3L', '--dose', 'soda=8 g/L'],
      /no share of a block/,
    ],
    [['--block', 'small', '--vines', '1.5', '--water', '3L', '--dose', 'soda=8 g/L'], /takes a whole number/],
  ])('%j says what to write', async (args, said) => {
    const { status, stderr } = await run(['mix', '--ledger', makeLedger(HOBBY), ...args])
    expect(status).toBe(2)
    expect(stderr).toMatch(said)
  })

  test('a spot spray is held to its strength, and its command for the record runs as printed', async () => {
    const ledger = makeLedger(HOBBY)
    const args = ['mix', '--ledger', ledger, '--as-of', '2026-06-14', '--spot', '--block', 'small']
    const data = await dataOf([...args, '--rows', '3-5', '--water', '40L', '--product', 'soda=8 g/L'])
    expect(data.area.value).toBeCloseTo(0.0216, 9)
    expect(data.products[0]).toMatchObject({ inRange: true })
    const words = [...data.record.matchAll(/"([^"]*)"|(\S+)/g)].map((one) => one[1] ?? one[2]).slice(1)
    const noted = await run([...words, '--ledger', ledger, '--as-of', '2026-06-14', '--dry-run'])
    expect(noted.status).toBe(0)
    expect(noted.stdout).toContain('method: spot')
  })
})

describe('three jobs as a grower has them', () => {
  test('a knapsack of 16 L for 0.18 ha at 600 L/ha and 12 g/L', async () => {
    const args = [
      'mix',
      '--area',
      '0.18ha',
      '--water',
      '600 L/ha',
      '--tank',
      '16L',
      '--dose',
      'bicarbonate=12 g/L',
    ]
    const { status, json } = await runJson(args)
    expect(status).toBe(0)
    expect(json.data).toMatchObject({ fullTanks: 6, order: ['bicarbonate'] })
    expect(json.data.water.value).toBeCloseTo(108, 9)
    expect(json.data.lastTank.value).toBeCloseTo(12, 9)
    const [product] = json.data.products
    expect(product.perFullTank).toMatchObject({ unit: 'kg' })
    expect(product.perFullTank.value).toBeCloseTo(0.192, 9)
    expect(product.perLastTank.value).toBeCloseTo(0.144, 9)
    expect(product.total.value).toBeCloseTo(1.296, 9)
    const { stdout } = spawned(args)
    expect(stdout).toMatch(/^6 full tanks of 16 L, then 12 L/)
    expect(stdout).toMatch(/bicarbonate +192 g +144 g +1\.296 kg/)
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80)
  })

  test('a 300 L air-assisted round at 3 kg/ha over three blocks', async () => {
    const ledger = makeLedger(THREE)
    const args = [
      ...[
        'mix',
        '--ledger',
        ledger,
        '--as-of',
        '2026-06-14',
        '--sprayer',
        'round',
        '--product',
        'sulphur=3kg/ha',
      ],
      ...['--block', 'upper', '--block', 'lower', '--block', 'middle', '--at', '2026-06-14 20:05'],
    ]
    const { status, json } = await runJson(args)
    expect(status).toBe(0)
    // 0.40 + 0.10 + 0.36 ha; 600 x 5 / (5 x 2) = 300 L/ha
    expect(json.data.area.value).toBeCloseTo(0.86, 9)
    expect(json.data.waterPerHa.value).toBeCloseTo(300, 9)
    expect(json.data.lastTank.value).toBeCloseTo(258, 9)
    expect(json.data.products[0].total.value).toBeCloseTo(2.58, 9)
    expect(json.data.products[0]).toMatchObject({ range: { low: 2, high: 6, unit: 'kg/ha' }, inRange: true })
    expect(json.data.after.reEntry.until).toBe('2026-06-15T20:05+02:00')
    expect(json.data.after.harvest).toMatchObject({ calendar: '2026-07-05', cautious: '2026-07-06' })
    expect(json.data.after.next[0].date).toBe('2026-06-21')
    expect(json.data.after.stock[0].after).toBeCloseTo(15.42, 9)
    expect(json.cautions.length).toBeGreaterThan(0)
    const { stdout } = spawned(args)
    expect(stdout).toContain('2.58 kg')
    expect(stdout.replace(/\s+/g, ' ')).toContain(
      'keep out until Mon 15 Jun 20:05 (re-entry interval, REI: 24 h); pick from Mon 6 Jul (5 Jul if',
    )
  })

  test('takes a dose as it is said, and says what to write for a bare number', async () => {
    const dosed = async (...args: string[]) => run(['mix', '--water', '12L', ...args])
    const said = await dosed('--dose', 'soap 15 g/L', '--dose', 'oil-80 1 %')
    expect(said.stdout).toMatch(/soap +180 g[\s\S]*oil-80 +120 mL/)
    expect((await dosed('--dose', 'soap 80')).stderr).toContain('soap 80 has no dose')
    const bare = await run(['mix', '--water', '12', '--dose', 'soap=15 g/L'])
    expect([bare.status, bare.stderr]).toEqual([
      2,
      expect.stringContaining('write "12 L" for all of it, or "12 L/ha"'),
    ])
  })

  test('says of a spray that is recorded that it is, and judges it once', async () => {
    const spray = (date: string, products: string) =>
      `date: ${date}\ntime: 18:00-19:00\nblocks: [upper, lower]\nsprayer: mounted\nwater: 330 L/ha\nproducts: [ ${products} ]\n`
    const sulphur = '{ product: sulphur, rate: 3 kg/ha, for: powdery }'
    const file = 'seasons/2026/sprays/a.yaml'
    const mixed = async (date: string, products = sulphur, ...more: string[]) => {
      const ledger = makeLedger({ [file]: spray(date, products) })
      const args = ['mix', '--ledger', ledger, '--as-of', '2026-06-14', '--sprayer', 'mounted']
      return run([...args, '--block', 'upper', '--product', 'sulphur=3kg/ha', ...more])
    }
    const { status, stdout } = await mixed('2026-06-14')
    expect(status).toBe(0)
    const text = stdout.replace(/\s+/g, ' ')
    expect(text).toContain(`This spray of Sun 14 Jun is recorded already (${file}:1)`)
    expect(text).toContain('Sprayed until Sun 14 Jun 19:00: keep out until Mon 15 Jun 19:00')
    expect(text).not.toMatch(/entered-twice|twice-a-day|interval-too-short|record it:|after this mix/)
    const json = JSON.parse((await mixed('2026-06-14', sulphur, '--json')).stdout)
    expect(json.data).toMatchObject({ recorded: { file, line: 1 }, record: null })
    // Yesterday's, and another product's, are other sprays.
    expect((await mixed('2026-06-13')).stdout).toContain('interval-too-short')
    const other = await mixed('2026-06-14', '{ product: copper, rate: 1 kg/ha, for: downy }', '--json')
    expect(JSON.parse(other.stdout).data.recorded).toBe(null)
  })

  test('2.5 lb/acre in 50 US gal/acre, a 100 US gal tank, 1.7 acres', async () => {
    const args = [
      'mix',
      '--area',
      '1.7 acre',
      '--water',
      '50 US gal/acre',
      '--tank',
      '100 US gal',
      '--dose',
      'sulphur=2.5 lb/acre',
    ]
    const { json } = await runJson(args)
    expect(json.data).toMatchObject({ fullTanks: 0 })
    expect(json.data.products[0].total.value).toBeCloseTo(4.25 * 0.45359237, 9)
    expect(json.data.lastTank.value).toBeCloseTo(85 * 3.785411784, 9)
    const { stdout } = spawned([...args, '--units', 'us'])
    expect(stdout).toMatch(/sulphur +4\.25 lb +2\.5 lb/)
    expect(stdout).toContain('85 US gal')
  })
})

describe('mix', () => {
  const job = (...more: string[]) => [
    'mix',
    '--area',
    '2.4ha',
    '--water',
    '400 L/ha',
    '--tank',
    '300L',
    ...more,
  ]

  test('keeps the shape of the contract', async () => {
    const data = await dataOf(job('--dose', 'a=1.5 kg/ha'))
    expect(Object.keys(data)).toEqual(
      expect.arrayContaining([
        'area',
        'water',
        'waterPerHa',
        'tank',
        'fullTanks',
        'lastTank',
        'products',
        'order',
      ]),
    )
    expect(Object.keys(data.products[0])).toEqual(
      expect.arrayContaining([
        'product',
        'rate',
        'concentration',
        'total',
        'perFullTank',
        'perLastTank',
        'range',
        'inRange',
      ]),
    )
    expect(data.products[0]).toMatchObject({
      product: 'a',
      rate: { value: 1.5, unit: 'kg/ha' },
      concentration: { value: 3.75, unit: 'g/L' },
      range: null,
      inRange: null,
    })
  })

  test.each([
    ['3 kg/ha', 3, 'kg/ha'],
    ['12 g/L', 4.8, 'kg/ha'],
    ['100 g/100 L', 0.4, 'kg/ha'],
    ['100 mL/hL', 0.4, 'L/ha'],
    ['0.2 %', 0.8, 'L/ha'],
    ['2.4 kg', 1, 'kg/ha'],
  ])('a dose of %s', async (dose, rate, unit) => {
    const [product] = (await dataOf(job('--dose', `a=${dose}`))).products
    expect(product.rate.unit).toBe(unit)
    expect(product.rate.value).toBeCloseTo(rate, 9)
  })

  test('a dose for leaf wall: rows 2.0 m, height 1.2 m give 12 000 m²/ha', async () => {
    const args = job('--dose', 'a=0.5 L/10000 m2 leaf wall', '--row-spacing', '2m', '--canopy-height', '1.2m')
    expect((await dataOf(args)).products[0].rate.value).toBeCloseTo(0.6, 9)
    const bare = await run(job('--dose', 'a=0.5 L/10000 m2 leaf wall'))
    expect(bare.status).toBe(2)
    expect(bare.stderr).toContain('--row-spacing')
  })

  test('concentrate spraying: dilute 1500 at 500 L/ha is three times as strong, the dose the same', async () => {
    const args = [
      'mix',
      '--area',
      '1ha',
      '--water',
      '500 L/ha',
      '--tank',
      '500L',
      '--dilute',
      '1500 L/ha',
      '--dose',
      'a=100 mL/100 L',
    ]
    const [product] = (await dataOf(args)).products
    expect(product.concentrationFactor).toBeCloseTo(3, 9)
    expect(product.concentration.value).toBeCloseTo(3, 9)
    expect(product.rate.value).toBeCloseTo(1.5, 9)
  })

  test('above the label it says so and exits 1', async () => {
    const ledger = makeLedger(THREE)
    const args = [
      'mix',
      '--ledger',
      ledger,
      '--as-of',
      '2026-06-14',
      '--block',
      'upper',
      '--water',
      '300 L/ha',
      '--product',
      'sulphur=30 kg/ha',
    ]
    const { status, json } = await runJson(args)
    expect(status).toBe(1)
    expect(json.data.products[0].inRange).toBe(false)
    expect(json.findings.map(({ name }: { name: string }) => name)).toContain('over-rate')
    const { stdout } = await run(args)
    expect(stdout).toMatch(/^Do not mix this: it is over the label/)
    expect(stdout).not.toMatch(/13\.5|keep out until|pick from/)
    expect(json.data.after).toMatchObject({
      reEntry: null,
      harvest: null,
      overLabel: [{ product: 'sulphur' }],
    })
    expect(json.data.after.next).toMatchObject([{ date: null }])
  })

  test('rounds for a scale and tells the effect', async () => {
    const { products } = await dataOf([
      'mix',
      '--area',
      '1ha',
      '--water',
      '300L',
      '--tank',
      '300L',
      '--dose',
      'a=1.012 kg/ha',
      '--scale',
      '5g',
    ])
    const [product] = products
    expect(product.rounded.total.value).toBeCloseTo(1.01, 9)
    expect(product.rounded.effect).toBeCloseTo(-0.1976, 3)
  })

  test('the page for the shed fits one page', async () => {
    const { stdout } = await run(job('--dose', 'a=1.5 kg/ha', '--shed'))
    expect(stdout.split('\n').length).toBeLessThan(60)
    expect(stdout).toContain('[ ] a')
  })

  test('the program itself: answer to stdout, fault to stderr with exit 2, help', () => {
    const wrong = spawned(job('--dose', 'a'))
    expect(wrong).toMatchObject({ status: 2, stdout: '' })
    expect(wrong.stderr).toContain('no dose')
    const help = spawned(['mix', '--help'])
    expect(help.status).toBe(0)
    for (const option of ['--dose', '--even', '--in-tank', '--max', '--shed'])
      expect(help.stdout).toContain(option)
  })

  describe('the most for ground area, typed beside the dose', () => {
    test('a concentration above it is said, and exits 1 (bicarbonate: 14 g/L in 400 L/ha is 5.6 kg/ha)', async () => {
      const args = job('--dose', 'a=14 g/L', '--max', '5 kg/ha')
      const { status, json } = await runJson(args)
      expect(status).toBe(1)
      expect(json.data.products[0]).toMatchObject({ inRange: false, capped: false, range: null })
      expect((await run(args)).stdout).toContain('(5.6 kg/ha, the maximum given is 5 kg/ha)')
      expect((await run(job('--dose', 'a=12.5 g/L', '--max', 'a=5 kg/ha'))).status).toBe(0)
    })
    test('a dose for leaf wall is lowered to it', async () => {
      const wall = ['--row-spacing', '2m', '--canopy-height', '1.5m']
      const [product] = (
        await dataOf(job('--dose', 'a=1 L/10000 m2 leaf wall', '--max', '1.2 L/ha', ...wall))
      ).products
      expect(product).toMatchObject({ capped: true, inRange: true, rate: { value: 1.2, unit: 'L/ha' } })
    })
    test.each([
      [job('--dose', 'a=1 kg/ha', '--max', '5 L/ha'), 'measure'],
      [job('--dose', 'a=1 kg/ha', '--max', 'b=5 kg/ha'), 'no `b`'],
      [job('--dose', 'a=1 kg/ha', '--dose', 'b=1 kg/ha', '--max', '5 kg/ha'), 'names none'],
      [job('--dose', 'a=1 kg/ha', '--max', '5'), 'unit'],
      [job('--dose', 'a=1 kg/ha', '--max', '0 kg/ha'), 'more than nothing'],
    ])('%j is used wrongly', async (args, says) => {
      const { status, stderr } = await run(args)
      expect([status, stderr.includes(says)]).toEqual([2, true])
    })
  })

  test('what the sources disagree on is said of the products that are in the tank', async () => {
    const product = (form: string, unit: string) =>
      `name: ${form}\nform: ${form}\nkind: fungicide\nactives: [ { name: a } ]\nuses:\n  - { against: powdery, rate: 1-6 ${unit} }\n`
    const ledger = makeLedger({
      'products/me.yaml': product('ME', 'L/ha'),
      'products/sl.yaml': product('SL', 'L/ha'),
      'products/ec.yaml': product('EC', 'L/ha'),
      'products/sp.yaml': product('SP', 'kg/ha'),
      'products/wp.yaml': product('WP', 'kg/ha'),
    })
    const mixOf = async (...ids: string[]) => {
      const args = [
        'mix',
        '--ledger',
        ledger,
        '--as-of',
        '2026-06-14',
        '--block',
        'upper',
        '--water',
        '300 L/ha',
      ]
      const doses = ids.flatMap((id) => ['--product', `${id}=2 ${/sp|wp/.test(id) ? 'kg' : 'L'}/ha`])
      return (await run([...args, ...doses])).stdout.replace(/\s+/g, ' ')
    }
    expect(await mixOf('me', 'sp')).toMatch(/ME is a micro-emulsion internationally.*micro-encapsulated.*ask/)
    expect(await mixOf('me')).not.toContain('Sources disagree')
    expect(await mixOf('ec', 'sl')).toMatch(/emulsions \(EC\) before solutions \(SL\), Oklahoma State after/)
    expect((await mixOf('ec', 'sl')).match(/Oklahoma/g)).toHaveLength(1)
    expect(await mixOf('sp', 'wp')).toMatch(/soluble powders before dispersible/)
    expect(await mixOf('wp', 'ec')).not.toContain('Sources disagree')
  })

  test('on 80 columns nothing is wider in any units, the label not left out', async () => {
    const ledger = makeLedger(THREE)
    for (const units of ['metric', 'us', 'imperial']) {
      const args = [
        '--ledger',
        ledger,
        '--as-of',
        '2026-06-14',
        '--sprayer',
        'round',
        '--product',
        'sulphur=3kg/ha',
      ]
      const { stdout } = await run(['mix', ...args, '--block', 'upper', '--block', 'lower', '--units', units])
      expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80)
      expect(stdout).toContain('within')
    }
  })

  test('needs no ledger, and none is looked for', async () => {
    expect((await run(job('--dose', 'a=1 kg/ha'), { cwd: '/' })).status).toBe(0)
  })

  test.each([
    [['mix'], 'area'],
    [job(), 'what to mix'],
    [job('--dose', 'a'), 'no dose'],
    [job('--dose', 'a=3,5 kg/ha'), 'comma'],
    [job('--dose', 'a=3 gal/acre'), 'US gal'],
    [job('--dose', 'a=1 kg/ha', '--in-tank', '301L'), 'in the tank'],
  ])('%j is used wrongly', async (args, says) => {
    const { status, stderr } = await run(args)
    expect(status).toBe(2)
    expect(stderr).toContain(says)
  })
})

test('a scale never rounds a dose that the label allows over the label', async () => {
  const ledger = makeLedger(THREE)
  const rounded = async (dose: string) => {
    const job = ['--block', 'upper', '--product', `sulphur=${dose}`, '--tank', '200L', '--water', '300 L/ha']
    const args = ['mix', '--ledger', ledger, ...job, '--for', 'powdery', '--scale', '500g']
    return (await dataOf(args)).products[0].rounded.total.value
  }
  // 0.4 ha: 2.4 kg would round to 2.5 kg, which is 6.25 kg/ha of at most 6.
  expect(await rounded('6 kg/ha')).toBe(2)
  expect(await rounded('5.75 kg/ha')).toBe(2)
  expect(await rounded('3.1 kg/ha')).toBe(1)
  expect(await rounded('3.2 kg/ha')).toBe(1.5)
})

describe('calibrate and totals', () => {
  test('calibrate keeps the shape of the contract', async () => {
    const nozzles = ['1.00', '0.98', '1.02', '1.15', '0.85'].flatMap((flow) => ['--nozzle', `${flow} L/min`])
    const data = await dataOf([
      'calibrate',
      ...nozzles,
      '--distance',
      '100m',
      '--seconds',
      '60',
      '--width',
      '2m',
    ])
    expect(data.speed.value).toBeCloseTo(6, 9)
    expect(data.volumePerHa.value).toBeCloseTo(250, 9)
    expect(data.nozzles.map(({ ok }: { ok: boolean }) => ok)).toEqual([true, true, true, false, false])
    expect(data.nozzles[3].deviation).toBeCloseTo(0.15, 9)
    expect(data.rowSpacing).toEqual({ value: 2, unit: 'm' })
  })

  const calibrated = (ledger: string, ...typed: string[]) =>
    run(['calibrate', '--ledger', ledger, '--as-of', '2026-04-01', ...typed])
  const SPRAYER = 'sprayers/knapsack.yaml'
  const written = (ledger: string, file: string) => readFileSync(join(ledger, file), 'utf8')

  test('--save with a new name writes a new record, which check takes', async () => {
    const ledger = makeLedger()
    const args = ['--flow', '5 L/min', '--speed', '5 km/h', '--width', '2m', '--tank', '100L', '--save']
    const { stdout } = await calibrated(ledger, ...args, 'new-one')
    expect(stdout).toContain('Saved as sprayers/new-one.yaml')
    expect(existsSync(join(ledger, 'sprayers/new-one.yaml'))).toBe(true)
    expect((await run(['check', '--ledger', ledger, '--as-of', '2026-05-01'])).status).toBe(0)
  })

  test('--save keeps a plot in the only record: comments stay, old and new are shown, and mix takes it', async () => {
    const text = '# mine\nname: Knapsack   # green\ntank: 12 L\nflow: 1 L/min  # by jug\n\n# end\n'
    const ledger = makeLedger({ ...HOBBY, [SPRAYER]: text })
    const plot = ['--caught', '3L', '--plot', '72m2', '--seconds', '150', '--width', '2m']
    const { status, stdout } = await calibrated(ledger, ...plot, '--tank', '12L', '--save')
    expect(status).toBe(0)
    expect(stdout).toMatch(/was {2}flow: 1 L\/min\n {2}now {2}flow: 1.2 L\/min/)
    const more = '\nwater: 416.7 L/ha\ncalibrated: 2026-04-01\nspeed: 0.864 km/h'
    const expected = text.replace('1 L/min  # by jug', `1.2 L/min  # by jug${more}`)
    expect(written(ledger, SPRAYER)).toBe(expected)
    const data = await dataOf(['mix', '--ledger', ledger, '--block', 'small', '--dose', 'soda=8 g/L'])
    expect(data.water.value).toBeCloseTo(18, 9)
    expect(data.pace.perVine).toBeCloseTo(5, 2)
  })

  test('--save of the minute changes the flow alone; the same figures again change nothing', async () => {
    const ledger = makeLedger({ ...HOBBY, [SPRAYER]: 'name: K\ntank: 12 L\nwater: 400 L/ha\n' })
    const minute = ['--caught', '0.9L', '--seconds', '60', '--save']
    await calibrated(ledger, ...minute)
    const once = written(ledger, SPRAYER)
    expect(once).toBe('name: K\ntank: 12 L\nwater: 400 L/ha\nflow: 0.9 L/min\ncalibrated: 2026-04-01\n')
    await calibrated(ledger, ...minute)
    expect(written(ledger, SPRAYER)).toBe(once)
  })

  test('by 1/128 acre the US fl oz caught are the US gal/acre (Utah State University Extension 2014-03)', async () => {
    const args = ['calibrate', '--caught', '40 US fl oz', '--plot', '1/128 acre', '--units', 'us']
    expect((await run(args)).stdout).toMatch(/^40 US gal\/acre/)
  })

  test.each([
    [['--caught', '3L', '--plot', '72m2', '--tank', '16L', '--save'], /tank of 12 L, not 16 L/],
    [['--caught', '3L', '--plot', '72m2', '--save', 'lance'], /needs its tank/],
    [['--caught', '3L', '--plot', '72m2', '--tank', '12L', '--save', 'My_Lance'], /is not an id/],
    [['--seconds', '60', '--save'], /--seconds of what/],
    [['--distance', '30m'], /needs the seconds/],
    [['--caught', '3L', '--seconds', '60', '--flow', '1 L/min'], /flow is given twice/],
  ])('calibrate %j says what to write, and writes nothing', async (args, said) => {
    const ledger = makeLedger(HOBBY)
    const { status, stderr } = await calibrated(ledger, ...args)
    expect(status).toBe(2)
    expect(stderr).toMatch(said)
    expect(readdirSync(join(ledger, 'sprayers'))).toEqual(['knapsack.yaml'])
    expect(written(ledger, SPRAYER)).toBe(HOBBY[SPRAYER])
  })

  test('totals keeps the shape of the contract, leaves the future out and says unknown years', async () => {
    const entry = (date: string) =>
      `- date: ${date}\n  blocks: [upper]\n  water: 300 L/ha\n  products:\n    - { product: copper, rate: 2 kg/ha, for: downy }\n`
    const ledger = makeLedger({
      'vineyard.yaml':
        'name: T\nlatitude: 51.5\ntimezone: Europe/Berlin\nlimits:\n  copper: { per_season: 4 kg/ha, rolling: 28 kg/ha, years: 7 }\n',
      'seasons/2025/sprays.yaml': entry('2025-06-01'),
      'seasons/2026/sprays.yaml': entry('2026-06-01') + entry('2026-06-15') + entry('2026-07-20'),
    })
    const data = await dataOf(['totals', '--ledger', ledger, '--as-of', '2026-07-01', '--block', 'upper'])
    const [upper] = data.blocks
    expect(upper).toMatchObject({
      block: 'upper',
      sprays: 2,
      products: [{ product: 'copper', applications: 2 }],
    })
    expect(upper.products[0].total.value).toBeCloseTo(1.6, 9)
    expect(upper.products[0].perHa.value).toBeCloseTo(4, 9)
    expect(upper.actives[0]).toMatchObject({ active: 'copper', group: 'M01' })
    expect(upper.copper.season.value).toBeCloseTo(1.4, 9)
    expect(upper.copper.rolling.value).toBeCloseTo(2.1, 9)
    expect(upper.copper).toMatchObject({
      years: 7,
      limitSeason: { value: 4, unit: 'kg/ha' },
      limitRolling: { value: 28, unit: 'kg/ha' },
    })
    expect(upper.copper.window.unknown).toEqual([2020, 2021, 2022, 2023, 2024])
    expect(upper.treatmentFrequency).toBeCloseTo(2, 9)
    expect(data.vineyard.treatmentFrequency).toBeCloseTo(2, 9)
    const both = await dataOf([
      'totals',
      '--ledger',
      ledger,
      '--as-of',
      '2026-07-01',
      '--seasons',
      '2025-2026',
    ])
    expect(both.seasons.map(({ season }: { season: number }) => season)).toEqual([2025, 2026])
  })
})

test('without a block, a target that the label does not name is an error too', async () => {
  const line = ['mix', '--water', '12L', '--product', 'sulphur=10g/L', '--ledger', makeLedger(THREE)]
  const { status, json } = await runJson([...line, '--for', 'botrytis'])
  expect(status).toBe(1)
  expect(json.findings.map(({ name }: { name: string }) => name)).toEqual(['not-authorised-for'])
  expect((await run([...line, '--for', 'powdery'])).status).toBe(0)
})
