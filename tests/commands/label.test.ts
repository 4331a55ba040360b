import { describe, expect, test } from 'vitest'
import { makeLedger, SITE } from '../ledger/make.ts'
import { run, runJson } from './run.ts'

const PRODUCT = SITE['products/sulphur.yaml']!
const dated = (until: string, read: string) =>
  PRODUCT.replace('2029-12-31', until).replace('placeholder, 2026-01', `invented, ${read}`)

const root = makeLedger({
  'products/copper.yaml': null,
  'products/sulphur.yaml': dated('2026-05-31', '2026-01'),
  'products/second.yaml': dated('2026-08-29', '2026-01'),
  'products/third.yaml': dated('2029-12-31', '2025-05-31'),
  'products/fourth.yaml': dated('2029-12-31', '2026-01').replace('re_entry: 24 h\n', ''),
  'products/fifth.yaml': dated('2029-12-31', '2026-01'),
  'seasons/2026/sprays/a.yaml':
    'date: 2026-05-14\nblocks: [upper]\nwater: 300 L/ha\nproducts:\n  - { product: third, rate: 3 kg/ha, for: powdery }\n',
})
const on = (day: string) => ['label', '--ledger', root, '--as-of', day]

describe('label', () => {
  test('lapsed, lapsing within 90 days, read over a year ago, lacking something, sound: in this order', () => {
    const { status, json } = runJson(on('2026-06-01'))
    const states = json.data.products.map((one: Record<string, unknown>) => [
      one.product,
      one.state,
      one.used,
    ])
    expect(states).toEqual([
      ['sulphur', 'lapsed', false],
      ['second', 'lapses', false],
      ['third', 'read again', true],
      ['fourth', 'incomplete', false],
      ['fifth', 'sound', false],
    ])
    expect(json.data).toMatchObject({ lapsed: 1, lapsing: 1, old: 1, incomplete: 1 })
    expect(status).toBe(1)
  })

  test('a day earlier nothing has lapsed, the next is just not within 90 days, and no label is a year old', () => {
    const { status, json } = runJson(on('2026-05-30'))
    expect([status, json.data.lapsed, json.data.old]).toEqual([0, 0, 0])
    expect(json.data.products.find((one: { product: string }) => one.product === 'second').state).toBe(
      'sound',
    )
  })

  test('the terminal says what to do, what is missing, and where to write it', () => {
    const { stdout } = run(on('2026-06-01'))
    expect(stdout.replaceAll('\n', ' ')).toMatch(
      /^1 authorisation has ended: do not spray; 1 authorisation ends within 90 days; read 1 label again/,
    )
    expect(stdout).toContain('Test sulphur: add to products/fourth.yaml')
    expect(stdout).toContain('re_entry')
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80)
  })

  test('a broken record stops it, and an unknown option is told', () => {
    const broken = makeLedger({ 'products/sulphur.yaml': PRODUCT.replace('form: WG', 'form: [') })
    const { status, stdout, stderr } = run(['label', '--ledger', broken, '--as-of', '2026-06-01'])
    expect([status, stdout, stderr.includes('products/sulphur.yaml')]).toEqual([1, '', true])
    expect(run(['label', '--ledgr', root]).status).toBe(2)
  })

  test('a ledger without products says so', () => {
    const none = makeLedger({ 'products/copper.yaml': null, 'products/sulphur.yaml': null })
    const { status, stdout } = run(['label', '--ledger', none, '--as-of', '2026-06-01'])
    expect([status, stdout]).toEqual([0, 'No product is recorded.\n'])
  })
})
