import { describe, expect, test } from 'vitest'
import { dangerJudge } from '../../../src/facts/danger/danger.ts'
import { inputOf, judged, STAGES, stage, WALKS, WEATHER, walk, weather } from './book.ts'

const BLOOM = stage('2026-05-10', 13) + stage('2026-06-05', 57) + stage('2026-06-14', 65)

const at = (files: Record<string, string | null>, date: string) => judged(files, [date], date)[0]!

describe('powdery', () => {
  test('in bloom fruit is in danger whatever the index; a resistant variety lowers the class by one', () => {
    const files = { [WEATHER]: weather(), [STAGES]: BLOOM }
    expect(at(files, '2026-06-16').powdery).toMatchObject({ level: 'high', critical: 'in', tissue: 'both' })
    const hardy = 'name: Palava\ncolour: white\nsusceptibility: { powdery: low }\n'
    expect(at({ ...files, 'varieties/palava.yaml': hardy }, '2026-06-16').powdery.level).toBe('moderate')
  })

  test('five weeks after bloom only leaves can be infected, and a cool dry week is low', () => {
    const files = { [WEATHER]: weather(), [STAGES]: BLOOM + stage('2026-07-05', 75) }
    expect(at(files, '2026-07-19').powdery).toMatchObject({ level: 'low', tissue: 'leaf' })
  })

  test('without a noted stage June is never low, and the assumption is named', () => {
    const { powdery } = at({ [WEATHER]: weather() }, '2026-06-16')
    expect(powdery.level).toBe('moderate')
    expect(powdery.reasons.join()).toContain('usual calendar')
    expect(powdery.unknown).toContain('growth stage: none noted')
  })

  test('any find in the critical period asks for action until a round finds none', () => {
    const found = walk('2026-06-18', 'powdery: { bunches: 1 }')
    const variety = 'name: Palava\ncolour: white\nsusceptibility: { powdery: low }\n'
    const on = (date: string, later = '') => {
      const files = { [WEATHER]: weather(), [STAGES]: BLOOM, [WALKS]: found + later }
      return at({ ...files, 'varieties/palava.yaml': variety }, date).powdery
    }
    const seen = expect.stringMatching(/^powdery on 1 of 100 bunches on 18 Jun/)
    expect(on('2026-06-20')).toMatchObject({ level: 'high', reasons: expect.arrayContaining([seen]) })
    const clean = on('2026-06-26', walk('2026-06-25', 'powdery: { bunches: 0 }'))
    expect(clean.level).toBe('moderate')
    expect(clean.reasons).not.toContainEqual(seen)
    const few = on('2026-06-26', walk('2026-06-25', 'powdery: { bunches: 0 }', 'bunches: 20'))
    expect(few).toMatchObject({ level: 'high', reasons: expect.arrayContaining([seen]) })
  })
})

describe('downy', () => {
  const warmNights = weather((date, hour) =>
    date >= '2026-06-25' && (hour < 7 || hour >= 21) ? { warm: 15, humid: 99, wet: 60 } : {},
  )
  const rain = (day: string) =>
    weather((date, hour) =>
      date === day && hour >= 6 && hour < 20 ? { warm: 16, humid: 98, rain: 1.2, wet: 60 } : {},
    )

  test('oil spots with a suitable night are high; the same nights without spots are low', () => {
    const spots = {
      [WEATHER]: warmNights,
      [STAGES]: BLOOM,
      [WALKS]: walk('2026-07-01', 'downy: { leaves: 12 }'),
    }
    expect(at(spots, '2026-07-08').downy.level).toBe('high')
    expect(at({ ...spots, [WALKS]: null }, '2026-07-08').downy.level).toBe('low')
  })

  test('after veraison oil spots still count for leaves only, until a round finds none', () => {
    const grown = { [WEATHER]: warmNights, [STAGES]: BLOOM + stage('2026-07-05', 81) }
    const found = walk('2026-07-10', 'downy: { leaves: 12 }')
    expect(at({ ...grown, [WALKS]: found }, '2026-07-18').downy).toMatchObject({
      level: 'high',
      tissue: 'leaf',
    })
    const clean = walk('2026-07-16', 'downy: { leaves: 0 }')
    for (const walks of [null, found + clean])
      expect(at({ ...grown, [WALKS]: walks }, '2026-07-18').downy).toMatchObject({
        level: 'low',
        tissue: null,
      })
  })

  test('a rain that allows infection after bloom is high, and for leaves only moderate at most', () => {
    const early = { [WEATHER]: rain('2026-06-22'), [STAGES]: BLOOM }
    expect(at(early, '2026-06-25').downy).toMatchObject({ level: 'high', tissue: 'both' })
    const late = { [WEATHER]: rain('2026-07-17'), [STAGES]: BLOOM + stage('2026-07-10', 75) }
    expect(at(late, '2026-07-20').downy).toMatchObject({ level: 'moderate', tissue: 'leaf' })
  })

  test('without weather it is unknown while fruit is at risk', () => {
    const { downy, powdery } = at({ [STAGES]: BLOOM }, '2026-06-16')
    expect(downy.level).toBe('unknown')
    expect(powdery.level).toBe('high')
    expect(downy.unknown[0]).toBe('weather')
  })

  test('daily weather is judged by the three-tens rule', () => {
    const days = Array.from({ length: 40 }, (_, day) => {
      const date = new Date(Date.UTC(2026, 4, 20 + day)).toISOString().slice(0, 10)
      return `${date},9,19,${date === '2026-06-20' ? 12 : 0}`
    })
    const files = { [WEATHER]: `date,min_c,max_c,rain_mm\n${days.join('\n')}\n`, [STAGES]: BLOOM }
    expect(at(files, '2026-06-22').downy.level).toBe('high')
    expect(at(files, '2026-06-22').botrytis.level).toBe('unknown')
    expect(at(files, '2026-06-15').downy.level).toBe('low')
  })
})

describe('botrytis', () => {
  const cold = weather((date) =>
    date >= '2026-06-14' && date <= '2026-06-15' ? { warm: 11, humid: 97, wet: 60 } : {},
  )

  test('48 wet hours at 11 °C in bloom are not low; between the botrytis timings nothing can be infected', () => {
    const { botrytis } = at({ [WEATHER]: cold, [STAGES]: BLOOM }, '2026-06-16')
    expect(['moderate', 'high']).toContain(botrytis.level)
    expect(botrytis.reasons[0]).toContain('taken as 12 °C')
    expect(at({ [WEATHER]: cold, [STAGES]: BLOOM }, '2026-07-05').botrytis).toMatchObject({
      level: 'low',
      tissue: null,
    })
  })
})

describe('which diseases are judged', () => {
  const diseases = (files: Record<string, string | null>) => dangerJudge(inputOf(files)).diseases

  test('the usual three, those that the site names, and those with a product, a find or a threshold', () => {
    const site = 'name: Test Rows\nlatitude: 51.5\nlongitude: 7.1\ntimezone: Europe/Berlin\n'
    expect(diseases({})).toEqual(['powdery', 'downy', 'botrytis'])
    expect(diseases({ 'vineyard.yaml': `${site}diseases: [powdery]\n` })).toEqual(['powdery', 'downy'])
    expect(diseases({ [WALKS]: walk('2026-06-20', 'black-rot: { leaves: 0 }') })).not.toContain('black-rot')
    expect(diseases({ [WALKS]: walk('2026-06-20', 'black-rot: { leaves: 1 }') })).toContain('black-rot')
    expect(diseases({ 'vineyard.yaml': `${site}thresholds: { black-rot: 2 % }\n` })).toContain('black-rot')
  })
})
