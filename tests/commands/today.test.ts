import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { makeLedger } from '../ledger/make.ts'
import { ledgerCopy, run, runJson } from './run.ts'

const SPRAY =
  'date: 2026-06-14\ntime: 18:40-20:05\nblocks: [upper]\nwater: 300 L/ha\nproducts:\n  - { product: sulphur, rate: 3 kg/ha, for: powdery }\n'

function itemsOn(asOf: string, files: Record<string, string>) {
  const { json } = runJson(['today', '--ledger', makeLedger(files), '--as-of', asOf])
  return json.data.items as {
    what: string
    block: string | null
    urgency: string
    until: string | null
    text: string
    next: string
    also: string[]
  }[]
}

const itemsOfExample = (asOf: string) =>
  runJson(['today', '--ledger', 'examples/far-quillet', '--as-of', asOf]).json.data.items as {
    what: string
    block: string
    blocks: string[]
    disease: string | null
    urgency: string
    text: string
    next: string
    reasons: string[]
  }[]

test('says until what hour nobody may enter, first of all', () => {
  const files = { 'seasons/2026/sprays/a.yaml': SPRAY }
  expect(itemsOn('2026-06-15', files)[0]).toMatchObject({
    what: 'keep-out',
    block: 'upper',
    urgency: 'now',
    until: '2026-06-15T20:05+02:00',
    text: 'Keep out of Upper until Mon 15 Jun 20:05 (re-entry interval, REI, of sulphur: 24 h).',
  })
  expect(itemsOn('2026-06-16', files).filter(({ what }) => what === 'keep-out')).toEqual([])
})

test('a product without a re-entry time is no leave to enter', () => {
  const product =
    'name: Bare\nform: WG\nkind: fungicide\nactives: [ { name: sulphur } ]\nuses: [ { against: powdery, rate: 1-5 kg/ha } ]\n'
  const files = {
    'products/bare.yaml': product,
    'seasons/2026/sprays/a.yaml': SPRAY.replace('sulphur', 'bare'),
  }
  expect(itemsOn('2026-06-15', files)[0]!.text).toContain('until you have read the label of Bare')
})

test.each([
  ['2026-06-20', 13, []],
  ['2026-06-22', 13, ['walk']],
  ['2026-06-15', 65, []],
  ['2026-06-16', 65, ['walk']],
  ['2026-11-20', 65, []],
])('on %s at stage %i, with a walk on 8 June: overdue %j', (asOf, stage, overdue) => {
  const items = itemsOn(asOf === '2026-06-22' ? '2026-06-23' : asOf, {
    'seasons/2026/stages.yaml': `- { date: 2026-06-10, block: upper, stage: ${stage} }\n`,
    'seasons/2026/scouting.yaml':
      '- { date: 2026-06-08, block: upper, looked_at: { bunches: 50 }, found: {} }\n',
  })
  expect(items.filter(({ what }) => what === 'walk').map(({ what }) => what)).toEqual(overdue)
})

test('tells of stock that the next spray would use up, and of what check complains of', () => {
  const product =
    'name: Little\nform: WG\nkind: fungicide\nactives: [ { name: sulphur, content: 800 g/kg } ]\nuses: [ { against: powdery, rate: 1-5 kg/ha } ]\nbefore_harvest: 21 d\nre_entry: 24 h\nstock: 1 kg\nstocked: 2026-07-01\n'
  const files = {
    'products/little.yaml': product,
    'seasons/2026/sprays/a.yaml': SPRAY.replace('sulphur', 'little').replace('3 kg/ha', '50 kg/ha'),
  }
  const items = itemsOn('2026-07-02', files)
  expect(items.find(({ what }) => what === 'stock')?.text).toContain('1 kg left, the last spray used 20')
  expect(items.find(({ what }) => what === 'check')).toMatchObject({ urgency: 'now', next: 'rowbook check' })
})

test('most urgent first, in a story that is whole', () => {
  const { json } = runJson(['today', '--ledger', 'examples/far-quillet', '--as-of', '2026-09-14'])
  const order = json.data.items.map(({ urgency }: { urgency: string }) =>
    ['now', 'soon', 'plan'].indexOf(urgency),
  )
  expect(order).toEqual([...order].sort((a, b) => a - b))
  const windows = json.data.items.filter(({ what }: { what: string }) => what === 'window')
  expect(windows.length).toBeGreaterThan(0)
  const last = json.data.items.find(({ what }: { what: string }) => what === 'last-spray')
  expect(last.text).toMatch(/last day by pre-harvest interval \(PHI\) .* for Quillet Bicarbonate SP/)
})

const COMMAND = /^ {6}(rowbook|write) /

test.each(['2026-05-10', '2026-06-20', '2026-06-26', '2026-07-16', '2026-08-10', '2026-09-20'])(
  'on %s each thing ends in what to type next',
  (asOf) => {
    const { stdout } = run(['today', '--ledger', 'examples/far-quillet', '--as-of', asOf])
    const [, ...items] = stdout.split('\n\n')[2]!.split(/^(?=now|soon|plan)/m)
    expect(items.length).toBeGreaterThan(1)
    for (const item of items) {
      // A long command goes on below, behind a backslash.
      const lines = item
        .replace(/ \\\n */g, ' ')
        .trimEnd()
        .split('\n')
      expect(lines.at(-1)).toMatch(COMMAND)
    }
  },
)

test.each(['2026-04-15', '2026-05-05', '2026-05-25', '2026-06-09', '2026-07-14', '2026-08-23'])(
  'on %s, an ordinary day, at most five things are told and none is due now',
  (asOf) => {
    const { items } = runJson(['today', '--ledger', 'examples/far-quillet', '--as-of', asOf]).json.data
    expect(items.length).toBeLessThanOrEqual(5)
    expect(items.filter(({ urgency }: { urgency: string }) => urgency === 'now')).toEqual([])
  },
)

test.each([
  ['2026-01-15', 5],
  ['2026-06-25', 5],
  ['2026-07-20', 5],
  ['2026-07-31', 5],
  ['2026-08-25', 5],
  ['2026-09-14', 5],
  ['2026-10-20', 5],
  // Found in three blocks on two days, keep-out in one, rain against botrytis in all: each another thing to do.
  ['2026-06-27', 7],
])('on %s, with finds and dangers, there are still no more than %i lines', (asOf, most) =>
  expect(itemsOfExample(asOf).length).toBeLessThanOrEqual(most),
)

test('what an evening still leaves open is told by name', () => {
  const at = ['--ledger', 'examples/far-quillet', '--as-of', '2026-08-10']
  const { stdout } = run(['window', '--block', 'kiln-bank', ...at], {
    env: { COLUMNS: '200' },
  })
  // Sixteen days from 10 to 26 August: mandipropamid's 35, sulphur's 28 and copper's 21 are more.
  expect(stdout).toContain(
    'If you spray today, by PHI alone: too late for Quillet Copper 35, Quillet Downy 250, Quillet Sulphur 80; still in time: Quillet Bacillus WP, Quillet Bicarbonate SP.',
  )
})

test('a terminal that tells no width has 80 columns', () => {
  const printed = (COLUMNS: string) =>
    run(['today', '--ledger', 'examples/far-quillet', '--as-of', '2026-08-10'], { env: { COLUMNS } }).stdout
  expect(printed('0')).toBe(printed('80'))
  expect(printed('60')).not.toBe(printed('80'))
})

test('a broken record stops it', () => {
  const ledger = ledgerCopy()
  writeFileSync(join(ledger, 'seasons/2026/sprays/broken.yaml'), 'date: 2026-02-30\n')
  expect(run(['today', '--ledger', ledger, '--as-of', '2026-09-14']).status).toBe(1)
})

describe('what is due of a block', () => {
  const only = (what: string, asOf: string, files: Record<string, string>) =>
    itemsOn(asOf, files).filter((item) => item.what === what)

  test('where nothing is recorded yet: the one thing to begin with', () => {
    expect(only('setup', '2026-06-01', {})).toMatchObject([{ next: 'rowbook note stage --block all' }])
    expect(only('setup', '2026-01-20', {})).toMatchObject([{ next: 'rowbook note work' }])
  })

  test('of which no stage is written, once vines grow by the calendar', () => {
    const work = { 'seasons/2026/work.yaml': '- { date: 2026-02-01, block: lower, job: pruning }\n' }
    expect(only('stage', '2026-03-31', work)).toEqual([])
    expect(only('stage', '2026-06-01', work)).toMatchObject([
      {
        block: 'lower',
        text: 'All blocks: no growth stage this season, so danger and scouting follow the usual calendar.',
      },
    ])
    const stages = '- { date: 2026-05-25, block: lower, stage: 57 }\n'
    const asks = itemsOn('2026-06-01', { 'seasons/2026/stages.yaml': stages })
    expect(asks.flatMap(({ next, also }) => [next, ...also]).filter((one) => /note stage/.test(one))).toEqual(
      ['rowbook note stage --block upper'],
    )
  })

  test.each([
    ['[]\n', 2],
    ['- { date: 2026-06-15, block: upper, weight: 900 kg }\n', 1],
    ['- { date: 2026-06-15, block: upper, weight: 900 kg, rest: 40 % }\n', 2],
    ['- { date: 2026-06-16, block: upper, weight: 900 kg }\n', 2],
  ])('no look is due once it is picked whole: %j', (picks, blocks) => {
    const files = {
      'seasons/2026/stages.yaml':
        '- { date: 2026-06-10, block: upper, stage: 65 }\n- { date: 2026-06-10, block: lower, stage: 65 }\n',
      'seasons/2026/picks.yaml': picks,
    }
    expect(only('walk', '2026-06-15', files)[0]).toMatchObject({ blocks: { length: blocks } })
  })
})

describe('the story of 2026 in Brook Rows', () => {
  test('the find heads the list, with how bad, since when, what is in the shed and the next round', () => {
    const [first] = itemsOfExample('2026-06-26')
    expect(first).toMatchObject({ what: 'find', block: 'brook-rows', urgency: 'now' })
    expect(first!.text).toContain(
      'powdery on 12 of 100 bunches (7 to 20 %), found Fri 26 Jun, over the threshold of 5 %',
    )
    expect(first!.text).toContain('Powdery infection began between 16 Jun and 19 Jun.')
    expect(first!.text).toMatch(
      /In the shed against powdery: Quillet Sulphur 80 \(PHI 28 d, REI 24 h, [\d.]+ kg left/,
    )
    expect(first!.text).toContain('Scout again 7 days after treating.')
    expect(first!.next).toMatch(/^rowbook mix --block brook-rows --product "sulphur-80=/)
  })

  test('after treating, the next round is due a week later; after that it is set against the round before', () => {
    const due = itemsOfExample('2026-07-04').find(({ what }) => what === 'find')
    expect(due).toMatchObject({ urgency: 'plan', next: 'rowbook note scouting --block brook-rows' })
    expect(due!.text).toContain('The scouting round after treating is due Tue 7 Jul: Brook Rows')
    const after = itemsOfExample('2026-07-09').filter(({ what }) => what === 'find')
    expect(after.map(({ text }) => text).join(' ')).toContain(
      'Powdery on 4 of 100 bunches on 9 Jul after 12 of 100 on 26 Jun, sprayed 27 Jun: clearly fewer.',
    )
  })

  test('before it, the block that was left out is told as unprotected in the critical period', () => {
    const open = itemsOfExample('2026-06-16').find(
      ({ what, disease }) => what === 'cover' && disease === 'powdery',
    )
    expect(open).toMatchObject({ blocks: expect.arrayContaining(['brook-rows']), urgency: 'now' })
    expect(open!.reasons[0]).toMatch(/^fruit at greatest risk until about/)
  })

  test('is not told before growth, and says where the weather ended', () => {
    expect(itemsOfExample('2026-03-01').filter(({ what }) => what === 'pressure')).toEqual([])
    const old = itemsOfExample('2026-09-20').find(({ what }) => what === 'pressure')
    expect(old?.text).toMatch(/The weather ends Sun 13 Sep, 7 days ago\.$/)
  })
})

test('a window that is long over asks for the pick, until one is written', () => {
  const ledger = ledgerCopy()
  const windowsOn = (asOf: string) =>
    runJson(['today', '--ledger', ledger, '--as-of', asOf])
      .json.data.items.filter(({ what }: { what: string }) => what === 'window')
      .map(({ block, text }: { block: string; text: string }) => [block, /No pick recorded/.test(text)])
  expect(windowsOn('2026-10-20')).toContainEqual(['top-terrace', true])
  expect(windowsOn('2026-09-14')).toContainEqual(['top-terrace', false])
  const pick = ['note', 'pick', '--ledger', ledger, '--as-of', '2026-09-18', '--block', 'top-terrace']
  expect(run([...pick, '--weight', '1820 kg', '--yes']).status).toBe(0)
  expect(windowsOn('2026-10-20').map(([block]: [string]) => block)).not.toContain('top-terrace')
})

describe('with a forecast', () => {
  const days = (rain: Record<string, number>, hot = 24) =>
    ['date,min_c,max_c,rain_mm', ...Array.from({ length: 8 }, (_, at) => `2026-06-${25 + at}`)]
      .filter((line) => line < '2026-06-31' || line.startsWith('date'))
      .map((line) => (line.startsWith('date') ? line : `${line},12,${hot},${rain[line] ?? 0}`))
      .join('\n')
  const told = (text: string) => {
    const ledger = ledgerCopy()
    writeFileSync(join(ledger, 'ahead.csv'), text)
    return runJson([
      ...['today', '--ledger', ledger, '--as-of', '2026-06-25', '--forecast', join(ledger, 'ahead.csv')],
    ]).json.data.items as { what: string; disease: string; text: string; urgency: string }[]
  }

  test('a spray that is due is to dry before the rain', () => {
    const powdery = told(days({ '2026-06-27': 12 })).find(({ disease }) => disease === 'powdery')
    expect(powdery?.text).toMatch(/Rain is forecast for Sat 27 Jun \(12 mm\): spray 2 h before it\.$/)
    const heavy = told(days({ '2026-06-27': 30 })).find(({ disease }) => disease === 'powdery')
    expect(heavy?.text).toMatch(/spray 2 h before it, and count on it only until 25 mm has fallen\.$/)
    expect(
      told(days({}))
        .map(({ text }) => text)
        .join(),
    ).not.toContain('Rain is forecast')
  })

  test('rain that washes a spray off is told, with what there has been since', () => {
    const washed = (mm: number) =>
      told(days({ '2026-06-26': mm })).filter(({ text }) => text.includes('washes off'))
    expect(washed(40)[0]).toMatchObject({ what: 'cover', urgency: 'soon' })
    expect(washed(1)).toEqual([])
  })

  test('a tank that rain will wash off is renewed by a command that runs, or told that it may not be yet', () => {
    const renewed = (sprayed: string) => {
      const stages = ['upper', 'lower'].map((block) => `- { date: 2026-06-14, block: ${block}, stage: 65 }\n`)
      const ledger = makeLedger({
        'seasons/2026/stages.yaml': stages.join(''),
        'seasons/2026/sprays/a.yaml': SPRAY.replace('2026-06-14', sprayed).replace(
          '[upper]',
          '[upper, lower]',
        ),
        'seasons/2026/weather.csv': `date,min_c,max_c,rain_mm\n${Array.from({ length: 30 }, (_, at) => `2026-06-${String(at + 1).padStart(2, '0')},12,22,0\n`).join('')}`,
        'ahead.csv': days({ '2026-06-26': 40 }),
      })
      const on = ['--ledger', ledger, '--as-of', '2026-06-25']
      const { items } = runJson(['today', ...on, '--forecast', join(ledger, 'ahead.csv')]).json.data
      const { text, next } = (items as { text: string; next: string }[]).find((one) =>
        one.text.includes('washes off'),
      )!
      const words = [...next.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain!)
      return { text, next, status: run([...words.slice(1), ...on]).status }
    }
    const late = renewed('2026-06-17')
    expect(late.next).toMatch(/^rowbook mix --block (upper --block lower|lower --block upper) /)
    expect(late.next).toContain('--product "sulphur=3 kg/ha"')
    expect(late.status).toBe(0)
    const early = renewed('2026-06-22')
    expect(early.text).toMatch(
      /Nothing in the shed may be used today \(Test sulphur: sprayed 22 Jun, label needs 7 d between sprays\)\.$/,
    )
    expect(early.next).toBe('rowbook cover --for powdery --block all')
    expect(early.status).toBe(0)
  })

  test('sulphur is not recommended into great heat', () => {
    const powdery = (hot: number) =>
      told(days({}, hot)).find(({ disease, what }) => disease === 'powdery' && what === 'cover')!.text
    expect(powdery(36)).not.toMatch(/In the shed against powdery: Sulphur/)
    expect(powdery(31)).toMatch(/31 °C forecast for .*, sulphur burns in heat/)
    expect(powdery(24)).not.toContain('burns')
  })
})

test('entries of later days are no slip where a day gone by is asked for, and others still count', () => {
  expect(itemsOfExample('2026-06-25').filter(({ what }) => what === 'check')).toEqual([])
  const wrong = { 'seasons/2026/sprays/a.yaml': SPRAY.replace('3 kg/ha', '1 kg/ha') }
  const item = itemsOn('2026-06-20', wrong).find(({ what }) => what === 'check')
  expect(item?.text).toMatch(/^Your records have 1 warning: 1 kg\/ha of Test sulphur is below/)
})

test.each(['today', 'scouting'])('%s says beside a dose to mix that the label decides', (command) => {
  const of = (asOf: string) => run([command, '--ledger', 'examples/far-quillet', '--as-of', asOf]).stdout
  expect(of('2026-06-27')).toMatch(/rowbook mix/)
  expect(of('2026-06-27')).toContain('The label decides. Wear what it names.')
  expect(of('2026-01-15')).not.toMatch(/rowbook mix|Wear what it names/)
})

describe('forecast rain that may bring downy', () => {
  const told = (rain: number, sprayed: string | null, temperatures = '13,21') => {
    const stages = '- { date: 2026-06-14, block: upper, stage: 65 }\n'
    const spray = (date: string) =>
      `date: ${date}\nblocks: [upper]\nwater: 300 L/ha\nproducts: [ { product: copper, rate: 1 kg/ha, for: downy } ]\n`
    const day = (at: number) => `2026-06-${String(at).padStart(2, '0')}`
    const dry = Array.from({ length: 25 }, (_, at) => `${day(at + 1)},13,21,0\n`).join('')
    const ledger = makeLedger({
      'seasons/2026/stages.yaml': stages,
      'seasons/2026/weather.csv': `date,min_c,max_c,rain_mm\n${dry}`,
      ...(sprayed ? { 'seasons/2026/sprays/a.yaml': spray(sprayed) } : {}),
      'ahead.csv': `date,min_c,max_c,rain_mm\n2026-06-26,${temperatures},${rain}\n2026-06-27,${temperatures},0\n`,
    })
    const on = ['today', '--ledger', ledger, '--as-of', '2026-06-25', '--block', 'upper']
    const { items } = runJson([...on, '--forecast', join(ledger, 'ahead.csv')]).json.data
    return (items as { text: string; urgency: string; next: string }[]).filter(({ text }) =>
      text.startsWith('Forecast rain may bring downy'),
    )
  }

  test('is told where nothing protects, with the tank for it', () => {
    const [item] = told(12, null)
    expect(item).toMatchObject({
      urgency: 'soon',
      next: expect.stringContaining('--product "copper=2 kg/ha"'),
    })
    expect(item!.text).toContain('Upper unprotected. 12 mm of rain in two days to Fri 26 Jun at 17 °C.')
  })

  test('is not told where a spray lasts, the rain is little, or it is cold', () => {
    expect(told(12, '2026-06-22')).toEqual([])
    expect(told(9, null)).toEqual([])
    expect(told(12, null, '-2,6')).toEqual([])
  })
})

test('today says what `ready` advises where rot runs ahead of sugar', () => {
  const walk = (date: string, found: string) =>
    `- { date: ${date}, block: upper, looked_at: { bunches: 100 }, found: { botrytis: { ${found} } } }\n`
  const files = {
    'seasons/2026/stages.yaml':
      '- { date: 2026-06-14, block: upper, stage: 65 }\n- { date: 2026-08-20, block: upper, stage: 83 }\n',
    'seasons/2026/work.yaml': '- { date: 2026-09-01, block: upper, job: not sprayed }\n',
    'seasons/2026/samples.yaml':
      '- { date: 2026-09-05, block: upper, berries: 100, brix: 18.6 }\n- { date: 2026-09-12, block: upper, berries: 100, brix: 19.4 }\n',
    'seasons/2026/scouting.yaml':
      walk('2026-09-05', 'bunches: 4, severity: 0.5 %') + walk('2026-09-12', 'bunches: 15, severity: 2.2 %'),
  }
  const window = (more: Record<string, string> = {}) =>
    itemsOn('2026-09-13', { ...files, ...more }).find(({ what }) => what === 'window')!
  expect(window()).toMatchObject({ urgency: 'now', next: 'rowbook ready --block upper' })
  expect(window().text).toMatch(
    /Pick now and sort: botrytis rises from 4 % of bunches on 5 Sep to 15 % on 12 Sep/,
  )
  // Without a spray or a word that there was none, nobody knows when picking is allowed.
  expect(window({ 'seasons/2026/work.yaml': '[]\n' }).text).not.toContain('sort')
  const clean = { 'seasons/2026/scouting.yaml': walk('2026-09-12', 'bunches: 0') }
  expect(window(clean).text).not.toContain('sort')
  const sprayed = {
    'seasons/2026/sprays/a.yaml': SPRAY.replace('2026-06-14', '2026-09-10'),
    'seasons/2026/work.yaml': '[]\n',
  }
  expect(window(sprayed).text).not.toContain('sort')
})

test('early in a season of low danger, today and pressure name what was found at the end of the last', () => {
  const said = (found: string) => {
    const ledger = makeLedger({
      'seasons/2026/weather.csv': `time,temperature_c,humidity_pct,rain_mm,wetness_min\n${Array.from(
        { length: 30 * 24 },
        (_, at) => `${new Date(Date.UTC(2026, 3, 13, at)).toISOString().slice(0, 16)},12,60,0,0`,
      ).join('\n')}\n`,
      'seasons/2026/stages.yaml': '- { date: 2026-05-10, block: upper, stage: 13 }\n',
      'seasons/2025/scouting.yaml': `- { date: 2025-09-10, block: upper, looked_at: { bunches: 100 }, found: { ${found} } }\n`,
    })
    const on = ['--ledger', ledger, '--as-of', '2026-05-12']
    return { today: run(['today', ...on]).stdout, pressure: run(['pressure', ...on]).stdout }
  }
  const found = said('powdery: { bunches: 40 }')
  expect(found.today).toMatch(/powdery low.*\. Powdery was found at the end of last\s+season in Upper\./)
  expect(found.pressure).toMatch(
    /Powdery danger low in Upper\.[^.]+\.[^.]+\.\sFound\s+here at the end of last season, 10 Sep 2025/,
  )
  const clean = said('')
  expect(clean.today + clean.pressure).not.toContain('last season')
})

test('a find and an unprotected neighbour in the same danger get one tank of the same product', () => {
  const stages = ['upper', 'lower'].map((block) => `- { date: 2026-06-14, block: ${block}, stage: 65 }\n`)
  const items = itemsOn('2026-06-20', {
    'seasons/2026/stages.yaml': stages.join(''),
    'seasons/2026/scouting.yaml':
      '- { date: 2026-06-19, block: lower, looked_at: { bunches: 100 }, found: { powdery: { bunches: 30 } } }\n',
  })
  const tanks = items.filter(({ next }) => next.startsWith('rowbook mix') && next.includes('sulphur'))
  expect(tanks).toMatchObject([{ what: 'find', block: 'lower', urgency: 'now', also: [] }])
  expect(tanks[0]!.next).toMatch(/^rowbook mix --block lower --block upper --product "sulphur=/)
  expect(tanks[0]!.text).toMatch(/^Lower: powdery on 30 of 100 bunches.* Upper unprotected/)
})
