import { rmSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { openLedger } from '../../src/ledger/read/open.ts'
import { judge } from '../../src/rules/index.ts'
import { makeLedger } from '../ledger/make.ts'
import { LIMITS, S, spray, sulphur, work } from './limits/cases.ts'

// Each limit from both sides: silent just inside, speaking just outside.

function names(files: Record<string, string>): string[] {
  const root = makeLedger(files)
  const ledger = openLedger(root, { seasons: 'all' })
  expect(ledger.findings).toEqual([])
  const found = judge({ ledger, asOf: '2026-10-20', seasons: new Set(ledger.seasons) })
  rmSync(root, { recursive: true })
  return found.map(({ name, level }) => `${level} ${name}`)
}

describe('limits from both sides', () => {
  test.each(LIMITS)('%s', (finding, inside, outside) => {
    expect(names(inside)).not.toContain(finding)
    expect(names(outside)).toContain(finding)
  })
})

test('re-entry counts elapsed hours across a change of clocks', () => {
  // Summer time ends on 25 October 2026 at 03:00: 24 h after 20:00 of the 24th the clock shows 19:00.
  const zone = { [S]: spray('2026-10-24', sulphur('3 kg/ha'), 'time: 18:00-20:00\n  water: 300 L/ha') }
  const judged = (time: string) => {
    const root = makeLedger({ ...zone, 'seasons/2026/work.yaml': work('2026-10-25', time) })
    const ledger = openLedger(root, { seasons: 'all' })
    const found = judge({ ledger, asOf: '2026-10-30', seasons: new Set([2026]) }).map(({ name }) => name)
    rmSync(root, { recursive: true })
    return found
  }
  expect(judged('19:00-20:00')).not.toContain('inside-re-entry')
  expect(judged('18:59-20:00')).toContain('inside-re-entry')
})

test('a spray of several blocks gives one finding, where the value is the same', () => {
  const root = makeLedger({
    [S]: spray('2026-06-01', sulphur('7 kg/ha')).replace('[upper]', '[upper, lower]'),
  })
  const ledger = openLedger(root, { seasons: 'all' })
  const found = judge({ ledger, asOf: '2026-10-20', seasons: new Set([2026]) })
  expect(found.filter(({ name }) => name === 'over-rate')).toHaveLength(1)
  rmSync(root, { recursive: true })
})
