import { expect, test } from 'vitest'
import { inNames } from '../../src/facts/names.ts'

const names = {
  site: '',
  blocks: new Map([
    ['brook-rows', 'Brook Rows'],
    ['6', 'Six Acre'],
    ['2-6', 'Rows Two'],
    ['ha', 'Ha-Ha'],
    ['water', 'Water Side'],
  ]),
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
  [
    'over-rate',
    '9 kg/ha of copper, over 6 kg/ha in 300 L of water (2-6 kg/ha)',
    '9 kg/ha of Tansy Copper 30, over 6 kg/ha in 300 L of water (2-6 kg/ha)',
  ],
  ['strong', '8 g/L of bicarbonate: bicarbonate burns', '8 g/L of Bicarbonate SP: bicarbonate burns'],
])(
  'a finding on a page has names for ids, once, but not in paths nor for the metal: %s',
  (name, message, on) => {
    expect(said(name, message)).toBe(on)
  },
)
