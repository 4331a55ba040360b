import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { ledgerCopy, run, runJson } from './run.ts'

const FAR = ['--ledger', 'examples/far-quillet', '--as-of', '2026-09-14']

describe('sugar', () => {
  test('keeps the contract and needs no ledger', () => {
    const { status, json } = runJson(['sugar', '--brix', '22.5', '--ph', '3.4', '--ta', '7 g/L'], {
      cwd: '/tmp',
    })
    expect(status).toBe(0)
    expect(json.report).toBe('sugar')
    expect(json.data.brixPhSquared).toBeCloseTo(260.1, 1)
    expect(json.data.brixAcidRatio).toBeCloseTo(32.14, 2)
    expect(json.data.sugarPerLitre.unit).toBe('g/L')
    const { low, likely, high } = json.data.potentialAlcohol
    expect(low <= likely && likely <= high).toBe(true)
    expect(json.data.roughAlcohol).toBe(11.25)
  })

  test('an uncompensated reading is corrected, and other scales are turned into Brix', () => {
    expect(runJson(['sugar', '--brix', '22', '--temperature', '12C']).json.data.brix).toBeCloseTo(21.46, 2)
    expect(runJson(['sugar', '--oechsle', '92']).json.data.brix).toBeCloseTo(22.01, 2)
  })

  test('of a correction that is from memory, sugar, note, ripeness and window all give the range and say so', () => {
    const { json } = runJson(['sugar', '--brix', '22', '--temperature', '17C'])
    expect([json.data.brixLow, json.data.brixHigh]).toEqual([
      expect.closeTo(21.76, 9),
      expect.closeTo(21.82, 9),
    ])
    const printed = run(['sugar', '--brix', '22', '--temperature', '16C']).stdout
    expect(printed).toMatch(/^Brix at 20 °C +21\.72 *$/m)
    const ledger = ['--ledger', ledgerCopy(), '--as-of', '2026-09-14', '--block', 'gate-field']
    const sample = ['--brix', '19', '--temperature', '13C', '--compensated', 'false', '--yes']
    const screens = [
      ['sugar', '--brix', '19', '--temperature', '13C'],
      ['note', 'sample', ...sample, ...ledger],
      ['ripeness', ...ledger],
      ['window', ...ledger],
    ].map((args) => run(args).stdout.replace(/\s+/g, ' '))
    for (const screen of screens) {
      expect(screen).toMatch(/18\.50?(?: to |-)18\.(?:56|6)/)
      expect(screen).toContain('This correction is from memory, within 0.03 Brix')
    }
  })

  test.each([
    [[]],
    [['--brix', '21', '--oechsle', '90']],
    [['--oechsle', '90', '--temperature', '26C']],
    [['--brix', '21,5']],
    [['--brix', '50']],
    [['--brix', '21', '--ta', '8']],
  ])('used wrongly: %j', (args) => {
    const { status, stderr } = run(['sugar', ...args])
    expect(status).toBe(2)
    expect(stderr).not.toBe('')
  })
})

test('the page of ripeness draws the window, the text and JSON leave it to `window`', () => {
  const page = join(mkdtempSync(join(tmpdir(), 'rowbook-page-')), 'ripeness.html')
  expect(run(['ripeness', ...FAR, '--html', page]).status).toBe(0)
  expect(readFileSync(page, 'utf8')).toMatch(/target reached, 90\s%\sinterval/)
})

describe('the example, as on 14 September', () => {
  test('ready --all says who can be picked, in 80 columns', () => {
    const { status, stdout } = run(['ready', '--all', ...FAR])
    expect(status).toBe(1)
    expect(stdout).toMatch(
      /^Nothing recorded forbids picking Top Terrace\. Brook Rows (?:may be ready from about|has)/,
    )
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80)
  })

  test('ready exits 0 where no gate failed', () => {
    const { status, json } = runJson(['ready', '--block', 'top-terrace', ...FAR])
    expect(status).toBe(0)
    expect(json.data.blocks[0]).toMatchObject({ verdict: 'ready', gates: Array(7).fill({ state: 'pass' }) })
    expect(json.data.blocks[0].gates[2].until).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d[+-]\d\d:\d\d$/)
  })

  test('harvest --people says the hours that they need, and the days', () => {
    const { stdout } = run(['harvest', ...FAR, '--people', '6', '--hours', '7'])
    expect(stdout).toMatch(/hours for\s+6 people/)
    expect(stdout).toMatch(/with\s+6\s+people\s+picking\s+together, 3 days of\s+7 h\s+in\s+all/)
  })

  test('window --backtest looks back over two seasons', () => {
    const { status, json } = runJson(['window', '--backtest', ...FAR])
    expect(status).toBe(0)
    expect(new Set(json.data.backtest.rows.map((row: { season: number }) => row.season))).toEqual(
      new Set([2024, 2025]),
    )
  })

  test.each(['ripeness', 'window', 'crop', 'harvest', 'ready'])(
    '%s prints text with its caution',
    (command) => {
      const { stdout, stderr } = run([command, ...FAR])
      expect(stdout).toContain('An estimate: look,')
      expect(stdout).not.toMatch(/NaN|undefined|null|Infinity/)
      expect(stderr).toBe('')
    },
  )

  test.each([['brix'], ['brix=abc'], ['ta=8']])('window --target %s is used wrongly', (target) => {
    expect(run(['window', '--target', target, ...FAR]).status).toBe(2)
  })

  test('a forecast file that is not there is used wrongly', () => {
    expect(run(['window', '--forecast', '/nowhere.csv', ...FAR]).status).toBe(2)
  })
})

test('ready still prints over broken records, and exits 1', () => {
  const ledger = ledgerCopy()
  writeFileSync(
    join(ledger, 'seasons/2026/samples/2026-09-14-bad.yaml'),
    'date: 2026-09-14\nblock: top-terrace\nbrix: lots\n',
  )
  const { status, json } = runJson([
    'ready',
    '--block',
    'top-terrace',
    '--ledger',
    ledger,
    '--as-of',
    '2026-09-14',
  ])
  expect(status).toBe(1)
  expect(json.data.blocks[0].verdict).toBe('stop')
  expect(json.findings[0]?.file).toBe('seasons/2026/samples/2026-09-14-bad.yaml')
})
