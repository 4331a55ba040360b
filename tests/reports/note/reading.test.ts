import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { fieldsOf } from '../../../src/reports/note/fields.ts'
import { readProducts, setTargets } from '../../../src/reports/note/read-products.ts'
import { readValue } from '../../../src/reports/note/read-value.ts'
import { readWeather } from '../../../src/reports/note/read-weather.ts'
import { makeLedger } from '../../ledger/make.ts'

/** Wed 25 Nov 2026. */
const TODAY = '2026-11-25'

const field = (kind: Parameters<typeof fieldsOf>[0], option: string) =>
  fieldsOf(kind).find((one) => one.option === option)!
const read = (kind: Parameters<typeof fieldsOf>[0], option: string, ...texts: string[]) =>
  readValue(field(kind, option), texts, { today: TODAY, order: 'day-first', units: 'metric' })

describe('a value as typed', () => {
  it('is written with a space before its unit, numbers as numbers', () => {
    expect(read('sprays', 'water', '300L/ha').value).toBe('300 L/ha')
    expect(read('sprays', 'water', '32 US gal/acre').value).toBe('32 US gal/acre')
    expect(read('sprays', 'temperature', '-2C').value).toBe('-2 C')
    expect(read('sprays', 'stage', '65').value).toBe(65)
    expect(read('sprays', 'rows', '1-8').value).toBe('1-8')
    expect(read('samples', 'compensated', 'no').value).toBe(false)
    expect(read('sprays', 'date', 'yesterday').value).toBe('2026-11-24')
  })

  it('may be several readings, but never a decimal comma taken for two', () => {
    expect(read('samples', 'brix', '18.2,19.0,20.4').value).toEqual([18.2, '19.0', 20.4])
    expect(read('samples', 'brix', '18.2', '19').value).toEqual([18.2, 19])
    expect(read('samples', 'brix', '18, 19').value).toEqual([18, 19])
    expect(read('samples', 'brix', '19,6').fault?.message).toContain('two ways')
    expect(read('samples', 'ta', '9,1 g/L').fault?.message).toContain('two ways')
    expect(read('samples', 'ta', '9.1g/L, 8.8 g/L').value).toEqual(['9.1 g/L', '8.8 g/L'])
    expect(read('crop', 'bunches-per-vine', '18,22,19').value).toEqual([18, 22, 19])
    expect(read('samples', 'brix', '196').fault?.message).toContain('outside what is possible')
  })

  it('may be pairs that fill a map', () => {
    expect(read('scouting', 'looked-at', 'bunches=100,leaves=50').value).toEqual({ bunches: 100, leaves: 50 })
    expect(read('scouting', 'looked-at', 'bunches=100 leaves=50').value).toEqual({ bunches: 100, leaves: 50 })
    expect(read('scouting', 'found', 'powdery.bunches=4 powdery.severity=3 % downy.leaves=0').value).toEqual({
      powdery: { bunches: 4, severity: '3 %' },
      downy: { leaves: 0 },
    })
    expect(
      read('scouting', 'found', 'powdery.bunches=4', 'powdery.severity=3%', 'downy.leaves=0').value,
    ).toEqual({ powdery: { bunches: 4, severity: '3 %' }, downy: { leaves: 0 } })
    expect(read('scouting', 'found', 'powdery=4').fault?.help).toContain('powdery.bunches=')
    expect(read('scouting', 'found', 'mildew.bunches=4').fault?.help).toContain('powdery')
    expect(read('scouting', 'found', '__proto__.bunches=4').fault).toBeDefined()
    expect(read('scouting', 'found', 'powdery.classes.5-25=2').value).toEqual({
      powdery: { classes: { '5-25': 2 } },
    })
    expect(({} as Record<string, unknown>).bunches).toBeUndefined()
  })

  it('never makes more of a text than the schema takes', () => {
    fc.assert(
      fc.property(
        fc.string({ maxLength: 20 }),
        fc.constantFrom(...fieldsOf('samples'), ...fieldsOf('scouting')),
        (text, one) => {
          const result = readValue(one, [text], { today: TODAY, order: 'day-first', units: 'metric' })
          if (result.fault) expect(result.fault.message).not.toBe('')
          else if (one.form !== 'pairs') expect(one.schema.safeParse(result.value).success).toBe(true)
        },
      ),
      { numRuns: 1000 },
    )
  })
})

describe('products as typed', () => {
  const ledger = openLedger(makeLedger(), { seasons: [2026] })

  it('have their dose under the key that its unit belongs to', () => {
    const doses: [string, object][] = [
      ['sulphur=3kg/ha', { rate: '3 kg/ha' }],
      ['sulphur=300 g/ha', { rate: '300 g/ha' }],
      ['sulphur=1.35 kg', { amount: '1.35 kg' }],
      ['sulphur=10 g/L', { concentration: '10 g/L' }],
      ['sulphur=0.2 %', { concentration: '0.2 %' }],
      ['sulphur=2 L/10000 m2 leaf wall', { rate: '2 L/10000 m2 leaf wall' }],
    ]
    for (const [text, dose] of doses)
      expect(readProducts([text], [], ledger).value, text).toEqual([{ product: 'sulphur', ...dose }])
  })

  it('are refused without a unit, twice, or with a unit that is no dose', () => {
    expect(readProducts(['sulphur=3'], [], ledger).fault?.message).toContain('sulphur: `3` has no unit')
    expect(readProducts(['sulphur=3 kg/ha', 'sulphur=2 kg/ha'], [], ledger).fault?.message).toContain('twice')
    expect(readProducts(['sulphur=3 C'], [], ledger).fault).toBeDefined()
  })

  it('keep their dose and target from an entry like it where none is typed', () => {
    const like = [{ product: 'sulphur', rate: '3 kg/ha', for: 'powdery' }]
    expect(readProducts(['sulphur'], like, ledger).value).toEqual(like)
    expect(readProducts(['sulphur=4kg/ha'], like, ledger).value).toEqual([
      { product: 'sulphur', rate: '4 kg/ha', for: 'powdery' },
    ])
  })

  it('get their targets by their labels, and it is asked where no label says', () => {
    const parts = [{ product: 'sulphur' }, { product: 'copper' }]
    expect(setTargets(parts, ['powdery', 'downy'], ledger).value).toEqual([
      { product: 'sulphur', for: 'powdery' },
      { product: 'copper', for: 'downy' },
    ])
    expect(setTargets(parts, ['copper=botrytis'], ledger).value?.[1]).toEqual({
      product: 'copper',
      for: 'botrytis',
    })
    expect(setTargets(parts, ['botrytis'], ledger).fault?.help).toContain('--for PRODUCT=botrytis')
    expect(setTargets(parts, ['coper=downy'], ledger).fault?.help).toContain('`copper`')
    expect(setTargets([{ product: 'sulphur' }], ['botrytis'], ledger).value?.[0]?.for).toBe('botrytis')
    const twice = [{ product: 'sulphur' }, { product: 'sulphur' }]
    expect(setTargets(twice, ['powdery'], ledger).value?.map((part) => part.for)).toEqual([
      'powdery',
      'powdery',
    ])
  })
})

describe('the clock', () => {
  it.each([
    ['18:40-20:05', '18:40-20:05'],
    ['1840-2005', '18:40-20:05'],
    ['18.40 - 20.05', '18:40-20:05'],
    ['18h40 to 20h05', '18:40-20:05'],
    ['18-20', '18:00-20:00'],
    ['6', '06:00'],
    ['840-1015', '08:40-10:15'],
    ['2230-0110+1', '22:30-01:10 +1'],
  ])('%s is %s', (typed, written) => {
    expect(read('sprays', 'time', typed).value).toBe(written)
  })

  it.each(['2560', '18:40-18:10', '184', '1840-20051', 'evening', '24-25'])('%s is refused', (typed) => {
    expect(read('sprays', 'time', typed).fault?.help).not.toBe('')
  })
})

describe('the weather on one line', () => {
  it('is told apart by units', () => {
    expect(readWeather('1.8 m/s SW 17C 70%, overcast').weather).toEqual({
      wind: '1.8 m/s',
      from: 'SW',
      temperature: '17 C',
      humidity: '70 %',
      sky: 'overcast',
    })
    expect(readWeather('1.8m/s N 17C').weather).toEqual({ wind: '1.8 m/s', from: 'N', temperature: '17 C' })
    expect(readWeather('4 mph w').weather).toEqual({ wind: '4 mph', from: 'W' })
  })

  it('is refused where a number has no unit, or is told twice', () => {
    expect(readWeather('17').fault?.message).toContain('no unit')
    expect(readWeather('1.8 SW 17 C').fault?.message).toContain('`1.8` has no unit')
    expect(readWeather('17 C 18 C').fault?.message).toContain('second time')
    expect(readWeather('1,8 m/s').fault?.help).toContain('1.8 m/s')
  })
})

it('full buckets become a weight in the units of the site, and an unknown bucket is asked for in them', () => {
  const noted = (units: 'metric' | 'us', full?: { bucket: number }) =>
    readValue(field('picks', 'weight'), ['12 buckets'], { today: '2026-09-14', order: null, units, full })
  expect(noted('metric', { bucket: 9 }).value).toBe('108 kg')
  expect(noted('us', { bucket: 20 * 0.45359237 }).value).toBe('240 lb')
  expect(noted('us').fault!.help).toContain('`bucket: 20 lb`; or write the weight in lb')
})
