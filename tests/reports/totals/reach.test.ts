import { describe, expect, test } from 'vitest'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { firstSeasonOfTotals, totals } from '../../../src/reports/totals/report.ts'
import { makeLedger, SITE } from '../../ledger/make.ts'

const spray = (date: string) =>
  `date: ${date}\nblocks: [upper]\nwater: 300 L/ha\nproducts: [ { product: copper, rate: 1 kg/ha } ]\n`

describe('how far back the sprays bear on totals', () => {
  const limits = 'limits: { copper: { per_season: 4 kg/ha, rolling: 6 kg/ha, years: 3 } }\n'
  const cases = {
    'a limit over years in the north': SITE['vineyard.yaml'] + limits,
    'a limit over years in the south': `${SITE['vineyard.yaml']!.replace('51.5', '-38')}${limits}`,
    'no limit': SITE['vineyard.yaml']!,
  }
  for (const [name, vineyard] of Object.entries(cases))
    test(`${name}: the same figures as with every season read`, () => {
      const seasons = [2018, 2019, 2020, 2021, 2022, 2023, 2024, 2025, 2026]
      const month = name.includes('south') ? '12' : '05'
      const files = seasons.flatMap((season) => {
        const year = month === '12' ? season - 1 : season
        return ['02', '14', '26'].map((day, index): [string, string] => {
          const late = index === 2 && month === '12' ? `${season}-02-${day}` : `${year}-${month}-${day}`
          return [`seasons/${season}/sprays/${late}.yaml`, spray(late)]
        })
      })
      const root = makeLedger({
        'vineyard.yaml': vineyard,
        'products/copper.yaml': `${SITE['products/copper.yaml']}stocked: 2024-06-01\n`,
        ...Object.fromEntries(files),
      })
      const read = (from?: Parameters<typeof openLedger>[1]['from']) =>
        openLedger(root, { seasons: [2026], kinds: ['sprays'], history: ['sprays'], from })
      const all = read()
      const few = read((ledger) => firstSeasonOfTotals(ledger, 2026))
      expect(few.sprays.length).toBeLessThan(all.sprays.length)
      const of = (ledger: typeof all) =>
        totals({ ledger, season: 2026, asOf: '2026-09-01', blocks: [...ledger.blocks.values()] })
      expect(of(few)).toEqual(of(all))
      expect(of(all).data.blocks.some(({ copper }) => (copper.season?.value ?? 0) > 0)).toBe(true)
    })
})
