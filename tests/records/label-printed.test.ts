import { describe, expect, test } from 'vitest'
import { product } from '../../src/records/kinds/product.ts'
import { readLabelDose, readUse } from '../../src/reports/note/read-label.ts'

const inFile = (key: 'rate' | 'concentration', dose: string) =>
  product().shape.uses.safeParse([{ against: 'powdery', [key]: dose }])

describe('doses as labels print them', () => {
  test.each([
    ['concentration', '5-20 g/L', { low: 5, high: 20, unit: 'g/L' }],
    ['concentration', '5–20 g/L', { low: 5, high: 20, unit: 'g/L' }],
    ['concentration', '50 g in 10 L', { low: 5, high: 5, unit: 'g/L' }],
    ['concentration', '50 g per 10 litres', { low: 5, high: 5, unit: 'g/L' }],
    ['concentration', '20 g in 10 L of water', { low: 2, high: 2, unit: 'g/L' }],
    ['concentration', '20 g to 10 L', { low: 2, high: 2, unit: 'g/L' }],
    ['concentration', '30 ml/10 litres', { low: 3, high: 3, unit: 'mL/L' }],
    ['concentration', '0.5 %', { low: 0.5, high: 0.5, unit: '%' }],
    ['rate', '2.5-5 kg/ha, at most 6 a season', { low: 2.5, high: 5, unit: 'kg/ha' }],
    ['rate', '2 L/ha (max. 4 per season)', { low: 2, high: 2, unit: 'L/ha' }],
    ['rate', '2 l/ha max 4 applications per year', { low: 2, high: 2, unit: 'L/ha' }],
    ['rate', 'up to 5 kg/ha', { low: 0, high: 5, unit: 'kg/ha' }],
    ['rate', '3 Liters/ha', { low: 3, high: 3, unit: 'L/ha' }],
    ['rate', '3 kg ha-1', { low: 3, high: 3, unit: 'kg/ha' }],
    ['rate', '3 kg per hectare', { low: 3, high: 3, unit: 'kg/ha' }],
  ] as const)('%s: %s', (key, dose, read) => {
    expect(inFile(key, dose).data?.[0]?.[key]).toEqual(read)
    expect(readLabelDose(dose).value).toHaveProperty(key)
  })
  test.each([
    ['2.5-5 kg/ha, at most 6 a season', 6],
    ['2 L/ha (max. 4 per season)', 4],
    ['2 l/ha max 4 applications per year', 4],
    ['3 kg/ha; no more than 2 treatments per year', 2],
  ])('%s: at most %i a season', (dose, most) => {
    expect(inFile('rate', dose).data?.[0]).toMatchObject({ max_per_season: most })
  })
  test('2 to 4 lb/acre, in either dash, is written as one range', () => {
    for (const dose of ['2 to 4 lb/acre', '2–4 lb/acre', '2 - 4 lb/acre'])
      expect(readUse(`powdery ${dose}`).value).toEqual({ against: 'powdery', rate: '2-4 lb/acre' })
    expect(readUse('powdery up to 5 kg/ha').value).toEqual({ against: 'powdery', rate: 'up to 5 kg/ha' })
  })
  test('the days between sprays and the number a season stand in either order, in weeks too', () => {
    const rate = '2 kg/ha, at most 6 a season'
    for (const [said, interval] of [
      ['downy 2 kg/ha every 7-14 d, at most 6 a season', '7-14 d'],
      ['downy 2 kg/ha, at most 6 a season, every 1-2 weeks', '1-2 weeks'],
      ['downy 2 kg/ha, at most 6 a season every 10 days', '10 d'],
    ] as const)
      expect(readUse(said).value).toEqual({ against: 'downy', rate, interval })
    expect(readUse('downy 2 kg/ha every 2 moons').fault).toBeDefined()
  })
  test('a decimal comma is taken where it is typed, and in a file told with the point', () => {
    expect(readLabelDose('2,5–5 kg/ha').value).toEqual({ rate: '2.5-5 kg/ha' })
    expect(readLabelDose('0,15 %').value).toEqual({ concentration: '0.15 %' })
  })
  test.each([
    ['2,5-5 kg/ha', 'write a point: `2.5-5 kg/ha`'],
    ['2-2,5 kg/ha', 'write a point: `2-2.5 kg/ha`'],
    ['2,5kg/ha', 'write a point: `2.5 kg/ha`'],
    ['1,000 L/ha', 'write a point for decimals, `1.000 L/ha`, and no mark for thousands, `1000 L/ha`'],
    ['1.5 oz per gallon', 'write `1.5 oz per US gal` or `1.5 oz per imp gal`'],
  ])('%s is refused with what to write', (dose, help) => {
    const issue = inFile('rate', dose).error?.issues[0] as { params?: { help?: string } } | undefined
    expect(issue?.params?.help).toBe(help)
  })
})
