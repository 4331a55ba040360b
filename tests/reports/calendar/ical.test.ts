import ICAL from 'ical.js'
import { describe, expect, test } from 'vitest'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { renderCalendar } from '../../../src/render/ical.ts'
import { calendar } from '../../../src/reports/calendar/report.ts'
import { makeLedger } from '../../ledger/make.ts'

const SPRAY =
  '- { date: 2026-06-01, time: 18:00-19:30, blocks: [upper, lower], products: [ { product: sulphur, rate: 3 kg/ha, for: powdery } ] }\n'

function reportOf(files: Record<string, string>, asOf = '2026-06-02') {
  const root = makeLedger(files)
  const ledger = openLedger(root, { seasons: [2026] })
  expect(ledger.findings).toEqual([])
  return calendar({ ledger, season: 2026, asOf, blocks: [...ledger.blocks.values()] })
}

function eventsOf(report: ReturnType<typeof calendar>) {
  const text = renderCalendar(report, { site: 'Test Rows', now: Date.UTC(2026, 5, 2, 8) })
  const parsed = new ICAL.Component(ICAL.parse(text))
  return { text, events: parsed.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one)) }
}

describe('a calendar file, read by another library', () => {
  const { text, events } = eventsOf(reportOf({ 'seasons/2026/sprays/a.yaml': SPRAY }))

  test('says until when to keep out, in elapsed hours from the end of spraying', () => {
    const out = events.find(({ summary }) => summary.startsWith('Keep out'))!
    expect(out.summary).toBe('Keep out of Upper, Lower until 19:30')
    // 19:30 in Berlin's summer is 17:30 UTC; 24 h on.
    expect(out.endDate.toJSDate().toISOString()).toBe('2026-06-02T17:30:00.000Z')
    expect(out.startDate.toJSDate().toISOString()).toBe('2026-06-01T16:00:00.000Z')
  })

  test('gives the first day of picking as a whole day, whose end is the day after', () => {
    const first = events.find(({ summary }) => summary === 'Upper: pre-harvest interval (PHI) over')!
    expect(first.startDate.isDate).toBe(true)
    expect([first.startDate.toString(), first.endDate.toString()]).toEqual(['2026-06-23', '2026-06-24'])
  })

  test('has a unique id for every event, and lines of no more than 75 bytes', () => {
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length)
    for (const line of text.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75)
  })
})

test('a later look keeps the ids, so that a second import updates the events', () => {
  const uidOf = (report: ReturnType<typeof calendar>, kind: string) =>
    report.data.events.find((event) => event.kind === kind && event.blocks[0] === 'upper')!
  const before = uidOf(reportOf({ 'seasons/2026/sprays/a.yaml': SPRAY }), 'before-harvest')
  const later = SPRAY + SPRAY.replace('06-01', '06-14')
  const after = uidOf(reportOf({ 'seasons/2026/sprays/a.yaml': later }, '2026-06-15'), 'before-harvest')
  expect(after.uid).toBe(before.uid)
  expect(after.start > before.start).toBe(true)
  const one = eventsOf(reportOf({ 'seasons/2026/sprays/a.yaml': later }, '2026-06-15')).events[0]!
  expect(one.sequence).toBeGreaterThan(
    eventsOf(reportOf({ 'seasons/2026/sprays/a.yaml': SPRAY })).events[0]!.sequence,
  )
})

test('a product without a pre-harvest interval gives no leave to pick, and is named', () => {
  const product =
    'name: Bare\nform: WG\nkind: fungicide\nactives: [ { name: sulphur } ]\nuses: [ { against: powdery, rate: 1-3 kg/ha } ]\n'
  const spray = SPRAY.replace('} ] }', '}, { product: bare, rate: 2 kg/ha } ] }')
  const { data } = reportOf({ 'products/bare.yaml': product, 'seasons/2026/sprays/a.yaml': spray })
  expect(data.events.map(({ title }) => title).filter((title) => /PHI/.test(title))).toEqual([
    'Lower: do not pick yet, PHI of Bare unknown',
    'Upper: do not pick yet, PHI of Bare unknown',
  ])
  expect(data.missing.join(' ')).toContain('before_harvest')
  expect(data.missing.join(' ')).toContain('re_entry')
})

test('names beyond the Latin letters and line breaks survive', () => {
  const name = 'Größe, "Hang"; 丘 \\ x'.repeat(5)
  const report = reportOf({
    'blocks/upper.yaml': `name: ${JSON.stringify(name)}\nvariety: palava\nrows: 20\nrow_length: 100 m\nrow_spacing: 2 m\nvine_spacing: 1 m\n`,
    'seasons/2026/sprays/a.yaml': SPRAY,
  })
  const { events, text } = eventsOf(report)
  expect(events.some(({ summary }) => summary.includes(name))).toBe(true)
  for (const line of text.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75)
})

test('a round that several finds ask for says each of them in a sentence of its own', () => {
  const walk =
    '- { date: 2026-05-30, block: upper, looked_at: { bunches: 100, leaves: 100 }, found: { powdery: { bunches: 12 }, downy: { leaves: 20 } } }\n'
  const round = reportOf({ 'seasons/2026/scouting/a.yaml': walk }).data.events.find((event) =>
    event.title.includes('scout'),
  )!
  expect(round.detail).toMatch(
    /^Powdery on 12 of 100 bunches .+; not treated yet\. Downy on 20 of 100 leaves/,
  )
})
