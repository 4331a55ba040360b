import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { GATES } from '../../../src/facts/picking/gate.ts'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { addDays } from '../../../src/records/date.ts'
import { PLAIN } from '../../../src/render/style.ts'
import { ready } from '../../../src/reports/ready/report.ts'
import { renderReady } from '../../../src/reports/ready/terminal.ts'
import { makeLedger, SITE } from '../../ledger/make.ts'

const S = 'seasons/2026'
const AS_OF = '2026-09-14'

/** All that lets the block `upper` be picked on the day. */
const COMPLETE: Record<string, string> = {
  [`${S}/sprays.yaml`]:
    '- { date: 2026-07-01, time: 18:00-19:00, blocks: [upper], sprayer: mounted, water: 300 L/ha, products: [ { product: sulphur, rate: 3 kg/ha, for: powdery } ], stage: 73, operator: A. }\n',
  [`${S}/scouting.yaml`]:
    '- { date: 2026-09-08, block: upper, looked_at: { bunches: 100 }, found: { powdery: { bunches: 1 }, botrytis: { bunches: 1 } } }\n',
  [`${S}/samples.yaml`]:
    '- { date: 2026-09-12, block: upper, berries: 100, brix: 20.8, ph: 3.15, ta: 8.0 g/L }\n',
  [`${S}/crop.yaml`]:
    '- { date: 2026-09-10, block: upper, at: harvest, bunches_per_vine: [18, 22, 19, 25, 21, 17, 20, 23, 22, 19], bunch_weight: [98 g, 105 g, 91 g, 120 g] }\n',
}

function pageOf(files: Record<string, string | null>, asOf = AS_OF) {
  const ledger = openLedger(makeLedger({ ...COMPLETE, ...files }), { seasons: [2026] })
  const report = ready({ ledger, season: 2026, asOf, blocks: [ledger.blocks.get('upper')!] })
  const page = report.data.blocks[0]!
  const state = (gate: string) => page.gates.find((one) => one.gate === gate)!.state
  return { page, state, report }
}

const spray = (rest: string) =>
  `- { date: 2026-09-01, time: 18:00-19:00, blocks: [upper], sprayer: mounted, water: 300 L/ha, ${rest}, stage: 85, operator: A. }\n`
const SULPHUR = 'products: [ { product: sulphur, rate: 3 kg/ha, for: powdery } ]'

describe('ready', () => {
  test('all gates pass, in their order: the block can be picked', () => {
    const { page } = pageOf({})
    expect(page.gates.map(({ gate }) => gate)).toEqual(GATES)
    expect(page.gates.map(({ state }) => state)).toEqual(GATES.map(() => 'pass'))
    expect(page).toMatchObject({ verdict: 'ready', legalFrom: '2026-07-23', turns: null, todo: [] })
  })

  test('in winter, what is unknown is no task: nothing hangs to look at', () => {
    const none = Object.fromEntries(Object.keys(COMPLETE).map((file) => [file, null]))
    expect(pageOf(none, '2026-01-15').page.todo).toEqual(['Scout, sample and count once bunches hang.'])
    expect(pageOf(none, '2026-08-15').page.todo.join(' ')).toContain('Scout: look at 100 bunches')
  })

  test('in winter too, what a label has to say is a task', () => {
    const unread =
      'name: Unread\nform: WG\nkind: fungicide\nactives: [ { name: captan } ]\nuses: [ { against: botrytis, rate: 1-2 kg/ha } ]\n'
    const files = {
      ...Object.fromEntries(Object.keys(COMPLETE).map((file) => [file, null])),
      'products/unread.yaml': unread,
      [`${S}/sprays.yaml`]:
        '- { date: 2026-03-09, blocks: [upper], water: 300 L/ha, products: [ { product: unread, rate: 1 kg/ha, for: botrytis } ] }\n',
    }
    const { page, state } = pageOf(files, '2026-03-10')
    expect([state('before-harvest'), state('re-entry')]).toEqual(['unknown', 'unknown'])
    expect(page.todo.join(' ')).toMatch(/`before_harvest`.*`re_entry`.*once bunches hang/)
  })

  test('inside the pre-harvest interval it fails and stops, until the cautious date', () => {
    const files = { [`${S}/sprays.yaml`]: spray(SULPHUR) }
    const before = pageOf(files, '2026-09-22')
    expect(before.state('before-harvest')).toBe('fail')
    expect(before.page).toMatchObject({ verdict: 'stop', legalFrom: '2026-09-23' })
    expect(pageOf(files, '2026-09-23').state('before-harvest')).toBe('pass')
  })

  test('zero days before harvest may still keep the pickers out', () => {
    const product = `name: Zero\nform: WG\nkind: fungicide\nactives: [ { name: captan, content: 800 g/kg, group: M04 } ]\nuses: [ { against: botrytis, rate: 1-2 kg/ha } ]\nbefore_harvest: 0 d\nre_entry: 48 h\n`
    const files = {
      'products/zero.yaml': product,
      [`${S}/sprays.yaml`]: spray('products: [ { product: zero, rate: 1 kg/ha, for: botrytis } ]'),
    }
    const next = pageOf(files, '2026-09-03')
    expect(next.state('before-harvest')).toBe('pass')
    expect(next.state('re-entry')).toBe('fail')
    expect(next.page.gates[2]).toMatchObject({ until: '2026-09-03T19:00+02:00' })
    expect(next.page.verdict).toBe('stop')
    expect(pageOf(files, '2026-09-04').state('re-entry')).toBe('pass')
  })

  test.each([
    ['2026-09-14', 'pass'],
    ['2026-09-22', 'pass'],
    ['2026-09-23', 'unknown'],
  ])('a walk of 8 September, looked at on %s: %s', (asOf, state) => {
    expect(pageOf({}, asOf).state('disease')).toBe(state)
  })

  test('disease above the threshold fails; on it, it passes', () => {
    const walk = (found: number) => ({
      [`${S}/scouting.yaml`]: `- { date: 2026-09-08, block: upper, looked_at: { bunches: 100 }, found: { powdery: { bunches: ${found} } } }\n`,
    })
    expect(pageOf(walk(3)).state('disease')).toBe('pass')
    expect(pageOf(walk(4)).page.verdict).toBe('stop')
  })

  test.each([
    ['20.0', 'pass'],
    ['19.9', 'wait'],
  ])('%s Brix of 20-22: %s', (brix, state) => {
    const files = {
      [`${S}/samples.yaml`]: `- { date: 2026-09-12, block: upper, brix: ${brix}, ph: 3.15, ta: 8 g/L }\n`,
    }
    expect(pageOf(files).state('sugar')).toBe(state)
  })

  test('a sample of ten days ago counts, one of eleven does not', () => {
    expect(pageOf({}, '2026-09-22').state('sugar')).toBe('pass')
    expect(pageOf({}, '2026-09-23').state('sugar')).toBe('unknown')
  })

  test('fermenting juice gives no sugar, with the reason', () => {
    const { page, state } = pageOf({
      [`${S}/samples.yaml`]:
        '- { date: 2026-09-12, block: upper, brix: 20.8, fermenting: true, ph: 3.15, ta: 8 g/L }\n',
    })
    expect(state('sugar')).toBe('unknown')
    expect(page.gates[4]!.detail).toMatch(/ferment/)
  })

  test('too much acid waits; too little is no reason to wait; a pH over its upper end fails by itself', () => {
    const sample = (ph: number, ta: number) => ({
      [`${S}/samples.yaml`]: `- { date: 2026-09-12, block: upper, brix: 20.8, ph: ${ph}, ta: ${ta} g/L }\n`,
    })
    expect(pageOf(sample(3.1, 9.4)).state('acid')).toBe('wait')
    expect(pageOf(sample(2.9, 8)).state('acid')).toBe('wait')
    const low = pageOf(sample(3.3, 6))
    expect(low.state('acid')).toBe('pass')
    expect(low.page.gates[5]!.detail).toMatch(/below 7-9.*only falls/)
    // Up to 0.05 over the upper end may be the meter.
    expect(pageOf(sample(3.35, 8)).state('acid')).toBe('pass')
    const high = pageOf(sample(3.36, 8))
    expect(high.state('acid')).toBe('fail')
    expect(high.page.todo.join(' ')).toMatch(/pH only rises/)
  })

  const block = (targets: string) => ({
    'blocks/upper.yaml': `name: Upper\nvariety: palava\nrows: 20\nrow_length: 100 m\nrow_spacing: 2 m\nvine_spacing: 1 m\ntargets: { brix: 20-22${targets} }\n`,
  })

  test('acid that is too high: says when it likely comes into range, once three days of measuring tell', () => {
    const samples = (values: readonly number[]) => ({
      [`${S}/samples.yaml`]: values
        .map(
          (ta, at) =>
            `- { date: ${addDays('2026-09-12', 7 * (at - values.length + 1))}, block: upper, brix: 20.8, ta: ${ta} g/L }\n`,
        )
        .join(''),
    })
    const told = pageOf({ ...block(', ta: 7-9 g/L'), ...samples([15, 13, 11.2, 9.8]) }).page
    expect(told.todo.join(' ')).toMatch(
      /Acid falls to 9 g\/L about \w{3} \d+ Sep \(.+, 9 times in 10\)\. Measure again/,
    )
    expect(told.turns! > '2026-09-12' && told.turns! < '2026-09-30').toBe(true)
    expect(told.gates[5]).toMatchObject({ gate: 'acid', state: 'wait', turns: told.turns })
    const few = pageOf({ ...block(', ta: 7-9 g/L'), ...samples([15, 13]) }).page
    expect(few.turns).toBeNull()
  })

  test('acid is asked for by targets alone, and takes nothing from fermenting juice', () => {
    const sample = (rest: string) => ({
      [`${S}/samples.yaml`]: `- { date: 2026-09-12, block: upper, brix: 20.8, ${rest} }\n`,
    })
    const { page, state } = pageOf(sample('ta: 8 g/L'))
    expect(state('acid')).toBe('unknown')
    expect(page.gates[5]!.detail).toMatch(/no pH measured/)
    expect(pageOf(sample('ph: 3.2')).state('acid')).toBe('unknown')
    expect(pageOf(sample('ph: 3.2, ta: 8 g/L, fermenting: true')).state('acid')).toBe('unknown')
    expect(pageOf({ ...block(''), ...sample('ta: 18 g/L') }).state('acid')).toBe('not-asked')
    const bare = pageOf({ ...block(''), ...sample('berries: 100') })
    expect([bare.state('acid'), bare.page.verdict]).toEqual(['not-asked', 'ready'])
    expect(pageOf({ ...block(', ta: 7-9 g/L'), ...sample('ta: 8 g/L') }).state('acid')).toBe('pass')
  })

  test('a disease that is noted without a count is unknown, not passed', () => {
    const walk = (found: string) => ({
      [`${S}/scouting.yaml`]: `- { date: 2026-09-08, block: upper, looked_at: { bunches: 100 }, found: ${found} }\n`,
    })
    const noted = pageOf(walk('{ botrytis: { severity: 20 % } }'))
    expect(noted.state('disease')).toBe('unknown')
    expect(noted.page.gates[3]!.detail).toMatch(/botrytis noted .* without a count/)
    expect(pageOf(walk('{}')).state('disease')).toBe('pass')
  })

  test('nor does a count pass for what a later round noted without one', () => {
    const later = (found: string) => ({
      [`${S}/scouting.yaml`]: `${COMPLETE[`${S}/scouting.yaml`]}- { date: 2026-09-12, block: upper, looked_at: { leaves: 50 }, found: ${found} }\n`,
    })
    const noted = pageOf(later('{ botrytis: { where: rows 3 to 5 } }'))
    expect(noted.state('disease')).toBe('unknown')
    expect(noted.page.gates[3]!.detail).toMatch(/^botrytis noted on Sat 12 Sep without a count/)
    expect(pageOf(later('{ downy: { where: rows 3 to 5 } }')).state('disease')).toBe('pass')
    const vines = later('{ downy: { where: rows 3 to 5 } }')[`${S}/scouting.yaml`]!.replace(
      'leaves: 50',
      'vines: 50',
    )
    expect(pageOf({ [`${S}/scouting.yaml`]: vines }).state('disease')).toBe('unknown')
  })

  test('broken records stop every block and are listed', () => {
    const { page, report } = pageOf({
      [`${S}/samples.yaml`]: '- { date: 2026-09-12, block: upper, brix: lots }\n',
    })
    expect(page.verdict).toBe('stop')
    expect(page.gates.map(({ state }) => state)).toEqual(['fail', ...Array(6).fill('unknown')])
    expect(report.findings.length).toBeGreaterThan(0)
  })

  test('an error of the rules in the own spray fails the records', () => {
    const { state } = pageOf({
      [`${S}/sprays.yaml`]: COMPLETE[`${S}/sprays.yaml`]!.replace('rate: 3 kg/ha', 'rate: 30 kg/ha'),
    })
    expect(state('records')).toBe('fail')
  })

  test('a block that is picked says so, and has nothing to do before picking', () => {
    const { page, report } = pageOf({
      [`${S}/picks.yaml`]: '- { date: 2026-09-13, block: upper, weight: 3900 kg }\n',
      [`${S}/samples.yaml`]: null,
    })
    expect(page).toMatchObject({ verdict: 'wait', todo: [] })
    expect(page.picked).toEqual({ date: '2026-09-13', weight: { value: 3900, unit: 'kg' } })

    const style = { columns: 80, units: 'metric' as const, paint: PLAIN }
    expect(renderReady(report, { names: new Map([['upper', 'Upper']]), all: false }, style)).toMatch(
      /^Upper: picked$/m,
    )
  })

  test('a block that is picked in part is judged by what still hangs', () => {
    const { page, report } = pageOf({
      [`${S}/picks.yaml`]: '- { date: 2026-09-13, block: upper, weight: 900 kg, rest: 60 % }\n',
    })
    expect(page).toMatchObject({ verdict: 'ready', picked: null })
    expect(page.conflicts).toEqual([
      'Picked in part on Sun 13 Sep: 60 % of the block still hangs. Sample that part: samples of the whole block may not hold for it.',
    ])
    expect(report.data.order).toMatchObject([{ block: 'upper' }])
  })

  test('unsprayed is not assumed: it has to be written', () => {
    expect(pageOf({ [`${S}/sprays.yaml`]: null }).page.verdict).toBe('stop')
    const said = pageOf({
      [`${S}/sprays.yaml`]: null,
      [`${S}/work.yaml`]: '- { date: 2026-09-01, block: upper, job: not sprayed }\n',
    })
    expect(said.state('before-harvest')).toBe('pass')
    expect(said.page.verdict).toBe('ready')
  })

  const NEEDS: Record<string, string[]> = {
    [`${S}/sprays.yaml`]: ['before-harvest', 're-entry'],
    [`${S}/scouting.yaml`]: ['disease'],
    [`${S}/samples.yaml`]: ['sugar', 'acid'],
    [`${S}/crop.yaml`]: ['crop'],
  }

  const UPPER =
    'name: Upper\nvariety: palava\nrows: 20\nrow_length: 100 m\nrow_spacing: 2 m\nvine_spacing: 1 m\n'
  const ASKS_YIELD = {
    'blocks/upper.yaml': `${UPPER}targets: { brix: 20-22, ta: 7-9 g/L, ph: 3.0-3.3, yield: 5000-7000 kg/ha }\n`,
  }

  test('a crop that was never counted, nor a yield set, is not asked for', () => {
    const { page, state } = pageOf({ [`${S}/crop.yaml`]: null })
    expect([state('crop'), page.verdict]).toEqual(['not-asked', 'ready'])
    expect(pageOf({ ...ASKS_YIELD, [`${S}/crop.yaml`]: null }).page.verdict).toBe('wait')
  })

  describe('styles', () => {
    const styled = (style: string, sample: string, more = '') =>
      pageOf({
        'blocks/upper.yaml': `${UPPER}style: ${style}\n${more}`,
        [`${S}/samples.yaml`]: `- { date: 2026-09-12, block: upper, berries: 100, ${sample} }\n`,
      })
    test.each([
      ['sparkling', 'brix: 17.2, ta: 12.9 g/L, ph: 3.0', 'ready'],
      ['sparkling', 'brix: 17.2, ta: 13.1 g/L, ph: 3.0', 'wait'],
      ['sparkling', 'brix: 15.9, ta: 12 g/L, ph: 3.0', 'wait'],
      ['sparkling', 'brix: 17.2, ta: 8 g/L, ph: 3.21', 'stop'],
      ['white', 'brix: 21, ta: 10.5 g/L, ph: 3.1', 'wait'],
      ['red', 'brix: 23, ta: 7 g/L, ph: 3.6', 'ready'],
      ['red', 'brix: 23, ta: 8.1 g/L, ph: 3.4', 'wait'],
      ['dessert', 'brix: 25.9', 'wait'],
      ['rosé', 'brix: 19', 'ready'],
      ['rose', 'brix: 19', 'ready'],
    ])('%s at %s: %s', (style, sample, verdict) => expect(styled(style, sample).page.verdict).toBe(verdict))
    test('an own target comes before the style, the style of a block before the target of its variety', () => {
      expect(styled('sparkling', 'brix: 17.2', 'targets: { brix: 18-19 }\n').state('sugar')).toBe('wait')
      const { page } = styled('sparkling', 'brix: 17.2')
      expect(page.gates[4]!.detail).toMatch(/of 16-18.5 \(usual for sparkling: common practice/)
    })
  })

  describe('bunches decide', () => {
    const scouted = (found: string, looked = 'bunches: 100, leaves: 100', more = '') =>
      pageOf({
        [`${S}/scouting.yaml`]: `${more}- { date: 2026-09-08, block: upper, looked_at: { ${looked} }, found: { ${found} } }\n`,
      })
    test('sick leaves are told beside and stop nothing', () => {
      const { page, state } = scouted('downy: { leaves: 60, bunches: 0 }')
      expect([state('disease'), page.verdict]).toEqual(['pass', 'ready'])
      expect(page.gates[3]!.detail).toMatch(/leaves, which are not picked: downy on 60 of 100/)
    })
    test('a round on leaves alone does not take the place of one on bunches', () => {
      const before =
        '- { date: 2026-09-06, block: upper, looked_at: { bunches: 100 }, found: { botrytis: { bunches: 0 } } }\n'
      expect(scouted('downy: { leaves: 9 }', 'leaves: 100', before).state('disease')).toBe('pass')
      expect(scouted('downy: { leaves: 9 }', 'leaves: 100').state('disease')).toBe('unknown')
    })
    test.each([
      ['bunches: 40, severity: 3 %', 'pass'],
      ['bunches: 40, severity: 3.1 %', 'fail'],
      ['bunches: 3', 'pass'],
      ['bunches: 4', 'wait'],
      ['bunches: 90', 'wait'],
    ])('botrytis { %s }: %s, by severity', (found, state) =>
      expect(scouted(`botrytis: { ${found} }`).state('disease')).toBe(state),
    )
    test('where only incidence is known, the bounds of severity are told', () => {
      const { page } = scouted('botrytis: { bunches: 8 }')
      expect(page.gates[3]!.detail).toMatch(/0 to 8 % of the surface/)
      expect(page.todo.join(' ')).toMatch(/severity/)
      expect(page.verdict).toBe('wait')
    })
  })

  describe('rot against ripeness', () => {
    const walk = (date: string, found: string) =>
      `- { date: ${date}, block: upper, looked_at: { bunches: 100 }, found: { botrytis: { ${found} } } }\n`
    const book = (rounds: string, brix = '20.4', more = {}) => ({
      [`${S}/scouting.yaml`]: rounds,
      [`${S}/samples.yaml`]: `- { date: 2026-09-12, block: upper, berries: 100, brix: ${brix}, ph: 3.15, ta: 8.0 g/L }\n`,
      ...more,
    })
    const rising =
      walk('2026-09-05', 'bunches: 4, severity: 0.5 %') + walk('2026-09-12', 'bunches: 15, severity: 2 %')
    const steady =
      walk('2026-09-05', 'bunches: 4, severity: 1 %') + walk('2026-09-12', 'bunches: 4, severity: 1 %')
    test('rot that rises, with sugar there or nearly: pick now and sort', () => {
      expect(pageOf(book(rising)).page.advice).toMatchObject({ what: 'pick-now-and-sort' })
      expect(pageOf(book(rising, '19.0')).page.advice?.reasons.join(' ')).toMatch(/1.0 Brix short/)
    })
    test('further away, picking is weighed where rot outruns sugar, or is over its limit', () => {
      const { advice } = pageOf(book(rising, '18.6')).page
      expect(advice).toMatchObject({ what: 'weigh-picking-now' })
      expect(advice?.reasons.join(' ')).toMatch(/1.4 Brix short .* rot may be at \d/)
      expect(pageOf(book(rising, '16.5')).page.advice).toBeNull()
      const slow =
        walk('2026-09-05', 'bunches: 4, severity: 0.5 %') + walk('2026-09-12', 'bunches: 5, severity: 0.6 %')
      expect(pageOf(book(slow, '18.6')).page.advice).toBeNull()
    })
    test('not where rot stands still, nor where picking is not lawful', () => {
      expect(pageOf(book(steady)).page.advice).toBeNull()
      expect(pageOf(book(rising, '20.4', { [`${S}/sprays.yaml`]: spray(SULPHUR) })).page.advice).toBeNull()
      expect(pageOf(book(walk('2026-09-12', 'bunches: 0'))).page.advice).toBeNull()
    })
    test('rain in the week ahead argues against waiting, from 10 mm on', () => {
      const withRain = (mm: number) => {
        const ledger = openLedger(makeLedger({ ...COMPLETE, ...book(steady) }), { seasons: [2026] })
        const rain = new Map([[Date.parse('2026-09-16') / 86_400_000, mm]])
        const forecast = { means: new Map(), rain, hours: null }
        const input = { ledger, season: 2026, asOf: AS_OF, blocks: [ledger.blocks.get('upper')!] }
        return ready(input, { forecast }).data.blocks[0]!.advice
      }
      expect(withRain(10)?.reasons.join(' ')).toMatch(/10 mm of rain/)
      expect(withRain(9.9)).toBeNull()
    })
    test('rot that was never scored only may be over: it argues for picking where sugar is there', () => {
      const once = walk('2026-09-12', 'bunches: 20')
      const { page } = pageOf(book(once))
      expect(page.advice?.reasons).toEqual([
        'rot may be over the limit: 20 of 100 bunches, severity not scored',
      ])
      expect(pageOf(book(once, '19.5')).page.advice).toBeNull()
      expect(pageOf(book(walk('2026-09-12', 'bunches: 20, severity: 1 %'))).page.advice).toBeNull()
    })
    test('few hands pick the block with rot first', () => {
      const ledger = openLedger(
        makeLedger({
          ...COMPLETE,
          ...book(rising),
          'blocks/lower.yaml': UPPER.replace('Upper', 'Lower'),
          [`${S}/work.yaml`]: '- { date: 2026-09-01, block: lower, job: not sprayed }\n',
          [`${S}/samples.yaml`]: `${book(rising)[`${S}/samples.yaml`]}- { date: 2026-09-12, block: lower, berries: 100, brix: 23 }\n`,
          [`${S}/scouting.yaml`]: `${rising}- { date: 2026-09-12, block: lower, looked_at: { bunches: 100 }, found: { botrytis: { bunches: 0 } } }\n`,
        }),
        { seasons: [2026] },
      )
      const blocks = ['lower', 'upper'].map((id) => ledger.blocks.get(id)!)
      const { order } = ready({ ledger, season: 2026, asOf: AS_OF, blocks }).data
      expect(order.map(({ block }) => block)).toEqual(['upper', 'lower'])
      expect(order[0]!.reasons.join(' ')).toMatch(/rot/)
    })
  })

  test('sulphur within 35 days of picking is told, sharper where a red ferments on its skins', () => {
    const sprayed = (date: string, colour = 'white', style = '') =>
      pageOf({
        [`${S}/sprays.yaml`]: spray(SULPHUR).replace('2026-09-01', date),
        'varieties/palava.yaml': `${SITE['varieties/palava.yaml']!.replace('white', colour)}${style}`,
      }).page.sulphur
    expect(sprayed('2026-08-10')).toBeNull()
    expect(sprayed('2026-08-11')).toMatch(/34 days before Mon 14 Sep.*let the must settle clear/i)
    expect(sprayed('2026-08-11', 'red')).toMatch(/nearly triples hydrogen sulphide/)
    expect(sprayed('2026-08-11', 'red', 'style: rosé\n')).toMatch(/settle clear/)
  })

  test('a pH over its range is no ban: it asks for a decision now', () => {
    const files = {
      [`${S}/samples.yaml`]:
        '- { date: 2026-09-12, block: upper, berries: 100, brix: 20.8, ph: 3.5, ta: 8.0 g/L }\n',
    }
    const { report, page } = pageOf(files)
    expect(page.gates.find(({ gate }) => gate === 'acid')!.state).toBe('fail')
    const said = renderReady(
      report,
      { names: new Map(), all: false },
      { columns: 80, units: 'metric', paint: PLAIN },
    )
    expect(said).toContain('upper: decide now, pH 3.50 is over its range and only rises')
  })

  test('seeds, skins and taste are shown as written', () => {
    const { page } = pageOf({
      [`${S}/samples.yaml`]: `${COMPLETE[`${S}/samples.yaml`]!.trim().replace(' }', ', seeds: brown, skins: soft }')}\n- { date: 2026-09-10, block: upper, taste: ripe pear }\n`,
    })
    expect(page.observed).toEqual([
      { date: '2026-09-12', what: 'seeds', text: 'brown' },
      { date: '2026-09-12', what: 'skins', text: 'soft' },
      { date: '2026-09-10', what: 'taste', text: 'ripe pear' },
    ])
  })

  test('a gate never passes on missing data, whichever records are missing', () => {
    fc.assert(
      fc.property(fc.subarray(Object.keys(NEEDS), { minLength: 1 }), (gone) => {
        const { page, state } = pageOf({
          ...ASKS_YIELD,
          ...Object.fromEntries(gone.map((file) => [file, null])),
        })
        for (const gate of gone.flatMap((file) => NEEDS[file]!)) expect(state(gate)).toBe('unknown')
        expect(page.verdict).not.toBe('ready')
      }),
      { numRuns: 15 },
    )
  })

  /** Fields without which a check is unknown, as they are in the complete ledger. */
  const FIELDS: [file: string, field: string, gate: string][] = [
    [`${S}/scouting.yaml`, 'bunches: 100', 'disease'],
    [`${S}/samples.yaml`, ', brix: 20.8', 'sugar'],
    [`${S}/samples.yaml`, ', ph: 3.15', 'acid'],
    [`${S}/samples.yaml`, ', ta: 8.0 g/L', 'acid'],
    [`${S}/crop.yaml`, ', bunches_per_vine: [18, 22, 19, 25, 21, 17, 20, 23, 22, 19]', 'crop'],
    [`${S}/crop.yaml`, ', bunch_weight: [98 g, 105 g, 91 g, 120 g]', 'crop'],
    ['blocks/upper.yaml', 'brix: 20-22, ', 'sugar'],
    ['products/sulphur.yaml', 'before_harvest: 21 d\n', 'before-harvest'],
    ['products/sulphur.yaml', 're_entry: 24 h\n', 're-entry'],
  ]

  test('a gate never passes on missing data, whichever fields are missing, on whichever day', () => {
    const book: Record<string, string> = { ...SITE, ...COMPLETE }
    for (const [file, field] of FIELDS) expect(book[file], `${field} in ${file}`).toContain(field)
    fc.assert(
      fc.property(fc.subarray(FIELDS, { minLength: 1 }), fc.integer({ min: 0, max: 60 }), (gone, later) => {
        const files: Record<string, string> = {
          ...book,
          'varieties/palava.yaml': 'name: Palava\ncolour: white\n',
        }
        for (const [file, field] of gone) {
          const other = field === 'bunches: 100' ? 'leaves: 100' : ''
          files[file] = files[file]!.replace(field, other)
        }
        files[`${S}/scouting.yaml`] = files[`${S}/scouting.yaml`]!.replace(
          /found: .*/,
          gone.some(([, field]) => field === 'bunches: 100') ? 'found: {} }' : '$&',
        )
        const { page, state } = pageOf(files, addDays(AS_OF, later))
        for (const [, , gate] of gone) expect(state(gate)).not.toBe('pass')
        expect(page.verdict).not.toBe('ready')
        // Samples and scouting rounds grow old: what nobody looked at lately is not known.
        if (later > 8) expect([state('disease'), state('sugar'), state('acid')]).not.toContain('pass')
      }),
      { numRuns: 60 },
    )
  }, 60_000)

  test.each(['before_harvest', 're_entry'])('a product without %s leaves its gate unknown', (key) => {
    const product = `name: Bare\nform: WG\nkind: fungicide\nactives: [ { name: sulphur, content: 800 g/kg, group: M02 } ]\nuses: [ { against: powdery, rate: 2-6 kg/ha } ]\nbefore_harvest: 21 d\nre_entry: 24 h\n`
    const { page, state } = pageOf({
      'products/sulphur.yaml': product
        .split('\n')
        .filter((line) => !line.startsWith(key))
        .join('\n'),
    })
    expect(state(key === 'before_harvest' ? 'before-harvest' : 're-entry')).toBe('unknown')
    expect(page.verdict).toBe('stop')
  })
})
