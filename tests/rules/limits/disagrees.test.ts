import { describe, expect, test } from 'vitest'
import { findingsOf } from '../../ledger/in-memory.ts'
import { EXTRA, label, SPRAYS, spray } from './both-sides.ts'

const found = (text: string) =>
  findingsOf('product-disagrees', { [EXTRA]: text }).map(({ message }) => message)

const of = (active: string, use = 'rate: 1-6 kg/ha', more = '') =>
  label({ actives: `{ ${active} }`, use, more })

describe('product-disagrees', () => {
  test.each([
    ['weighed, in kg', label({ use: 'rate: 1-6 kg/ha' }), 0],
    ['weighed, in L', label({ use: 'rate: 1-6 L/ha' }), 1],
    ['weighed, with a content in g/L', of('name: a, content: 100 g/L'), 1],
    ['poured, in L', label({ form: 'SC', use: 'rate: 1-6 L/ha' }), 0],
    [
      'poured, in kg, with a content in g/L',
      label({ form: 'SC', use: 'rate: 1-6 kg/ha', actives: '{ name: a, content: 100 g/L }' }),
      0,
    ],
    ['poured, in kg, with a content in g/kg', label({ form: 'SC', use: 'rate: 1-6 kg/ha' }), 1],
    ['a store in kg', label({ use: 'rate: 1-6 kg/ha', more: 'stock: 4 kg\n' }), 0],
    ['a store in L', label({ use: 'rate: 1-6 kg/ha', more: 'stock: 4 L\n' }), 1],
    ['a price for a kg', label({ use: 'rate: 1-6 kg/ha', more: 'price: 4 EUR/kg\n' }), 0],
    ['a price for a litre', label({ use: 'rate: 1-6 kg/ha', more: 'price: 4 EUR/L\n' }), 1],
    ['a share, which is neither', label({ use: 'concentration: 0.1-1 %', more: 'stock: 4 L\n' }), 0],
  ])('measures: %s', (_, text, count) => expect(found(text)).toHaveLength(count))

  test.each([
    ['a tenth of it', 'content: 25 g/kg', 1],
    ['itself', 'content: 250 g/kg', 0],
    ['itself, in percent', 'content: 25 %', 0],
  ])('the number in the name is %s', (_, content, count) =>
    expect(found(of(`name: a, ${content}`).replace(/^name: .*/, 'name: Guard 250 WG'))).toHaveLength(count),
  )

  test.each([
    ['copper M01', of('name: copper hydroxide, content: 350 g/kg, group: M01'), 0],
    ['copper M1', of('name: copper, content: 350 g/kg, group: M1'), 0],
    ['copper M02', of('name: copper, content: 350 g/kg, group: M02'), 1],
    ['sulphur M02', of('name: sulfur, content: 800 g/kg, group: M02'), 0],
    ['sulphur M01', of('name: sulphur, content: 800 g/kg, group: M01'), 1],
    ['a name in another language', of('name: Kupferhydroxid, content: 350 g/kg, group: M01'), 0],
    ['copper 0.1 kg/ha', of('name: copper, content: 50 g/kg', 'rate: 1-2 kg/ha'), 0],
    ['copper 0.098 kg/ha', of('name: copper, content: 49 g/kg', 'rate: 1-2 kg/ha'), 1],
    ['copper 8 kg/ha', of('name: copper, content: 800 g/kg', 'rate: 1-10 kg/ha'), 0],
    ['copper 8.08 kg/ha', of('name: copper, content: 808 g/kg', 'rate: 1-10 kg/ha'), 1],
    ['sulphur 0.5 kg/ha', of('name: sulphur, content: 250 g/kg', 'rate: 1-2 kg/ha'), 0],
    ['sulphur 0.48 kg/ha', of('name: sulphur, content: 80 g/kg', 'rate: 1-6 kg/ha'), 1],
  ])('minerals: %s', (_, text, count) => expect(found(text)).toHaveLength(count))

  test.each([
    ['a known kind', label({ kind: 'insecticide' }), 0],
    ['a kind of its own', label({ kind: 'plant strengthener' }), 0],
    ['a misspelt kind', label({ kind: 'fungcide' }), 1],
    ['coper', of('name: coper, content: 350 g/kg, group: M01'), 1],
    ['kept from sulphur', label({ more: 'keep_apart: [ { from: sulphur, gap: 14 d } ]\n' }), 0],
    ['kept from oils', label({ more: 'keep_apart: [ { from: oils, gap: 14 d } ]\n' }), 0],
    ['kept from sulpur', label({ more: 'keep_apart: [ { from: sulpur, gap: 14 d } ]\n' }), 1],
    [
      'kept from what is not in the book',
      label({ more: 'keep_apart: [ { from: captan, gap: 14 d } ]\n' }),
      0,
    ],
  ])('words: %s', (_, text, count) => expect(found(text.replaceAll('0-900', '1-6'))).toHaveLength(count))
})

test('a flow with which no spray of the book can have been done', () => {
  const book = (flow: string, water: string) => ({
    'sprayers/mounted.yaml': `name: M\ntank: 200 L\nflow: ${flow}\nspeed: 5 km/h\n`,
    [SPRAYS]: ['2026-06-01', '2026-06-12']
      .map((date) =>
        spray({
          date,
          products: ['product: sulphur, rate: 3 kg/ha, for: powdery'],
          water,
          more: '  sprayer: mounted\n',
        }),
      )
      .join(''),
  })
  // 600 x 5 / (5 x 2) = 300 L/ha
  const speaks = (flow: string, water: string) => findingsOf('unlikely-sprayer', book(flow, water)).length
  expect([speaks('5 L/min', '240 L/ha'), speaks('5 L/min', '239 L/ha')]).toEqual([0, 1])
  expect([speaks('5 L/min', '375 L/ha'), speaks('5 L/min', '376 L/ha')]).toEqual([0, 1])
  expect(speaks('50 L/min', '300 L/ha')).toBe(1)
})

test('a measuring five years old is a warning at the sprayer', () => {
  const at = (calibrated: string) =>
    findingsOf('calibration-old', {
      'sprayers/mounted.yaml': `name: M\ntank: 200 L\nflow: 5 L/min\ncalibrated: ${calibrated}\n`,
      [SPRAYS]: spray({
        date: '2026-06-01',
        products: ['product: sulphur, rate: 3 kg/ha, for: powdery'],
        more: '  sprayer: mounted\n',
      }),
    }).map(({ level, file }) => `${level} ${file}`)
  expect(at('2021-05-28')).toEqual(['hint seasons/2026/sprays.yaml'])
  expect(at('2021-05-26')).toEqual(['warning sprayers/mounted.yaml'])
})

test('years of a copper limit are whole: half a year never reaches the arithmetic', () => {
  const site = (copper: string) => ({
    'vineyard.yaml': `name: T\nlatitude: 51.5\ntimezone: Europe/Berlin\nlimits: { copper: { ${copper} } }\n`,
  })
  expect(() => findingsOf('copper-over-years', site('rolling: 28 kg/ha, years: 7.5'))).toThrow('wrong-type')
  expect(() => findingsOf('copper-over-years', site('rolling: 28 kg/ha, years: 7, from: 2019.5'))).toThrow(
    'wrong-type',
  )
})
