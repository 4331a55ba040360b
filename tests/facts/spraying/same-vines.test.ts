import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { applicationsOf } from '../../../src/facts/spraying/applications.ts'
import { copperSum, mostCopperOnAVine } from '../../../src/facts/spraying/copper.ts'
import { PLAIN } from '../../../src/render/style.ts'
import { totals } from '../../../src/reports/totals/report.ts'
import { renderTotals } from '../../../src/reports/totals/terminal.ts'
import { findingsOf, ledgerOf } from '../../ledger/in-memory.ts'

// The block `upper` has 0.4 ha in 20 rows with 2000 vines; the product `copper` has 350 g/kg of copper.
const SPRAYS = 'seasons/2026/sprays.yaml'
const spray = (date: string, extent: string, product = 'copper, rate: 1 kg/ha, for: downy') =>
  `- { date: ${date}, blocks: [upper], water: 300 L/ha${extent}, products: [ { product: ${product} } ] }\n`

type Extent = { text: string; share: number; rows: [number, number] | null }
const extent: fc.Arbitrary<Extent> = fc.oneof(
  fc.constant<Extent>({ text: '', share: 1, rows: null }),
  fc
    .integer({ min: 1, max: 2000 })
    .map((vines): Extent => ({ text: `, method: spot, vines: ${vines}`, share: vines / 2000, rows: null })),
  fc
    .integer({ min: 1, max: 100 })
    .map((share): Extent => ({ text: `, share: ${share} %`, share: share / 100, rows: null })),
  fc.tuple(fc.integer({ min: 1, max: 20 }), fc.integer({ min: 1, max: 20 })).map(([a, b]): Extent => {
    const [low, high] = [Math.min(a, b), Math.max(a, b)]
    return { text: `, rows: ${low}-${high}`, share: (high - low + 1) / 20, rows: [low, high] }
  }),
)

const applied = (extents: readonly Extent[]) => {
  const text = extents
    .map((one, at) => spray(`2026-06-${String(at + 1).padStart(2, '0')}`, one.text))
    .join('')
  return applicationsOf(ledgerOf({ [SPRAYS]: text }))
}

describe('sprays without recorded vines', () => {
  test('the mean over the block adds each spray by its share; the most on a vine assumes it was sprayed each time', () =>
    fc.assert(
      fc.property(fc.array(extent, { minLength: 1, maxLength: 6 }), (extents) => {
        const list = applied(extents)
        const mean = copperSum(list)!
        const most = mostCopperOnAVine(list)!
        expect(mean).toBeCloseTo(
          extents.reduce((sum, { share }) => sum + 0.35 * share, 0),
          9,
        )
        // Vine by vine, rows 1 to 20; a spray that names no rows counts as if it had hit that vine.
        const onRow = (row: number) =>
          extents.filter(({ rows }) => rows === null || (rows[0] <= row && row <= rows[1])).length * 0.35
        const rows = Array.from({ length: 20 }, (_, at) => onRow(at + 1))
        expect(most).toBeCloseTo(Math.max(...rows), 9)
        expect(most).toBeGreaterThanOrEqual(mean - 1e-9)
      }),
      { numRuns: 60 },
    ))

  test('totals says so, and only where parts were sprayed', () => {
    const shown = (text: string) => {
      const ledger = ledgerOf({ [SPRAYS]: text })
      const input = { ledger, season: 2026, asOf: '2026-10-01', blocks: [...ledger.blocks.values()] }
      const report = totals(input)
      const style = { columns: 80, units: 'metric' as const, paint: PLAIN }
      return { report, screen: renderTotals(report, style).replace(/\s+/g, ' ') }
    }
    const whole = spray('2026-06-01', '')
    expect(shown(whole).screen).not.toContain('one vine')
    const parts = whole + spray('2026-06-20', ', method: spot, vines: 100')
    const { report, screen } = shown(parts)
    const upper = report.data.blocks.find(({ block }) => block === 'upper')!
    expect(upper.copper.season!.value).toBeCloseTo(0.35 * 1.05, 9)
    expect(upper.copper.most!.value).toBeCloseTo(0.7, 9)
    expect(screen).toContain('The most that one vine can have had this season')
    expect(screen).toContain('Upper 0.7 kg/ha')
    // How little a spot spray without its extent treated is unknown.
    const unmeasured = spray('2026-06-20', ', method: spot', 'copper, amount: 20 g').replace(
      '300 L/ha',
      '3 L',
    )
    expect(shown(whole + unmeasured).screen).toContain('Upper unknown')
  })

  const tooShort = (first: string, second: string) =>
    findingsOf('interval-too-short', {
      [SPRAYS]: spray('2026-06-01', first) + spray('2026-06-04', second),
    }).map(({ level, help }) => [level, help.includes('write their `rows`')])
  test.each([
    ['two spots', ', method: spot, vines: 12', ', method: spot, vines: 12', [['warning', true]]],
    ['two halves', ', share: 50 %', ', share: 50 %', [['warning', true]]],
    ['more than the block together', ', share: 50 %', ', share: 51 %', [['error', false]]],
    ['the whole and a spot', '', ', method: spot, vines: 12', [['error', false]]],
    ['a spot of unknown extent', ', method: spot', ', method: spot, vines: 12', [['warning', true]]],
    ['the whole and a spot of unknown extent', '', ', method: spot', [['error', false]]],
    ['rows and the whole', ', rows: 1-8', '', [['error', false]]],
    ['rows that meet', ', rows: 1-8', ', rows: 8-9', [['error', false]]],
    ['rows apart', ', rows: 1-7', ', rows: 8-9', []],
  ])('an interval is surely too short only where the same vines were met: %s', (_, first, second, told) =>
    expect(tooShort(first, second)).toEqual(told),
  )

  test('applications count as on the same vines, and it says so', () => {
    const spots = Array.from({ length: 6 }, (_, at) =>
      spray(`2026-0${at < 3 ? 6 : 7}-${10 + (at % 3) * 8}`, ', method: spot, vines: 12'),
    )
    const [found] = findingsOf('too-many-applications', { [SPRAYS]: spots.join('') })
    expect(found).toMatchObject({ level: 'error', message: expect.stringContaining('application 6') })
    expect(found!.help).toContain('write their `rows` where they were others')
    const rows = spots.map((one, at) => one.replace('method: spot, vines: 12', `rows: ${at + 1}-${at + 1}`))
    expect(findingsOf('too-many-applications', { [SPRAYS]: rows.join('') })).toEqual([])
  })
})
