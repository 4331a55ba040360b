import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { legalFrom } from '../../../src/facts/spraying/legal-from.ts'
import { overLabelOf } from '../../../src/facts/spraying/over-label.ts'
import { keepOutOf } from '../../../src/facts/spraying/re-entry.ts'
import { findingsOf } from '../../ledger/in-memory.ts'
import { EXTRA, type Files, figure, whole } from '../../rules/limits/both-sides.ts'
import { bookOf, sprayed } from '../book.ts'

const waits = 'before_harvest: 21 d\nre_entry: 24 h\n'
const product = (rate = '1 kg/ha', more = '') => `product: extra, rate: ${rate}${more}`
const use = (text: string) =>
  `name: Extra\nform: WG\nkind: fungicide\nactives: [ { name: sulphur, content: 800 g/kg, group: M02 } ]\nuses:\n  - { against: powdery, ${text} }\n${waits}`

/** What is over the label in each spray, and the day from which the block may be picked. */
function told(sprays: string, extra: string, more: Files = {}) {
  const ledger = bookOf(sprays, { [EXTRA]: extra, ...more })
  const over = ledger.sprays.map((spray) => overLabelOf(ledger, spray).map(({ why }) => why))
  return {
    over,
    legal: legalFrom(ledger, ledger.sprays),
    outs: ledger.sprays.map((spray) => keepOutOf(ledger, spray)),
  }
}

const days = (dates: string[], what = product(), more?: string) =>
  dates.map((date) => sprayed(date, [what], more)).join('')

test('a spray that is not in the ledger yet is judged as if it were there', () => {
  const ledger = bookOf(sprayed('2026-06-10', [product('20 kg/ha')]), { [EXTRA]: use('rate: 1-6 kg/ha') })
  const [spray] = ledger.sprays
  expect(overLabelOf({ ...ledger, sprays: [] }, spray!)).toEqual(overLabelOf(ledger, spray!))
  expect(overLabelOf(ledger, spray!)).toHaveLength(1)
})

describe('what invalidates the waiting times, besides the dose', () => {
  test('an application more than the label allows in a season', () => {
    const two = `${use('rate: 1-3 kg/ha')}max_per_season: 2\n`
    const kept = told(days(['2026-05-01', '2026-06-01']), two)
    expect(kept.over).toEqual([[], []])
    expect(kept.legal.date).toBe('2026-06-23')
    const over = told(days(['2026-05-01', '2026-06-01', '2026-07-01']), two)
    expect(over.over).toEqual([[], [], ['application 3 this season, the label allows 2']])
    expect(over.legal).toMatchObject({ date: null, calendar: null, by: null })
    expect(over.outs.map((out) => out.over === null)).toEqual([false, false, true])
  })

  test('one application too many for its use, but not for another', () => {
    const once = use('rate: 1-3 kg/ha, max_per_season: 1 }\n  - { against: downy, rate: 1-3 kg/ha')
    const both =
      days(['2026-05-01'], product('1 kg/ha', ', for: powdery')) +
      days(['2026-06-01'], product('1 kg/ha', ', for: downy'))
    expect(told(both, once).over).toEqual([[], []])
    expect(told(both.replace('downy', 'powdery'), once).over[1]).toHaveLength(1)
  })

  test('more in a season than the maximum in total', () => {
    const most = `${use('rate: 1-3 kg/ha')}max_total: 5 kg/ha\n`
    expect(told(days(['2026-05-01', '2026-06-01'], product('2.5 kg/ha')), most).over[1]).toEqual([])
    expect(told(days(['2026-05-01', '2026-06-01'], product('2.6 kg/ha')), most).over[1]).toEqual([
      '5.2 kg/ha in all this season, the label allows at most 5 kg/ha',
    ])
  })

  test('again too soon, where both together exceed one dose; not within one dose, and not on separate rows', () => {
    const weekly = use('rate: 1-3 kg/ha, interval: 7-14 d')
    const soon = (rate: string, more?: string) =>
      told(days(['2026-06-01', '2026-06-04'], product(rate), more), weekly).over[1]
    expect(soon('1.5 kg/ha')).toEqual([])
    expect(soon('2 kg/ha')).toEqual([
      'again after 3 d, the label needs 7 d; together 4 kg/ha, the label allows at most 3 kg/ha',
    ])
    const apart =
      sprayed('2026-06-01', [product('3 kg/ha')], 'water: 300 L/ha, rows: 1-4') +
      sprayed('2026-06-04', [product('3 kg/ha')], 'water: 300 L/ha, rows: 5-8')
    expect(told(apart, weekly).over).toEqual([[], []])
  })

  test('later in growth than the label allows, by the stage of the spray, else by that of most vines', () => {
    const until = use('rate: 1-3 kg/ha, stages: 13-81')
    expect(told(days(['2026-08-20'], product(), 'stage: 81'), until).over).toEqual([[]])
    expect(told(days(['2026-08-20'], product(), 'stage: 83'), until).over).toEqual([
      ['at growth stage 83, the label ends at 81'],
    ])
    const noted = (share: string) => ({
      'seasons/2026/stages.yaml': `- { date: 2026-08-18, block: upper, stage: 83${share} }\n`,
    })
    expect(told(days(['2026-08-20']), until, noted('')).over[0]).toHaveLength(1)
    expect(told(days(['2026-08-20']), until, noted(', share: 20 %')).over).toEqual([[]])
    expect(told(days(['2026-08-17']), until, noted('')).over).toEqual([[]])
    // Too early is a separate error, which does not affect residues.
    expect(told(days(['2026-04-01'], product(), 'stage: 5'), until).over).toEqual([[]])
  })

  test('every application above the maximum is over the label, however many there are', () => {
    fc.assert(
      fc.property(whole(1, 4), whole(1, 6), (most, count) => {
        const dates = Array.from({ length: count }, (_, index) => `2026-0${index + 3}-15`)
        const { over } = told(days(dates), `${use('rate: 1-3 kg/ha')}max_per_season: ${most}\n`)
        expect(over.map((why) => why.length > 0)).toEqual(dates.map((_, index) => index >= most))
      }),
      { numRuns: 20 },
    )
  })

  test('neither one more spray nor a higher dose ever removes a breach', () => {
    const extra = `${use('rate: 1-3 kg/ha, interval: 7-14 d')}max_per_season: 3\nmax_total: 6 kg/ha\n`
    const entry = fc.record({ day: whole(10, 28), rate: figure(1, 4) })
    fc.assert(
      fc.property(fc.array(entry, { minLength: 1, maxLength: 5 }), entry, (entries, more) => {
        const text = (list: typeof entries) =>
          [...list]
            .sort((a, b) => a.day - b.day)
            .map(({ day, rate }) => sprayed(`2026-06-${day}`, [product(`${rate} kg/ha`)]))
            .join('')
        const isOver = (list: typeof entries) => told(text(list), extra).legal.overLabel.length > 0
        if (!isOver(entries)) return
        expect(isOver([...entries, more])).toBe(true)
        expect(isOver(entries.map(({ day, rate }) => ({ day, rate: rate + 1 })))).toBe(true)
      }),
      { numRuns: 40 },
    )
  })
})

describe('a clearance', () => {
  const extra = use('rate: 1-3 kg/ha')
  const cleared = (rest: string, rate = '30 kg/ha') =>
    sprayed(
      '2026-06-10',
      [product(rate)],
      `time: 18:00-20:00, water: 300 L/ha, cleared: { on: 2026-06-20, by: R. Vos, ${rest} }`,
    )

  test('gives the named days of picking and entry, and who named them', () => {
    const { legal, outs } = told(cleared('pick_from: 2026-10-03, enter_from: 2026-06-25'), extra)
    expect(legal).toMatchObject({
      date: '2026-10-03',
      calendar: '2026-10-03',
      overLabel: [],
      by: { cleared: { by: 'R. Vos' } },
    })
    expect(outs[0]).toMatchObject({ over: { date: '2026-06-25', minutes: 0 }, overLabel: [] })
  })

  test('without a day of entry, uses the day of picking', () => {
    expect(told(cleared('pick_from: 2026-10-03'), extra).outs[0]).toMatchObject({
      over: { date: '2026-10-03' },
    })
  })

  test("never comes before the label's own waits", () => {
    const { legal, outs } = told(cleared('pick_from: 2026-06-21, enter_from: 2026-06-10'), extra)
    expect(legal.date).toBe('2026-07-02')
    expect(outs[0]).toMatchObject({ over: { date: '2026-06-11', minutes: 1200 } })
  })

  test('of one spray does not clear another that is over the label', () => {
    const both = cleared('pick_from: 2026-10-03') + sprayed('2026-07-10', [product('30 kg/ha')])
    expect(told(both, extra).legal).toMatchObject({ date: null, overLabel: [{ date: '2026-07-10' }] })
  })

  test('has no effect where nothing was over the label, and says so', () => {
    const kept = cleared('pick_from: 2026-10-03', '3 kg/ha')
    expect(told(kept, extra).legal.date).toBe('2026-07-02')
    const found = (text: string, asOf = '2026-10-20') =>
      findingsOf('doubtful-clearance', { [EXTRA]: extra, 'seasons/2026/sprays.yaml': text }, asOf).map(
        ({ level }) => level,
      )
    expect(found(kept)).toEqual(['warning'])
    expect(found(cleared('pick_from: 2026-10-03'))).toEqual([])
    expect(found(cleared('pick_from: 2026-10-03'), '2026-06-19')).toEqual(['error'])
    expect(found(cleared('pick_from: 2026-06-09'))).toEqual(['error'])
  })
})
