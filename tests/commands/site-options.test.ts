import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { runHere } from '../faults/in-process.ts'
import { makeLedger } from '../ledger/make.ts'

const at = (timezone: string, units: string) =>
  makeLedger({
    'vineyard.yaml': `name: Test Rows\nlatitude: 45\ntimezone: ${timezone}\nunits: ${units}\n`,
    'seasons/2026/sprays/2026-05-06-upper.yaml':
      'date: 2026-05-06\nblocks: [upper]\nwater: 300 L/ha\nproducts: [{ product: sulphur, rate: 3 kg/ha, for: powdery }]\n',
  })
const DENVER = at('America/Denver', 'us')
const LONDON = at('Europe/London', 'uk')
const TORONTO = at('America/Toronto', 'metric')

describe('days in options by the country of the site', () => {
  const ask = (root: string, ...args: string[]) => runHere([...args, '--ledger', root, '--json'])
  test('05/06 is May in Denver and June in London', async () => {
    const [denver, london] = [
      await ask(DENVER, 'heat', '--from', '05/06/2026', '--as-of', '2026-09-01'),
      await ask(LONDON, 'heat', '--from', '05/06/2026', '--as-of', '2026-09-01'),
    ]
    expect(JSON.parse(denver.out).data.from).toBe('2026-05-06')
    expect(JSON.parse(london.out).data.from).toBe('2026-06-05')
  })
  test.each([
    ['diary', '--from'],
    ['diary', '--to'],
    ['heat', '--from'],
    ['pressure', '--to'],
    ['totals', '--as-of'],
    ['harvest', '--date'],
  ])('%s %s is refused with both readings where the country has both orders', async (command, option) => {
    const { status, err } = await ask(TORONTO, command, option, '05/06/2026')
    expect(status).toBe(2)
    expect(err).toMatch(/can mean 2026-0[56]-0[56] or 2026-0[56]-0[56]/)
    expect(err).toContain('write 2026-0')
  })
})

describe('gallons and acres in options', () => {
  const mix = (root: string | null, ...more: string[]) =>
    runHere(
      [
        'mix',
        '--dose',
        's=3 lb/ac',
        '--area',
        '2 ac',
        '--water',
        '25 gal/ac',
        '--tank',
        '25 gal',
        '--json',
        ...more,
      ],
      root ?? mkdtempSync(join(tmpdir(), 'rowbook-')),
    )
  test('are the site’s own, or those of --units where there is no ledger', async () => {
    for (const [root, more, gallon] of [
      [DENVER, [], 3.785411784],
      [LONDON, [], 4.54609],
      [null, ['--units', 'us'], 3.785411784],
      [null, ['--units', 'uk'], 4.54609],
    ] as const) {
      const { status, out } = await mix(root, ...more)
      expect(status).toBe(0)
      expect(JSON.parse(out).data.water.value).toBeCloseTo(50 * gallon, 6)
    }
  })
  test('are refused where nobody says whose, with what to write', async () => {
    for (const root of [TORONTO, null]) {
      const { status, err } = await mix(root)
      expect(status).toBe(2)
      expect(err).toContain('`ac` is an acre only where vineyard.yaml says')
    }
    const { err } = await runHere(['mix', '--dose', 's=10 g/L', '--water', '12 gal'], TORONTO)
    expect(err).toContain('write `12 US gal` or `12 imp gal`')
  })
  test('note writes them in full, so that the file means the same everywhere', async () => {
    const entry = ['note', 'spray', '--date', '05/07/2026', '--time', '6:30pm-7:10pm', '--block', 'lower']
    const more = ['--water', '40 gal/ac', '--product', 'sulphur=3 lb/ac', '--for', 'powdery', '--dry-run']
    const { out } = await runHere([...entry, ...more, '--as-of', '2026-05-08'], DENVER)
    expect(out).toContain('date: 2026-05-07')
    expect(out).toContain('time: 18:30-19:10')
    expect(out).toContain('water: 40 US gal/acre')
    expect(out).toContain('rate: 3 lb/acre')
  })
})
