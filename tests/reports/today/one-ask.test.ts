import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { TodayItem } from '../../../src/reports/today/item.ts'
import { NOTE_WEATHER, oneAsk } from '../../../src/reports/today/one-ask.ts'
import { run } from '../../commands/run.ts'
import { makeLedger } from '../../ledger/make.ts'

const ASKS = ['stage', 'walk', 'sample'] as const
const draft = (what: TodayItem['what'], next: string): TodayItem => ({
  what,
  block: 'upper',
  blocks: ['upper'],
  urgency: 'soon',
  until: null,
  text: `About ${what}.`,
  short: null,
  next,
  disease: null,
  reasons: [],
  also: [],
})
const drafts = fc.array(
  fc.oneof(
    fc.constantFrom(...ASKS).map((what) => draft(what, `rowbook note ${what}`)),
    fc
      .constantFrom('find', 'keep-out', 'cover', 'check')
      .map((what) => draft(what as 'find', 'rowbook check')),
    fc.constantFrom(NOTE_WEATHER, 'rowbook pressure').map((next) => draft('pressure', next)),
  ),
  { maxLength: 12 },
)
const isAsk = ({ what, next }: TodayItem) =>
  (ASKS as readonly string[]).includes(what) || next === NOTE_WEATHER

test('without a station one thing is asked at a time, and nothing else is lost', () => {
  fc.assert(
    fc.property(drafts, (all) => {
      const kept = oneAsk(all)
      const asks = all.filter(isAsk)
      expect(kept.filter(isAsk).length).toBe(Math.min(1, asks.length))
      expect(kept.filter((one) => !isAsk(one))).toEqual(all.filter((one) => !isAsk(one)))
      const told = kept.find(isAsk)?.text ?? ''
      const words = { stage: 'growth stage', walk: 'scouting round', sample: 'sample', pressure: 'weather' }
      for (const { what } of asks.filter(({ what }) => what !== asks[0]!.what))
        expect(told).toContain(words[what as 'stage'])
    }),
  )
})

test('a plot without a station is asked to note the day, with a command that can be typed', () => {
  const ledger = makeLedger({
    'seasons/2026/work.yaml': '- { date: 2026-02-01, block: lower, job: pruning }\n',
  })
  const { stdout } = run(['today', '--ledger', ledger, '--as-of', '2026-05-10'])
  const said = stdout.replace(/\s+/g, ' ')
  expect(said).toContain("No weather yet: note the day's minimum, maximum and rain. Then: growth stage.")
  expect(said).toContain('rowbook note weather')
  expect(said).not.toContain('import weather')
  const noted = run([
    'note',
    'weather',
    '--ledger',
    ledger,
    '--as-of',
    '2026-05-10',
    '--yes',
    '--day',
    'today 8 21 4',
  ])
  expect(noted.status).toBe(0)
  const after = run(['today', '--ledger', ledger, '--as-of', '2026-05-10']).stdout.replace(/\s+/g, ' ')
  expect(after).not.toContain('No weather yet')
})
