import { describe, expect, test } from 'vitest'
import { areaOf, treatedAreaOf, vinesOf } from '../../../src/facts/block-size.ts'
import { doseForms } from '../../../src/facts/spraying/applications.ts'
import { type Files, label } from '../../rules/limits/both-sides.ts'
import { applied, bookOf } from '../book.ts'

const blocks = (files: Files = {}) => bookOf('', { 'seasons/2026/sprays.yaml': null, ...files }).blocks
const upper = (text: string) =>
  blocks({
    'blocks/upper.yaml': `name: U\nvariety: palava\nrow_spacing: 2 m\nvine_spacing: 1.25 m\n${text}\n`,
  }).get('upper')!

test('the area is the recorded one, else that of the rows', () => {
  expect(areaOf(upper('rows: 20\nrow_length: 100 m'))).toBeCloseTo(0.4)
  expect(areaOf(upper('rows: 20\nrow_length: 100 m\narea: 0.5 ha'))).toBe(0.5)
})

test('vines are counted along the rows, else from area and spacing, less the missing ones', () => {
  expect(vinesOf(upper('rows: 20\nrow_length: 100 m\nmissing: 30'))).toEqual({ planted: 1600, alive: 1570 })
  // 0.5 ha / (2 m x 1.25 m): rows of unknown length, or a length of unknown rows, say nothing.
  expect(vinesOf(upper('area: 0.5 ha'))).toEqual({ planted: 2000, alive: 2000 })
  expect(vinesOf(upper('area: 0.5 ha\nrows: 9'))).toEqual({ planted: 2000, alive: 2000 })
  expect(vinesOf(upper('area: 0.5 ha\nrow_length: 9 m'))).toEqual({ planted: 2000, alive: 2000 })
  expect(vinesOf(upper('area: 0.5 ha\nmissing: 2001')).alive).toBe(0)
  // Counted rows come before a recorded area.
  expect(vinesOf(upper('area: 0.5 ha\nrows: 20\nrow_length: 100 m')).planted).toBe(1600)
})

test('a spray treats the whole block, a share of it, or the named rows that exist', () => {
  const block = blocks().get('upper')!
  const rows = (low: number, high: number) => treatedAreaOf({ rows: { low, high, unit: '' } }, block)
  expect(treatedAreaOf({}, block)).toBeCloseTo(0.4)
  expect(treatedAreaOf({ share: 25 }, block)).toBeCloseTo(0.1)
  expect(rows(1, 20)).toBeCloseTo(0.4)
  expect(rows(3, 7)).toBeCloseTo(0.1)
  expect(rows(16, 40)).toBeCloseTo(0.1)
  expect(rows(21, 40)).toBe(0)
  expect(treatedAreaOf({ rows: { low: 1, high: 2, unit: '' } }, blocks().get('wide')!)).toBeNull()
})

const EXTRA = (text: Parameters<typeof label>[0]) => ({ 'products/extra.yaml': label(text) })
const figures = (...of: Parameters<typeof applied>) =>
  applied(...of).map(({ perHa, concentration, total, waterPerHa, area, share, missing }) => ({
    perHa: perHa && `${Number(perHa.value.toPrecision(6))} ${perHa.unit}`,
    concentration: concentration && `${Number(concentration.value.toPrecision(6))} ${concentration.unit}`,
    total: total && `${Number(total.value.toPrecision(6))} ${total.unit}`,
    waterPerHa: waterPerHa && Number(waterPerHa.toPrecision(6)),
    area,
    share,
    missing,
  }))

describe('what a recorded dose amounts to', () => {
  test('for ground area, in all, and in the spray', () => {
    const three = { perHa: '3 kg/ha', concentration: '10 g/L', total: '1.2 kg', waterPerHa: 300 }
    expect(figures(['product: sulphur, rate: 3 kg/ha'])).toMatchObject([three])
    expect(figures(['product: sulphur, amount: 1.2 kg'], 'water: 120 L')).toMatchObject([three])
    expect(figures(['product: sulphur, concentration: 10 g/L'])).toMatchObject([three])
    expect(figures(['product: sulphur, concentration: 1 %'])).toMatchObject([three])
    expect(figures(['product: extra, rate: 3 L/ha'])).toMatchObject([
      { perHa: '3 L/ha', concentration: '10 mL/L', total: '1.2 L' },
    ])
    expect(figures(['product: extra, concentration: 10 mL/L'])).toMatchObject([{ perHa: '3 L/ha' }])
  })

  test('a percentage is of mass for a weighed product, of volume for a poured one', () => {
    const of = (form: string) =>
      figures(['product: extra, concentration: 1 %'], undefined, undefined, EXTRA({ form }))[0]!.perHa
    // By the names of CropLife International, Technical Monograph 2, 7th edition, 2017.
    const solid = 'DP EG EP GR GW PA RB SG SP ST TB TC WG WP WT'.split(' ')
    const fluid = 'AE AL CS DC EC EO EW GL ME OD OF OL SC SE SL SO SU TK UL VP XX ZC ZE ZW'.split(' ')
    for (const form of solid) expect([form, of(form)]).toEqual([form, '3 kg/ha'])
    for (const form of fluid) expect([form, of(form)]).toEqual([form, '3 L/ha'])
  })

  test('on leaf wall: 1 kg on 10 000 m2, of which rows 2 m apart and 1.2 m high have 12 000 for a hectare', () => {
    expect(figures(['product: sulphur, rate: 1 kg/ha leaf wall'])).toMatchObject([
      { perHa: '1.2 kg/ha', total: '0.48 kg', concentration: '4 g/L' },
    ])
    expect(figures(['product: sulphur, rate: 1 kg/ha leaf wall'], undefined, 'lower')).toMatchObject([
      { perHa: null, total: null, missing: 'the height of the canopy of the block', waterPerHa: 300 },
    ])
  })

  test('on several blocks, the amount is shared out by their areas', () => {
    expect(figures(['product: sulphur, amount: 1.5 kg'], 'water: 150 L', 'upper, lower')).toMatchObject([
      { perHa: '3 kg/ha', total: '1.2 kg', area: 0.4, share: 1, waterPerHa: 300 },
      { perHa: '3 kg/ha', total: '0.3 kg', area: 0.1, share: 1, waterPerHa: 300 },
    ])
  })

  test('on a part of the block', () => {
    expect(figures(['product: sulphur, amount: 0.3 kg'], 'rows: 1-5, water: 30 L')).toMatchObject([
      { perHa: '3 kg/ha', total: '0.3 kg', area: 0.1, share: 0.25 },
    ])
  })

  test('in a block without a row count all is unknown except water per ground area, with the reason', () => {
    const missing = 'the number of rows of the block'
    const nothing = { perHa: null, concentration: null, total: null, share: null, area: null, missing }
    expect(figures(['product: sulphur, rate: 3 kg/ha'], 'rows: 1-5, water: 300 L/ha', 'wide')).toMatchObject([
      { ...nothing, waterPerHa: 300 },
    ])
    // The area of the known block is known; its share of the amount is not.
    expect(
      figures(['product: sulphur, rate: 3 kg/ha'], 'rows: 1-5, water: 30 L', 'upper, wide'),
    ).toMatchObject([{ perHa: null, total: null, area: 0.1, waterPerHa: null, missing }, nothing])
  })

  test('rows that the block does not have are not treated, so there is no dose', () => {
    for (const dose of ['amount: 1 kg', 'rate: 3 kg/ha', 'concentration: 3 g/L'])
      expect(figures([`product: sulphur, ${dose}`], 'rows: 21-40, water: 30 L')).toEqual([
        {
          perHa: null,
          concentration: null,
          total: null,
          waterPerHa: null,
          area: 0,
          share: 0,
          missing: 'a row of the block among those named',
        },
      ])
    // Next to a block that has those rows, that block gets the whole amount.
    expect(
      figures(['product: sulphur, amount: 0.3 kg'], 'rows: 11-20, water: 30 L', 'upper, lower'),
    ).toMatchObject([
      { perHa: '1.5 kg/ha', total: '0.3 kg', waterPerHa: 150 },
      { total: '0 kg', area: 0 },
    ])
  })

  test('without water there is no concentration', () => {
    expect(figures(['product: sulphur, rate: 3 kg/ha'], '')).toMatchObject([
      { perHa: '3 kg/ha', concentration: null, total: '1.2 kg', waterPerHa: null, missing: null },
    ])
  })

  test('a concentrate carries the dose of the dilute volume; a wetter or a fixed dose does not', () => {
    const of = (text: Parameters<typeof label>[0]) =>
      figures(
        ['product: extra, concentration: 2 g/L'],
        'water: 300 L/ha, dilute: 900 L/ha',
        'upper',
        EXTRA(text),
      )
    expect(of({})).toMatchObject([{ perHa: '1.8 kg/ha', concentration: '6 g/L' }])
    expect(of({ kind: 'adjuvant' })).toMatchObject([{ perHa: '0.6 kg/ha', concentration: '2 g/L' }])
    expect(of({ use: 'concentration: 1-2 g/L, dilute: no' })).toMatchObject([{ perHa: '0.6 kg/ha' }])
    expect(of({ use: 'concentration: 1-2 g/L, dilute: yes' })).toMatchObject([{ perHa: '1.8 kg/ha' }])
    const two = 'concentration: 1-2 g/L }\n  - { against: downy, concentration: 1-2 g/L, dilute: no'
    expect(of({ use: two })).toMatchObject([{ perHa: '0.6 kg/ha' }])
  })

  test('targets are the recorded ones, else each target of the label, once', () => {
    const use =
      'rate: 1-2 kg/ha }\n  - { against: downy, rate: 1-2 kg/ha }\n  - { against: downy, rate: 1 kg/ha'
    const of = (text: string) =>
      applied([text], undefined, undefined, EXTRA({ use })).map((one) => one.targets)
    expect(of('product: extra, rate: 1 kg/ha, for: mites')).toEqual([['mites']])
    expect(of('product: extra, rate: 1 kg/ha')).toEqual([['powdery', 'downy']])
  })
})

describe('the forms in which a label may limit a dose', () => {
  const forms = (...of: Parameters<typeof applied>) =>
    applied(...of)
      .map(doseForms)
      .map(({ perHa, perLeafWall, concentration }) =>
        [perHa, perLeafWall, concentration].map(
          (one) => one && `${Number(one.value.toPrecision(6))} ${one.unit}`,
        ),
      )
  test('weighed and poured', () => {
    expect(forms(['product: sulphur, rate: 3 kg/ha'])).toEqual([['3 kg/ha', '2.5 kg/ha leaf wall', '10 g/L']])
    expect(forms(['product: extra, rate: 3 L/ha'])).toEqual([['3 L/ha', '2.5 L/ha leaf wall', '10 mL/L']])
  })
  test('missing figures are null', () => {
    expect(forms(['product: sulphur, rate: 3 kg/ha'], '', 'lower')).toEqual([['3 kg/ha', null, null]])
    expect(forms(['product: sulphur, rate: 3 kg/ha'], 'rows: 1-2', 'wide')).toEqual([[null, null, null]])
  })
  test('a concentrate is compared by the dilute volume, a wetter by the volume applied', () => {
    const more = 'water: 300 L/ha, dilute: 600 L/ha'
    expect(forms(['product: sulphur, rate: 3 kg/ha'], more)[0]![2]).toBe('5 g/L')
    expect(forms(['product: extra, rate: 3 L/ha'], more, 'upper', EXTRA({ kind: 'adjuvant' }))[0]![2]).toBe(
      '10 mL/L',
    )
  })
})
