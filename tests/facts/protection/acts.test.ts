import { describe, expect, test } from 'vitest'
import { actionLimits, curesHours } from '../../../src/facts/protection/acts.ts'
import { product as schema } from '../../../src/records/kinds/product.ts'

const read = (active: object, more: object = {}, interval = '7-14 d') =>
  schema().parse({
    name: 'Extra',
    form: 'WG',
    kind: 'fungicide',
    actives: [{ name: 'testazole', ...active }],
    uses: [{ against: 'powdery', rate: '2 kg/ha', interval }],
    ...more,
  })
const SODA = { name: 'potassium bicarbonate', group: 'NC' }

describe('whether a product prevents new infections', () => {
  const lasting = (active: object, more: object = {}) => actionLimits(read(active, more), 'powdery').lasting
  test.each([
    ['copper', { group: 'M01' }, true],
    ['sulphur by its name', { name: 'sulphur' }, true],
    ['bicarbonate', SODA, false],
    ['bicarbonate by its name', { name: 'sodium hydrogen carbonate' }, false],
    ['not classified', { group: 'NC' }, false],
    ['oil', { name: 'mineral oil' }, false],
    ['a biological', { group: 'BM02' }, true],
    ['any other group', { group: '3' }, null],
    ['nothing said', {}, null],
  ])('%s, where the label says nothing', (_, active, expected) => expect(lasting(active)).toBe(expected))
  test('the label decides', () => {
    expect(lasting(SODA, { acts: ['protectant', 'contact'] })).toBe(true)
    expect(actionLimits(read({ group: 'M02' }, { systemic: 'yes' }), 'powdery').systemic).toBe(true)
  })
})

describe('what ends protection', () => {
  const limits = (active: object, more: object = {}, interval?: string) =>
    actionLimits(read(active, more, interval), 'powdery')
  test('a product that acts on existing infection lasts until the first rain, two days at most', () => {
    expect(limits(SODA)).toEqual({
      ...{ protectsDays: 2, rainFastHours: 2, washOff: 0.2, systemic: false, lasting: false },
    })
    expect(limits({ group: '50' }, { acts: 'curative' })).toMatchObject({ lasting: false, protectsDays: 2 })
  })
  test('a contact protectant withstands 25 mm, unless its label gives another figure', () => {
    expect(limits({ group: 'M02' })).toMatchObject({ protectsDays: null, washOff: 25, lasting: true })
    expect(limits({ group: 'M02' }, { rain: { washed_off: '40 mm', fast: '4 h' } })).toMatchObject({
      washOff: 40,
      rainFastHours: 4,
    })
    expect(limits({ group: '7' }, { acts: ['protectant', 'contact', 'systemic'] }).washOff).toBeNull()
  })
  test('a biological lasts for the short end of its interval, a week at most', () => {
    expect(limits({ group: 'BM02' }, {}, '5-10 d').protectsDays).toBe(5)
    expect(limits({ group: 'BM02' }, {}, '8-10 d').protectsDays).toBe(7)
    expect(limits({ group: 'BM02' }, { protects: '10 d' }).protectsDays).toBe(10)
  })
  test('for others only the label decides, except the time to dry', () =>
    expect(limits({ group: '3' })).toEqual({
      ...{ protectsDays: null, rainFastHours: 2, washOff: null, systemic: false, lasting: null },
    }))
})

test('a product is curative only where its label gives hours', () => {
  expect(curesHours(read({ group: '3' }, { cures: '48 h' }))).toBe(48)
  expect(curesHours(read({ group: '3' }, { cures: '48 h', acts: ['curative', 'systemic'] }))).toBe(48)
  expect(curesHours(read({ group: '3' }, { cures: '48 h', acts: 'protectant' }))).toBeNull()
  expect(curesHours(read({ group: '3' }))).toBeNull()
})
