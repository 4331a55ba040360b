import { expect, test } from 'vitest'
import { inNames } from '../../src/facts/names.ts'

const names = {
  site: '',
  blocks: new Map([['brook-rows', 'Brook Rows']]),
  products: new Map([
    ['copper', 'Tansy Copper 30'],
    ['bicarbonate', 'Bicarbonate SP'],
  ]),
}
const said = (name: string, message: string) => inNames({ name, message }, names)

test.each([
  [
    'over-rate',
    '3 kg/ha of copper (products/copper.yaml:9), not copper-hydroxide',
    '3 kg/ha of Tansy Copper 30 (products/copper.yaml:9), not copper-hydroxide',
  ],
  [
    'copper-over-season',
    '4.2 kg/ha of copper on brook-rows, of 4 kg/ha',
    '4.2 kg/ha of copper on Brook Rows, of 4 kg/ha',
  ],
  ['strong', '8 g/L of bicarbonate: bicarbonate burns', '8 g/L of Bicarbonate SP: bicarbonate burns'],
])(
  'a finding on a page has names for ids, once, but not in paths nor for the metal: %s',
  (name, message, on) => {
    expect(said(name, message)).toBe(on)
  },
)
