import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { findingsOf } from '../../ledger/in-memory.ts'
import {
  digits,
  EXTRA,
  figure,
  formOfDose,
  holdsFor,
  label,
  SITE_FILE,
  SPRAYS,
  site,
  spray,
  typedDose,
  whole,
} from './both-sides.ts'

const STEP = 0.001
const dosed = (dose: string, more: Partial<Parameters<typeof spray>[0]> = {}) =>
  spray({ products: [`product: extra, ${dose}, for: powdery`], ...more })

describe('whatever the label says, in whichever form the dose is typed', () => {
  const drawn = fc.record({ limit: figure(0.5, 20), form: formOfDose, water: whole(100, 900) })

  test('the most for ground area', () => {
    holdsFor('over-rate', 'error', drawn, ({ limit, form, water }) => {
      const book = (perHa: number) => ({
        [EXTRA]: label({ use: `rate: 0.1-${digits(limit)} kg/ha` }),
        [SPRAYS]: dosed(typedDose(form, perHa, water), { water: `${water} L/ha` }),
      })
      return { inside: book(limit), outside: book(limit + STEP) }
    })
  })

  test('the most for ground area beside a concentration', () => {
    holdsFor('over-rate', 'error', drawn, ({ limit, form, water }) => {
      const book = (perHa: number) => ({
        [EXTRA]: label({ use: `concentration: 0-900 g/L, max_rate: ${digits(limit)} kg/ha` }),
        [SPRAYS]: dosed(typedDose(form, perHa, water), { water: `${water} L/ha` }),
      })
      return { inside: book(limit), outside: book(limit + STEP) }
    })
  })

  test('the least for ground area', () => {
    holdsFor('under-rate', 'warning', drawn, ({ limit, form, water }) => {
      const book = (perHa: number) => ({
        [EXTRA]: label({ use: `rate: ${digits(limit)}-900 kg/ha` }),
        [SPRAYS]: dosed(typedDose(form, perHa, water), { water: `${water} L/ha` }),
      })
      return { inside: book(limit), outside: book(limit - STEP) }
    })
  })

  test.each(['g/L', '%'])('the most in the spray, in %s', (unit) => {
    holdsFor('over-concentration', 'error', drawn, ({ limit, form, water }) => {
      const perHa = (limit * water) / 1000
      const high = unit === '%' ? limit / 10 : limit
      const book = (dose: number) => ({
        [EXTRA]: label({ use: `concentration: 0-${digits(high)} ${unit}` }),
        [SPRAYS]: dosed(typedDose(form, dose, water), { water: `${water} L/ha` }),
      })
      return { inside: book(perHa), outside: book(perHa * 1.0001) }
    })
  })

  test('the least in the spray', () => {
    holdsFor('under-rate', 'warning', drawn, ({ limit, form, water }) => {
      const perHa = (limit * water) / 1000
      const book = (dose: number) => ({
        [EXTRA]: label({ use: `concentration: ${digits(limit)}-900 g/L` }),
        [SPRAYS]: dosed(typedDose(form, dose, water), { water: `${water} L/ha` }),
      })
      return { inside: book(perHa), outside: book(perHa * 0.9999) }
    })
  })

  test('the most in the dilute spray, when less than the dilute volume is applied', () => {
    const concentrate = fc.record({
      limit: figure(0.5, 20),
      dilute: whole(600, 2000),
      water: whole(100, 500),
    })
    holdsFor('over-concentration', 'error', concentrate, ({ limit, dilute, water }) => {
      const book = (perLitre: number) => ({
        [EXTRA]: label({ use: `concentration: 0-${digits(limit)} g/L` }),
        [SPRAYS]: dosed(`concentration: ${digits(perLitre)} g/L`, {
          water: `${water} L/ha`,
          more: `  dilute: ${dilute} L/ha\n`,
        }),
      })
      return { inside: book(limit), outside: book(limit * 1.0001) }
    })
  })

  test('the most for leaf wall: rows of 2 m and 1.2 m of wall are 12 000 m² on a hectare', () => {
    holdsFor('over-rate', 'error', drawn, ({ limit, form, water }) => {
      const book = (perWall: number) => ({
        [EXTRA]: label({ use: `rate: 0.1-${digits(limit)} kg/10000 m2 leaf wall` }),
        [SPRAYS]: dosed(typedDose(form, perWall * 1.2, water), { water: `${water} L/ha` }),
      })
      return { inside: book(limit), outside: book(limit * 1.0001) }
    })
  })
})

describe('both limits are held, whichever form was typed', () => {
  // UC IPM after Adaskaveg et al. 2022: bicarbonate stays below 5 g/L; 5.6 kg/ha in 400 L/ha is 14 g/L.
  const both = label({ use: 'rate: 2.8-5.6 kg/ha, concentration: 1-5 g/L' })
  const names = (dose: string, water: string) =>
    ['over-rate', 'over-concentration'].flatMap((rule) =>
      findingsOf(rule, { [EXTRA]: both, [SPRAYS]: dosed(dose, { water }) }).map(({ name }) => name),
    )

  test.each(['rate: 5.6 kg/ha', 'amount: 2.24 kg', 'concentration: 14 g/L', 'concentration: 1.4 %'])(
    '%s in 400 L/ha is within the rate and nearly three times the concentration',
    (dose) => expect(names(dose, '400 L/ha')).toEqual(['over-concentration']),
  )
  test.each(['rate: 5.6 kg/ha', 'concentration: 4.999 g/L'])('%s in 1120 L/ha is within both', (dose) =>
    expect(names(dose, '1120.1 L/ha')).toEqual([]),
  )
  test('5 g/L in 1200 L/ha is within the concentration and above the rate', () =>
    expect(names('concentration: 5 g/L', '1200 L/ha')).toEqual(['over-rate']))
})

describe('water', () => {
  const drawn = fc.record({ low: whole(50, 400), more: whole(1, 900), total: fc.boolean() })
  const book = (of: { low: number; more: number; total: boolean }, water: number) => ({
    [EXTRA]: label({ more: `water: ${of.low}-${of.low + of.more} L/ha\n` }),
    [SPRAYS]: dosed('rate: 3 kg/ha', {
      water: of.total ? `${digits(water * 0.4)} L` : `${digits(water)} L/ha`,
    }),
  })
  test('the most of the label', () => {
    holdsFor('water-outside-label', 'error', drawn, (of) => ({
      inside: book(of, of.low + of.more),
      outside: book(of, of.low + of.more + 0.01),
    }))
  })
  test('the least of the label', () => {
    holdsFor('water-outside-label', 'error', drawn, (of) => ({
      inside: book(of, of.low),
      outside: book(of, of.low - 0.01),
    }))
  })

  test('more than the nozzles put out in the time, and a tenth more', () => {
    const work = fc.record({ flow: figure(1, 20), minutes: whole(5, 400) })
    holdsFor('impossible-output', 'warning', work, ({ flow, minutes }) => {
      const litres = flow * minutes * 1.1
      const until = 300 + minutes
      const time = `05:00-${String(Math.floor(until / 60)).padStart(2, '0')}:${String(until % 60).padStart(2, '0')}`
      const one = (water: number) => ({
        'sprayers/mounted.yaml': `name: M\ntank: 200 L\nflow: ${digits(flow)} L/min\n`,
        [SPRAYS]: spray({
          products: ['product: sulphur, rate: 3 kg/ha, for: powdery'],
          water: `${digits(water)} L`,
          more: `  time: ${time}\n  sprayer: mounted\n`,
        }),
      })
      return { inside: one(litres), outside: one(litres + 0.01) }
    })
  })

  test('eight times what is usual with the sprayer, or an eighth', () => {
    const usual = fc.record({ water: whole(100, 800), up: fc.boolean() })
    holdsFor('ten-times-usual', 'warning', usual, ({ water, up }) => {
      const days = ['2026-05-20', '2026-06-02', '2026-06-14', '2026-06-26']
      const one = (last: number) => ({
        [SPRAYS]: days
          .map((date, index) =>
            spray({
              date,
              products: ['product: sulphur, rate: 3 kg/ha, for: powdery'],
              water: `${digits(index === 2 ? last : water)} L/ha`,
              more: '  sprayer: mounted\n',
            }),
          )
          .join(''),
      })
      return up
        ? { inside: one(water * 7.99), outside: one(water * 8.01) }
        : { inside: one(water / 7.99), outside: one(water / 8.01) }
    })
  })
})

describe('totals', () => {
  test('the most of a product in a season', () => {
    const drawn = fc.record({ each: figure(0.1, 5), count: whole(2, 4) })
    holdsFor('too-many-applications', 'error', drawn, ({ each, count }) => {
      const dates = ['2026-05-10', '2026-05-24', '2026-06-08', '2026-06-23'].slice(0, count)
      const book = (most: number) => ({
        [EXTRA]: label({ more: `max_total: ${digits(most)} kg/ha\n` }),
        [SPRAYS]: dates.map((date) => dosed(`rate: ${digits(each)} kg/ha`, { date })).join(''),
      })
      return { inside: book(each * count), outside: book(each * count - STEP) }
    })
  })

  test('a dose eight times the middle of the others', () => {
    const drawn = fc.record({ usual: figure(0.5, 5), up: fc.boolean() })
    holdsFor('ten-times-usual', 'warning', drawn, ({ usual, up }) => {
      const book = (odd: number) => ({
        [EXTRA]: label(),
        [SPRAYS]: ['2026-05-10', '2026-05-24', '2026-06-08', '2026-06-23']
          .map((date, index) => dosed(`rate: ${digits(index === 1 ? odd : usual)} kg/ha`, { date }))
          .join(''),
      })
      return up
        ? { inside: book(usual * 7.99), outside: book(usual * 8.01) }
        : { inside: book(usual / 7.99), outside: book(usual / 8.01) }
    })
  })

  test('the store, from the day on which it was counted', () => {
    const drawn = fc.record({ each: figure(0.5, 9), count: whole(1, 3) })
    holdsFor('stock-below-use', 'warning', drawn, ({ each, count }) => {
      const dates = ['2026-05-10', '2026-05-24', '2026-06-08'].slice(0, count)
      const book = (stock: number) => ({
        [EXTRA]: label({ more: `stock: ${digits(stock)} kg\nstocked: 2026-05-01\n` }),
        [SPRAYS]: dates.map((date) => dosed(`rate: ${digits(each)} kg/ha`, { date })).join(''),
      })
      return { inside: book(each * count * 0.4), outside: book(each * count * 0.4 - STEP) }
    })
  })
})

describe('copper', () => {
  const copper = (date: string, metal: number) =>
    spray({ date, products: [`product: copper, rate: ${digits(metal / 0.35)} kg/ha, for: downy`] })

  test('the most in a season', () => {
    const drawn = fc.record({ each: figure(0.1, 1.5), count: whole(1, 4) })
    holdsFor('copper-over-season', 'error', drawn, ({ each, count }) => {
      const dates = ['2026-05-10', '2026-05-24', '2026-06-08', '2026-06-23'].slice(0, count)
      const book = (limit: number) => ({
        [SITE_FILE]: site(`copper: { per_season: ${digits(limit)} kg/ha }`),
        [SPRAYS]: dates.map((date) => copper(date, each)).join(''),
      })
      return { inside: book(each * count), outside: book(each * count - STEP) }
    })
  })

  const years = (from: number, amounts: readonly number[]) =>
    Object.fromEntries(
      amounts.map((amount, index) => [
        `seasons/${from + index}/sprays.yaml`,
        copper(`${from + index}-06-01`, amount),
      ]),
    )

  test('the most over the years of a trailing window, of which the year before is none', () => {
    const drawn = fc.array(figure(0.5, 6), { minLength: 2, maxLength: 7 })
    holdsFor('copper-over-years', 'error', drawn, (amounts) => {
      const sum = amounts.reduce((all, one) => all + one, 0)
      const book = (limit: number) => ({
        // As much again in the year before would break any limit, if it were counted.
        ...years(2026 - amounts.length, [Math.min(amounts.at(-1)!, sum), ...amounts]),
        [SITE_FILE]: site(`copper: { rolling: ${digits(limit)} kg/ha, years: ${amounts.length} }`),
      })
      return { inside: book(sum), outside: book(sum - STEP) }
    })
  })

  test('a fixed block of years begins anew', () => {
    const files = (limit: string) => ({
      ...years(2023, [4, 4, 4, 4]),
      [SITE_FILE]: site(`copper: { rolling: ${limit}, years: 3, from: 2023 }`),
    })
    // 2023-2025 hold 12 kg/ha; 2026 begins the next block with 4.
    expect(findingsOf('copper-over-years', files('12 kg/ha'))).toEqual([])
    const over = findingsOf('copper-over-years', files('11.9 kg/ha'))
    expect(over.map(({ file }) => file)).toEqual(['seasons/2025/sprays.yaml'])
    const trailing = {
      ...years(2023, [4, 4, 4, 4]),
      [SITE_FILE]: site('copper: { rolling: 11.9 kg/ha, years: 3 }'),
    }
    expect(findingsOf('copper-over-years', trailing).map(({ file }) => file)).toEqual([
      'seasons/2025/sprays.yaml',
      'seasons/2026/sprays.yaml',
    ])
  })

  test('a year without records is unknown: it adds nothing, and what is known still speaks', () => {
    const files = (limit: number) => ({
      ...years(2023, [5]),
      ...years(2026, [5]),
      [SITE_FILE]: site(`copper: { rolling: ${limit} kg/ha, years: 4 }`),
    })
    expect(findingsOf('copper-over-years', files(10))).toEqual([])
    expect(findingsOf('copper-over-years', files(9.9))).toHaveLength(1)
  })
})
