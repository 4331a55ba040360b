import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { GATES } from '../../../src/facts/picking/gate.ts'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { addDays } from '../../../src/records/date.ts'
import { ready } from '../../../src/reports/ready/report.ts'
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

  test('inside the days before harvest it fails and stops, until the cautious date', () => {
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

  test('too sharp waits; too little acid is no reason to wait', () => {
    const sample = (ph: number, ta: number) => ({
      [`${S}/samples.yaml`]: `- { date: 2026-09-12, block: upper, brix: 20.8, ph: ${ph}, ta: ${ta} g/L }\n`,
    })
    expect(pageOf(sample(3.1, 9.4)).state('acid')).toBe('wait')
    expect(pageOf(sample(2.9, 8)).state('acid')).toBe('wait')
    const low = pageOf(sample(3.4, 6))
    expect(low.state('acid')).toBe('pass')
    expect(low.page.gates[5]!.detail).toMatch(/less acid/)
  })

  test('acid takes both acid and pH where no record names a range, and neither from fermenting juice', () => {
    const sample = (rest: string) => ({
      [`${S}/samples.yaml`]: `- { date: 2026-09-12, block: upper, brix: 20.8, ${rest} }\n`,
    })
    const { page, state } = pageOf(sample('ta: 8 g/L'))
    expect(state('acid')).toBe('unknown')
    expect(page.gates[5]!.detail).toMatch(/no pH measured/)
    expect(pageOf(sample('ph: 3.2')).state('acid')).toBe('unknown')
    expect(pageOf(sample('ph: 3.2, ta: 8 g/L, fermenting: true')).state('acid')).toBe('unknown')
    const block = (targets: string) => ({
      'blocks/upper.yaml': `name: Upper\nvariety: palava\nrows: 20\nrow_length: 100 m\nrow_spacing: 2 m\nvine_spacing: 1 m\ntargets: { brix: 20-22${targets} }\n`,
    })
    expect(pageOf({ ...block(''), ...sample('ta: 8 g/L') }).state('acid')).toBe('unknown')
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

  test('a block that is picked says so', () => {
    const { page } = pageOf({
      [`${S}/picks.yaml`]: '- { date: 2026-09-13, block: upper, weight: 3900 kg }\n',
    })
    expect(page.picked).toEqual({ date: '2026-09-13', weight: { value: 3900, unit: 'kg' } })
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

  test('a gate never passes on missing data, whichever records are missing', () => {
    fc.assert(
      fc.property(fc.subarray(Object.keys(NEEDS), { minLength: 1 }), (gone) => {
        const { page, state } = pageOf(Object.fromEntries(gone.map((file) => [file, null])))
        for (const gate of gone.flatMap((file) => NEEDS[file]!)) expect(state(gate)).toBe('unknown')
        expect(page.verdict).not.toBe('ready')
      }),
      { numRuns: 15 },
    )
  })

  /** Fields whose absence takes the ground from a gate, as they stand in the complete book. */
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
        // Samples and walks grow old: what has not been looked at of late is not known.
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
