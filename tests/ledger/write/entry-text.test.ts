import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { entryText, type PlainEntry } from '../../../src/ledger/write/entry-text.ts'
import { toPlain } from '../../../src/ledger/yaml/plain.ts'
import { readYaml } from '../../../src/ledger/yaml/read-yaml.ts'

const SPRAY: PlainEntry = {
  date: '2026-06-14',
  time: '18:40-20:05',
  blocks: ['top-terrace'],
  sprayer: 'mounted',
  water: '300 L/ha',
  products: [{ product: 'sulphur-80', rate: '3 kg/ha', for: 'powdery' }],
  stage: 65,
  weather: { wind: '1.8 m/s', from: 'SW', temperature: '17 C', humidity: '70 %' },
  operator: 'R.',
  note: 'second side of row 12 missed, went back',
}

const back = (text: string) => {
  const { node, findings } = readYaml({ file: 'x.yaml', text })
  expect(findings).toEqual([])
  return toPlain(node!)
}

describe('entryText', () => {
  it('writes a spray as the format shows it', () => {
    expect(entryText(SPRAY)).toBe(`date: 2026-06-14
time: 18:40-20:05
blocks: [top-terrace]
sprayer: mounted
water: 300 L/ha
products:
  - { product: sulphur-80, rate: 3 kg/ha, for: powdery }
stage: 65
weather: { wind: 1.8 m/s, from: SW, temperature: 17 C, humidity: 70 % }
operator: R.
note: second side of row 12 missed, went back
`)
  })

  it('names the schema for editors on its first line', () => {
    const [first, second] = entryText(SPRAY, '../spray.json').split('\n')
    expect(first).toBe('# yaml-language-server: $schema=../spray.json')
    expect(second).toBe('date: 2026-06-14')
  })

  it('quotes text that YAML would read as something else', () => {
    for (const note of [
      'no: yes # 42',
      '007',
      'true',
      '~',
      '- a',
      "it's",
      '[x',
      '2.5',
      '%YAML',
      'a\nb',
      ' a ',
      '{',
      '',
    ]) {
      expect(back(entryText({ note })), note).toEqual({ note })
    }
  })

  it('reads back unchanged, whatever is written', () => {
    const text = fc.string({ unit: 'grapheme', maxLength: 60 }).filter((one) => !FORBIDDEN.test(one))
    const word = fc
      .stringMatching(/^[a-z][a-z_]{0,11}$/)
      .filter((one) => !['constructor', 'prototype'].includes(one))
    const scalar = fc.oneof(
      text,
      fc
        .double({ noNaN: true, noDefaultInfinity: true, min: -1e9, max: 1e9 })
        .map((one) => Number(one.toFixed(3)) + 0),
      fc.boolean(),
    )
    const flat = fc.dictionary(word, scalar, { minKeys: 1, maxKeys: 5, noNullPrototype: true })
    const value = fc.oneof(
      scalar,
      fc.array(scalar, { minLength: 1, maxLength: 5 }),
      flat,
      fc.array(flat, { minLength: 1, maxLength: 3 }),
    )
    fc.assert(
      fc.property(fc.dictionary(word, value, { minKeys: 1, maxKeys: 8, noNullPrototype: true }), (entry) => {
        expect(back(entryText(entry as PlainEntry))).toEqual(entry)
      }),
      { numRuns: 1000 },
    )
  })
})

/** Characters that no file of a ledger may hold; reading refuses them. */
const FORBIDDEN = /[\0-\x08\x0b\x0c\x0d\x0e-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ufeff]/
