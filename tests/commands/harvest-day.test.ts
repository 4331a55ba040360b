import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
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

  test('it has no block that may not be picked', () => {
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
    expect(refused.stderr).toContain('run `rowbook harvest`')
    const pick = '- { date: 2026-09-19, block: lower, weight: 90 kg }\n'
    const picked = makeLedger({ ...BOTH, [`${S}/picks/a.yaml`]: pick })
    expect(at(picked, '--block', 'lower', '--helpers', page).stderr).toContain('Lower: picked already')
    const early = run(['harvest', '--ledger', makeLedger(), '--as-of', '2026-05-01', '--helpers', page])
    expect(early.stderr).toContain('no picking day is known yet\n  name it: --date')
    expect(existsSync(page)).toBe(false)
  })

  test('the page and the calendar for helpers name day, time and blocks, and escape names', () => {
    const ledger = makeLedger(BOTH)
    const [page, ics] = [join(folder, 'day.html'), join(folder, 'day.ics')]
    const made = ['--people', '4', '--start', '09:00', '--helpers', page, '--ics', ics]
    expect(at(ledger, ...made).status).toBe(0)
    const text = readFileSync(page, 'utf8').replaceAll('\u00a0', ' ')
    for (const word of ['Sat 26 Sep', '09:00', 'What to bring', 'Wasps', 'Friends &amp; &lt;Rows&gt;'])
      expect(text).toContain(word)
    expect(text).not.toMatch(/<Rows>|<script|undefined|NaN/)
    const calendar = readFileSync(ics, 'utf8')
    expect(calendar).toContain('DTSTART:20260926T070000Z')
    expect(calendar).toContain('SUMMARY:Picking at Friends & <Rows>')
    at(ledger, ...made)
    expect(readFileSync(ics, 'utf8')).toBe(calendar)
  })

  // 2026-09-20 is a Sunday.
  test.each([
    ['sun', '2026-09-20'],
    ['today', '2026-09-20'],
    ['tomorrow', '2026-09-21'],
    ['sat', '2026-09-26'],
    ['27 sep', '2026-09-27'],
  ])('planned for "%s" it is on %s', (said, date) => {
    const planned = run([
      'harvest',
      '--ledger',
      makeLedger(BOTH),
      '--as-of',
      '2026-09-20',
      '--date',
      said,
      '--json',
    ])
    expect(JSON.parse(planned.stdout).data.day.date).toBe(date)
  })

  test('counts in buckets where only these were weighed, of blocks that still hang', () => {
    const picks = '- { date: 2026-09-18, block: upper, weight: 200 kg, rest: 0 % }\n'
    const text = at(makeLedger({ ...BOTH, [`${S}/picks.yaml`]: picks })).stdout
    expect(text).toMatch(/^in order .* buckets /m)
    expect(text).not.toMatch(/crate/)
    const { blocks } = JSON.parse(at(makeLedger(BOTH), '--json').stdout).data
    const [one] = blocks
    expect(one.range.buckets).toEqual({
      low: Math.ceil(one.range.crop.low / 9),
      likely: one.buckets,
      high: Math.ceil(one.range.crop.high / 9),
    })
    expect(text).toContain(`${one.buckets} buckets to fill`)
    const both = { 'vineyard.yaml': SITE.replace('bucket: 9 kg', 'bucket: 9 kg, crate: 12 kg') }
    expect(at(makeLedger({ ...BOTH, ...both })).stdout).toMatch(/^in order .* crates /m)
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
  })

  const PICK = 'date: 2026-09-26\nblock: upper\nweight: 12 buckets\nsorted_out: 0.5 buckets\n'
  const picked = (site: string, text = PICK) =>
    makeLedger({ 'vineyard.yaml': site, [`${S}/picks/a.yaml`]: text })

  test.each([
    ['bucket', 'weight: 12 buckets', 108],
    ['crate', 'weight: 7.5 crates', 90],
  ])('stands in a file as %ss, and comes to kg in every report', (_, weight, kg) => {
    const ledger = picked(
      SITE.replace('bucket: 9 kg', 'bucket: 9 kg, crate: 12 kg'),
      PICK.replace('weight: 12 buckets', weight),
    )
    expect(run(['check', '--ledger', ledger]).stdout).toContain('0 errors')
    // Once as parsed, and once from what was kept.
    for (const _ of [1, 2]) {
      const picks = run(['export', 'picks', '--ledger', ledger, '--format', 'jsonl']).stdout
      expect(JSON.parse(picks)).toMatchObject({ weight_kg: kg })
    }
  })

  test('follows the weight of the bucket, though the pick is as it was', () => {
    const ledger = picked(SITE)
    const weight = () => openLedger(ledger, { seasons: 'all' }).picks[0]!
    expect(weight()).toMatchObject({ weight: 108, sorted_out: 4.5 })
    writeFileSync(join(ledger, 'vineyard.yaml'), SITE.replace('9 kg', '10 kg'))
    expect(weight()).toMatchObject({ weight: 120, sorted_out: 5 })
  })

  test('is an error at its place where no bucket is known, with what to write', () => {
    const ledger = picked(SITE.replace(', bucket: 9 kg', ''))
    const { status, stdout } = run(['check', '--ledger', ledger])
    expect(status).toBe(1)
    expect(stdout).toContain(`${S}/picks/a.yaml:3:9  error  bucket-not-weighed`)
    expect(stdout).toContain('12 buckets')
    expect(stdout.replace(/\s+/g, ' ')).toContain(
      'vineyard.yaml under `harvest`, like `bucket: 9 kg`; or write the weight in kg',
    )
  })
})
