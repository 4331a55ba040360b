import { existsSync, mkdtempSync, readFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { openLedger } from '../../src/ledger/read/open.ts'
import { harvest } from '../../src/reports/harvest/report.ts'
import { makeLedger } from '../ledger/make.ts'
import { run } from './run.ts'

const S = 'seasons/2026'
const SITE =
  'name: Friends & <Rows>\nlatitude: 51.5\ntimezone: Europe/Berlin\nharvest: { picking: 20 kg/h, bucket: 9 kg }\n'
const count = (block: string) =>
  `- { date: 2026-09-05, block: ${block}, bunches_per_vine: [10, 10, 12], bunch_weight: [100 g, 110 g, 100 g], at: harvest }\n`
const BOTH = { 'vineyard.yaml': SITE, [`${S}/crop.yaml`]: count('upper') + count('lower') }
const folder = mkdtempSync(join(tmpdir(), 'rowbook-day-'))
const DAY = ['--as-of', '2026-09-20', '--date', '2026-09-26']
const at = (ledger: string, ...more: string[]) => run(['harvest', '--ledger', ledger, ...DAY, ...more])

describe('the day of picking', () => {
  test('its hours are the person-hours of its blocks, in a row, whatever people, hours and start', () => {
    const ledger = openLedger(makeLedger(BOTH), { seasons: 'all' })
    const input = { ledger, season: 2026, asOf: '2026-09-20', blocks: [...ledger.blocks.values()] }
    const options = fc.record({
      people: fc.integer({ min: 1, max: 30 }),
      hours: fc.integer({ min: 2, max: 12 }),
      start: fc.integer({ min: 0, max: 700 }),
    })
    fc.assert(
      fc.property(options, ({ people, hours, start }) => {
        const { blocks, day } = harvest(input, { people, hours, start, date: '2026-09-26' }).data
        for (const { block, personHours } of blocks) {
          const own = day!.steps.filter((step) => step.block === block)
          const minutes = own.reduce((sum, { from, to }) => sum + to - from, 0)
          expect(Math.abs(minutes - (personHours! / people) * 60)).toBeLessThanOrEqual(own.length + 1)
        }
        for (const { from, to } of day!.steps) {
          expect(from).toBeGreaterThanOrEqual(start)
          expect(to).toBeLessThanOrEqual(start + hours * 60 + 1)
        }
        expect(day!.clippers).toBeGreaterThan(people)
      }),
      { numRuns: 40 },
    )
  })

  test('a total says which block is missing from it', () => {
    const ledger = makeLedger({ 'vineyard.yaml': SITE, [`${S}/crop.yaml`]: count('upper') })
    expect(at(ledger).stdout.replace(/\s+/g, ' ')).toContain('Total without Lower: ')
    const { totals, blocks } = JSON.parse(at(ledger, '--json').stdout).data
    const upper = blocks.find(({ block }: { block: string }) => block === 'upper')
    expect(totals.crop).toBe(null)
    expect(totals.known).toMatchObject({ without: ['lower'], crop: upper.crop, buckets: upper.buckets })
    expect(upper.buckets).toBe(Math.ceil(upper.crop.value / 9))
  })

  test('no block that may not be picked is on it', () => {
    const spray =
      'date: 2026-09-15\nblocks: [lower]\nwater: 300 L/ha\nproducts: [ { product: sulphur, rate: 3 kg/ha, for: powdery } ]\n'
    const ledger = makeLedger({ ...BOTH, [`${S}/sprays/a.yaml`]: spray })
    const { day } = JSON.parse(at(ledger, '--json').stdout).data
    expect(day.steps.map(({ block }: { block: string }) => block)).not.toContain('lower')
    expect(day.left).toMatchObject([{ block: 'lower', why: expect.stringContaining('not before') }])
    const page = join(folder, 'none.html')
    const refused = at(ledger, '--block', 'lower', '--helpers', page)
    expect(refused.status).toBe(2)
    expect(refused.stderr).toContain('not before')
    expect(existsSync(page)).toBe(false)
  })

  test('the page and the calendar for helpers name day, time and blocks, and escape names', () => {
    const ledger = makeLedger(BOTH)
    const [page, ics] = [join(folder, 'day.html'), join(folder, 'day.ics')]
    const made = ['--people', '4', '--start', '09:00', '--helpers', page, '--ics', ics]
    expect(at(ledger, ...made).status).toBe(0)
    const text = readFileSync(page, 'utf8')
    for (const word of ['Sat 26 Sep', '09:00', 'What to bring', 'Wasps', 'Friends &amp; &lt;Rows&gt;'])
      expect(text).toContain(word)
    expect(text).not.toMatch(/<Rows>|<script|undefined|NaN/)
    const calendar = readFileSync(ics, 'utf8')
    expect(calendar).toContain('DTSTART:20260926T070000Z')
    expect(calendar).toContain('SUMMARY:Picking at Friends & <Rows>')
    at(ledger, ...made)
    expect(readFileSync(ics, 'utf8')).toBe(calendar)
  })

  test.each([
    [['--start', '25:00'], '--start'],
    [['--start', '8:00-9:00'], 'one time'],
    [['--bucket', '9'], 'unit'],
    [['--rate', '0 kg/h'], 'above 0'],
  ])('%j is refused with a way out', (args, said) => {
    const { status, stderr } = at(makeLedger(), ...args)
    expect(status).toBe(2)
    expect(stderr).toContain(said)
    expect(stderr).not.toContain('    at ')
  })
})

describe('a weight in buckets', () => {
  const note = (ledger: string) =>
    run([
      'note',
      'pick',
      '--ledger',
      ledger,
      '--yes',
      '--as-of',
      '2026-09-26',
      '--block',
      'upper',
      '--weight',
      '12 buckets',
    ])

  test('is the kg that it comes to once a bucket is known', () => {
    const { status, stdout } = note(makeLedger({ 'vineyard.yaml': SITE }))
    expect(status).toBe(0)
    expect(stdout).toContain('weight: 108 kg')
  })

  test('asks for the weight of a bucket where none is known', () => {
    const { status, stderr } = note(makeLedger())
    expect(status).toBe(2)
    expect(stderr).toContain('bucket: 9 kg')
    const written = makeLedger({
      [`${S}/picks/a.yaml`]: 'date: 2026-09-26\nblock: upper\nweight: 12 buckets\n',
    })
    expect(run(['check', '--ledger', written]).stdout.replace(/\s+/g, ' ')).toContain('write it in kg')
  })
})
