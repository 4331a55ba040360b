import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it, test } from 'vitest'
import { makeLedger } from '../ledger/make.ts'
import { run, runJson } from './run.ts'

const read = (root: string, file: string) => readFileSync(join(root, file), 'utf8')
const PRODUCT = [
  '--name',
  'Sulphur X',
  '--form',
  'WG',
  '--kind',
  'fungicide',
  '--active',
  'sulphur 800 g/kg M02',
]

describe('a new standing record by options', () => {
  it('is written as a block by its number of vines, with its variety as said', () => {
    const root = makeLedger()
    const typed = [
      '--name',
      'Süd Hang',
      '--variety',
      'Pal',
      '--vines',
      '180',
      '--row-spacing',
      '2m',
      '--vine-spacing',
      '1.2m',
    ]
    const { status, stdout } = run(['note', 'block', '--ledger', root, ...typed])
    expect(status).toBe(0)
    expect(stdout).toContain('Written: blocks/sud-hang.yaml')
    expect(read(root, 'blocks/sud-hang.yaml')).toContain(
      'name: Süd Hang\nvariety: palava\nrow_spacing: 2 m\nvine_spacing: 1.2 m\nvines: 180\n',
    )
    expect(run(['check', '--ledger', root]).status).toBe(0)
  })

  it('is written as a product with the doses in the units that its label prints', () => {
    const root = makeLedger()
    const uses = ['--use', 'powdery mildew 50 g in 10 L every 7-14 d', '--use', 'downy 2-4 kg/ha']
    const typed = [...PRODUCT, ...uses, '--before-harvest', '21 d', '--re-entry', 'until dry']
    const { status, stdout } = run(['note', 'product', '--ledger', root, ...typed])
    expect(status).toBe(0)
    expect(stdout).toContain('The label decides.')
    expect(read(root, 'products/sulphur-x.yaml')).toContain(
      'uses:\n  - { against: powdery, concentration: 50 g in 10 L, interval: 7-14 d }\n  - { against: downy, rate: 2-4 kg/ha }\nbefore_harvest: 21 d\nre_entry: until dry\n',
    )
    expect(run(['check', '--ledger', root]).status).toBe(0)
  })

  it('is given as data with --json', () => {
    const root = makeLedger()
    const { json } = runJson(['note', 'sprayer', '--ledger', root, '--name', 'Knapsack', '--tank', '15L'])
    expect(json.data).toMatchObject({ file: 'sprayers/knapsack.yaml', written: true })
    expect(json.data.entry.tank).toEqual({ value: 15, unit: 'L' })
  })

  it('is only shown with --dry-run', () => {
    const root = makeLedger()
    const { status, stdout } = run([
      'note',
      'variety',
      '--ledger',
      root,
      '--name',
      'Solaris',
      '--colour',
      'white',
      '--dry-run',
    ])
    expect(status).toBe(0)
    expect(stdout).toContain('Not written yet: varieties/solaris.yaml')
    expect(existsSync(join(root, 'varieties/solaris.yaml'))).toBe(false)
  })
})

test.each([
  [
    [
      'block',
      '--name',
      'Upper',
      '--variety',
      'palava',
      '--area',
      '1ha',
      '--row-spacing',
      '2m',
      '--vine-spacing',
      '1m',
    ],
    'there is a block `upper` already',
  ],
  [
    ['block', '--name', 'New', '--variety', 'palava', '--row-spacing', '2m', '--vine-spacing', '1m'],
    'write `vines: 180`',
  ],
  [
    [
      'block',
      '--name',
      'New',
      '--variety',
      'riesling',
      '--vines',
      '9',
      '--row-spacing',
      '2m',
      '--vine-spacing',
      '1m',
    ],
    'there is no variety `riesling`',
  ],
  [['block', '--name', 'New', '--tank', '15L'], '--tank is no field of a block'],
  [['block', '--block', 'upper'], 'write --name NAME'],
  [['variety', '--name', 'New', '--colour', 'blue'], 'write white, red, rose, grey'],
  [['variety', '--name', '!!', '--colour', 'red'], 'the name has no letter'],
  [['sprayer', '--name', 'New', '--tank', '15'], 'write the unit'],
  [['sprayer', '--name', 'New'], '--tank is missing'],
  [['product', ...PRODUCT], '--use is missing'],
  [['product', ...PRODUCT, '--use', 'powdery'], 'write it as `powdery 2-6 kg/ha every 7-14 d`'],
  [['product', ...PRODUCT, '--use', 'powdery 5'], 'write the dose as printed'],
  [
    [
      'product',
      '--name',
      'P',
      '--form',
      'WG',
      '--kind',
      'oil',
      '--active',
      '800 g/kg',
      '--use',
      'powdery 2 kg/ha',
    ],
    'names no substance',
  ],
  [['product', '--name', 'P', '--form', 'WG', '--active', 'WDG'], '`WDG` is the form of a product'],
  [['spray', '--tank', '15L'], '--tank is no field of a spray entry'],
])('note %j says what to write, and writes nothing', (typed, message) => {
  const root = makeLedger()
  const { status, stdout, stderr } = run(['note', ...typed, '--ledger', root])
  expect(status).not.toBe(0)
  expect(stdout + stderr).toContain(message)
  expect(stdout + stderr).not.toContain('Written')
})
