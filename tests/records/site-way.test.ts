import { describe, expect, test } from 'vitest'
import { readRange } from '../../src/records/quantity.ts'
import { dependsOnSite, inSiteUnits } from '../../src/records/typed/site-way.ts'

describe('units whose size a country decides', () => {
  test.each([
    ['25 gal/ac', '25 US gal/acre', '25 imp gal/acre'],
    ['3 lb/ac', '3 lb/acre', '3 lb/acre'],
    ['12 Gallons', '12 US gal', '12 imp gal'],
    ['1.5 oz per gallon', '1.5 oz per US gal', '1.5 oz per imp gal'],
    ['2 pints', '2 US pt', '2 imp pt'],
    ['4 fl. oz/ac', '4 US fl oz/acre', '4 imp fl oz/acre'],
    ['2 qts', '2 US qt', '2 qts'],
    ['1 ton', '1 US ton', '1 ton'],
    ['2 US gal', '2 US gal', '2 US gal'],
    ['2 imp gal', '2 imp gal', '2 imp gal'],
    ['3 kg/ha', '3 kg/ha', '3 kg/ha'],
  ])('%s', (text, us, imperial) => {
    expect(inSiteUnits(text, 'us')).toBe(us)
    expect(inSiteUnits(text, 'imperial')).toBe(imperial)
    expect(inSiteUnits(text, 'metric')).toBe(text)
    expect(readRange(us, ['L', 'L/ha', 'kg/ha', 'kg', 'g/L']).fault).toBeUndefined()
  })
  test('a word that only holds such a name is none', () => {
    for (const text of ['galvanised', 'upright', 'Tonic 3', '2-ac', 'acre', 'options'])
      expect(inSiteUnits(text, 'us')).toBe(text)
  })
  test.each([
    ['date: 05/06/2026', true],
    ['date: 5.6.26', true],
    ['water: 25 gal/ac', true],
    ['date: 2026-06-05', false],
    ['time: 18:40-20:05', false],
    ['rate: 3 kg/ha', false],
  ])('%s depends on the site: %s', (text, depends) => {
    expect(dependsOnSite(text)).toBe(depends)
  })
})

describe('where nobody says whose they are', () => {
  test.each([
    ['25 gal/ac', ['L/ha'], 'write `25 US gal/acre` or `25 imp gal/acre`'],
    ['3 lb/ac', ['kg/ha'], 'write `3 lb/acre`'],
    ['2 qts', ['L'], 'write `2 US qt`'],
  ])('%s is refused with what to write', (text, accepts, help) => {
    expect(readRange(text, accepts).fault).toMatchObject({ name: 'ambiguous-unit', help })
  })
})
