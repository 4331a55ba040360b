import { expect, test } from 'vitest'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { PLAIN } from '../../../src/render/style.ts'
import { harvest } from '../../../src/reports/harvest/report.ts'
import { renderHarvest } from '../../../src/reports/harvest/terminal.ts'
import { today } from '../../../src/reports/today/report.ts'
import { makeLedger } from '../../ledger/make.ts'

const S = 'seasons/2026'

/** A ripe block with rot that rises, sprayed with a product whose label says, or doesn't, how long to wait. */
function input(beforeHarvest: string, asOf = '2026-09-14') {
  const files = {
    'products/gone.yaml': `name: Gone\nform: WG\nkind: fungicide\nactives: [ { name: invented, content: 500 g/kg, group: 17 } ]\nuses: [ { against: botrytis, rate: 1-2 kg/ha } ]\n${beforeHarvest}`,
    [`${S}/sprays.yaml`]:
      '- { date: 2026-08-10, blocks: [upper], water: 300 L/ha, products: [ { product: gone, rate: 1 kg/ha, for: botrytis } ] }\n',
    [`${S}/crop.yaml`]:
      '- { date: 2026-09-05, block: upper, bunches_per_vine: [28, 28, 28], bunch_weight: [100 g, 100 g], at: harvest }\n',
    [`${S}/samples.yaml`]:
      '- { date: 2026-09-05, block: upper, berries: 100, brix: 19.6 }\n- { date: 2026-09-12, block: upper, berries: 100, brix: 20.8 }\n',
    [`${S}/scouting.yaml`]: [
      ['2026-09-05', 'bunches: 4, severity: 0.5 %'],
      ['2026-09-12', 'bunches: 15, severity: 2 %'],
    ]
      .map(
        ([date, found]) =>
          `- { date: ${date}, block: upper, looked_at: { bunches: 100 }, found: { botrytis: { ${found} } } }\n`,
      )
      .join(''),
  }
  const ledger = openLedger(makeLedger(files), { seasons: 'all' })
  return { ledger, season: 2026, asOf, blocks: [...ledger.blocks.values()] }
}

test('where no pre-harvest interval is recorded, neither harvest nor today argues for picking now', () => {
  const rotOf = (wait: string) => harvest(input(wait)).data.blocks.find(({ block }) => block === 'upper')!.rot
  expect(rotOf('before_harvest: 5 d\n')).toMatch(/botrytis rises/)
  expect(rotOf('')).toBeNull()
  const windowOf = (wait: string) =>
    today(input(wait)).data.items.find(({ what, block }) => what === 'window' && block === 'upper')!
  expect(windowOf('before_harvest: 5 d\n').urgency).toBe('now')
  expect(windowOf('')).toMatchObject({ urgency: 'soon' })
  expect(windowOf('').text).toContain('no pre-harvest interval (PHI) recorded for Gone')
})

test('an interval that is over is no day of picking: without a likely day, none is given', () => {
  const style = { units: 'metric' as const, columns: 80, paint: PLAIN }
  const made = harvest(input('before_harvest: 5 d\n', '2026-08-12'))
  const upper = made.data.blocks.find(({ block }) => block === 'upper')
  expect(upper).toMatchObject({ ripe: null, legalFrom: '2026-08-16' })
  expect(renderHarvest(made, style, { blocks: new Map(), products: new Map() })).toMatch(/^upper +- +likely/m)
})

test('where no pre-harvest interval is recorded, harvest names no day of picking', () => {
  const style = { units: 'metric' as const, columns: 80, paint: PLAIN }
  const said = (wait: string) =>
    renderHarvest(harvest(input(wait)), style, {
      blocks: new Map([['upper', 'Upper']]),
      products: new Map([['gone', 'Gone']]),
    })
  expect(said('before_harvest: 5 d\n')).toMatch(/^Pick Upper first, now: about/)
  expect(said('')).toMatch(
    /^No picking day yet for Upper: a pre-harvest interval \(PHI\) is not recorded\. Read\nthe labels\.\n/,
  )
  expect(said('')).toMatch(/^Upper +unknown +likely/m)
  expect(said('').replaceAll('\n', ' ')).toContain(
    'Upper: The pre-harvest interval (PHI) of Gone is not recorded. Read the label before you set a date.',
  )
})
