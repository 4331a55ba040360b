import { expect, test } from 'vitest'
import { PLAIN } from '../../../src/render/style.ts'
import { totals } from '../../../src/reports/totals/report.ts'
import { renderTotals } from '../../../src/reports/totals/terminal.ts'
import { ledgerOf } from '../../ledger/in-memory.ts'

const product = (group: string) => `name: Extra
form: SC
kind: fungicide
actives: [ { name: testazole, content: 100 g/L, group: "${group}" } ]
uses:
  - { against: downy, rate: 0.2-0.4 L/ha }
`
const SPRAY = `- date: 2026-06-10
  blocks: [upper]
  water: 300 L/ha
  products:
    - { product: extra, rate: 0.3 L/ha, for: downy }
`

/** The totals of one spray with a product of this group, as data and on the screen. */
function ofGroup(group: string) {
  const ledger = ledgerOf({ 'products/extra.yaml': product(group), 'seasons/2026/sprays.yaml': SPRAY })
  const blocks = [...ledger.blocks.values()]
  const report = totals({ ledger, season: 2026, asOf: '2026-10-01', blocks })
  const screen = renderTotals(report, { columns: 80, units: 'metric', paint: PLAIN })
  return { groups: report.data.vineyard.groups, screen: screen.replace(/\s+/g, ' ') }
}

// FRAC OSBPI working group, January 2024, notes of disease.md section 8: 33 % of the time under protection, which
// counts of sprays can not hold: 2 of 5 sprays are 40 %.
test('group 49 carries what FRAC advises beside the counts', () => {
  const { groups, screen } = ofGroup('49')
  expect(groups).toEqual([{ group: '49', applications: 1, note: expect.stringContaining('33 %') }])
  expect(screen).toContain('Group 49: no more than 33 % of the time under protection')
  expect(screen).toContain('FRAC OSBPI working group, 2024')
})

test('other groups carry nothing', () => {
  const { groups, screen } = ofGroup('40')
  expect(groups).toEqual([{ group: '40', applications: 1, note: null }])
  expect(screen).not.toContain('Group 40:')
})
