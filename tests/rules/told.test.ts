import { describe, expect, test } from 'vitest'
import { judge } from '../../src/rules/index.ts'
import { findingsOf, ledgerOf } from '../ledger/in-memory.ts'
import { asTold } from './as-told.ts'
import { AREAS, OUTPUT } from './told/blocks.ts'
import { AHEAD, MEASURED, TWICE, TWICE_A_DAY } from './told/entries.ts'
import { COUNTS, RUNS, STAGES, WIND } from './told/groups.ts'
import { AFTER_PICKING, BEFORE_HARVEST, PLANNED } from './told/harvest.ts'
import { AUTHORISED, LEAST, TOO_MANY, UNIT, WATER } from './told/label.ts'
import { APART, AUTHORISATION, COLD, COPPER_SEASON, COPPER_YEARS, DELTA, HEAT } from './told/mixing.ts'
import { RE_ENTRY } from './told/re-entry.ts'
import type { Told } from './told/row.ts'
import { HOT_DAYS, LATE, PARTNER, STRONG, TOGETHER } from './told/tank.ts'

// What a grower is told, case by case: how grave it is beside each case, its words in the file of its rule.

const CASES: [rule: string, cases: Told[]][] = [
  ['inside-re-entry', RE_ENTRY],
  ['days-before-planned-harvest', PLANNED],
  ['inside-days-before-harvest', BEFORE_HARVEST],
  ['sprayed-after-picking', AFTER_PICKING],
  ['not-authorised-for', AUTHORISED],
  ['dose-unit', UNIT],
  ['under-rate', LEAST],
  ['too-many-applications', TOO_MANY],
  ['water-outside-label', WATER],
  ['area-disagrees', AREAS],
  ['impossible-output', OUTPUT],
  ['entered-twice', TWICE],
  ['twice-a-day', TWICE_A_DAY],
  ['future-date', AHEAD],
  ['calibration-old', MEASURED],
  ['action-group-run', RUNS],
  ['action-group-count', COUNTS],
  ['windy', WIND],
  ['stage-backwards', STAGES],
  ['kept-apart', APART],
  ['copper-over-season', COPPER_SEASON],
  ['copper-over-years', COPPER_YEARS],
  ['delta-t', DELTA],
  ['sulphur-cold', COLD],
  ['sulphur-heat', [...HEAT, ...HOT_DAYS]],
  ['not-to-be-mixed', TOGETHER],
  ['needs-partner', PARTNER],
  ['strong-bicarbonate', STRONG],
  ['late-sulphur', LATE],
  ['authorisation-lapsed', AUTHORISATION],
]

describe.each(CASES)('%s', (rule, cases) => {
  test.each(cases)('%s', (_, levels, files, asOf) => {
    const found = findingsOf(rule, files, asOf).map(({ level, name }) => `${level} ${name}`)
    expect(found).toEqual(levels.map((level) => `${level} ${rule}`))
  })

  test('nothing of entries of a season that is only looked back on', () => {
    for (const [what, , files, asOf = '2026-10-20'] of cases) {
      const found = judge({ ledger: ledgerOf(files), asOf, seasons: new Set([2030]) })
      const places = found.map(({ file }) => file).filter((file) => file.startsWith('seasons/'))
      expect({ what, places }).toEqual({ what, places: [] })
    }
  })
})

// The words were read over when they were kept; a change of them shows in the difference and is read again.
test.each(CASES)('%s, word by word', async (rule, cases) => {
  const told = cases.map(([what, , files, asOf]) => {
    const lines = findingsOf(rule, files, asOf).map(asTold)
    return `# ${what}\n${lines.join('') || 'nothing\n'}`
  })
  await expect(told.join('\n')).toMatchFileSnapshot(`told/${rule}.txt`)
})
