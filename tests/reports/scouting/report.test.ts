import { describe, expect, test } from 'vitest'
import { PLAIN } from '../../../src/render/style.ts'
import { scouting } from '../../../src/reports/scouting/report.ts'
import { renderScouting } from '../../../src/reports/scouting/terminal.ts'
import { unlikelyWalk } from '../../../src/rules/slips/unlikely-walk.ts'
import { inputOf } from '../weather-ledger.ts'

describe('scouting', () => {
  const walk = (date: string, body: string) => `- { date: ${date}, block: upper, ${body} }\n`
  test('incidence with its interval, classes, change beyond chance, threshold', () => {
    const entries =
      walk(
        '2026-06-20',
        'looked_at: { bunches: 100 }, found: { powdery: { bunches: 30, classes: { 0: 70, 0-5: 15, 5-25: 10, 25-50: 3, 50-75: 2 }, rows: 3-5 } }',
      ) +
      walk('2026-07-01', 'looked_at: { bunches: 100 }, found: { powdery: { bunches: 10, severity: 0.5 % } }')
    const made = scouting(inputOf({ 'seasons/2026/scouting/a.yaml': entries }, '2026-07-02'))
    const { data } = made
    const [first, second] = data.walks
    expect(first).toMatchObject({
      looked: 100,
      found: 30,
      incidence: 0.3,
      organ: 'bunches',
      rows: { from: 3, to: 5 },
    })
    // Wilson 1927, and the means of class midpoints, worked out by hand.
    expect(first!.low).toBeCloseTo(0.2189, 4)
    expect(first!.high).toBeCloseTo(0.3958, 4)
    expect(first!.severity).toBeCloseTo(0.0425, 10)
    expect(first!.severityAffected).toBeCloseTo(0.141667, 6)
    expect(second!.low).toBeCloseTo(0.0552, 4)
    expect(second!.severityAffected).toBeCloseTo(0.05, 10)
    expect(data.trends).toMatchObject([{ from: '2026-06-20', to: '2026-07-01', beyondChance: true }])
    expect(data.trends[0]!.change).toBeCloseTo(-0.2, 12)
    expect(data.states).toMatchObject([{ verdict: 'over', threshold: { share: 0.03 }, daysSince: 1 }])
    expect(data.detection).toEqual({ share: 0.03, units: 99 })
    expect(
      renderScouting(
        made,
        { units: 'metric', columns: 2000, paint: PLAIN },
        { blocks: new Map(), products: new Map() },
      ),
    ).toContain('Limits: powdery by Gubler, in a bulletin')
    expect(data.maps).toMatchObject([{ rows: 20, from: 3, to: 5 }])
  })
  test('severity is of each organ that was scored', () => {
    const entries = walk(
      '2026-07-20',
      'looked_at: { bunches: 100, leaves: 50 }, found: { powdery: { bunches: 10, leaves: 5, severity: 1 %, scored: { leaves: { classes: { 0: 45, 0-10: 5 } } } }, downy: { bunches: 2, leaves: 4, severity: 0.4 % } }',
    )
    const { walks } = scouting(inputOf({ 'seasons/2026/scouting/a.yaml': entries }, '2026-07-20')).data
    const of = (disease: string, organ: string) =>
      walks.find((row) => row.disease === disease && row.organ === organ)!
    expect(of('powdery', 'bunches')).toMatchObject({ severity: 0.01, severityAffected: 0.1, why: null })
    expect(of('powdery', 'leaves').severity).toBeCloseTo(0.005, 12)
    expect(of('powdery', 'leaves').severityAffected).toBeCloseTo(0.05, 12)
    expect(of('downy', 'bunches')).toMatchObject({ severity: 0.004 })
    expect(of('downy', 'leaves')).toMatchObject({ severity: null, why: 'severity was not scored' })
  })
  test('scores of an organ that was not looked at, and classes that do not add up, are told', () => {
    const findingsOf = (found: string) => {
      const { ledger } = inputOf(
        {
          'seasons/2026/scouting/a.yaml': walk(
            '2026-07-20',
            `looked_at: { bunches: 100, leaves: 50 }, ${found}`,
          ),
        },
        '2026-07-20',
      )
      return [
        ...ledger.findings,
        ...unlikelyWalk.check({ ledger, asOf: '2026-07-20', seasons: new Set([2026]) }),
      ]
    }
    const shoots = findingsOf('found: { powdery: { bunches: 1, scored: { shoots: { severity: 2 % } } } }')
    expect(shoots).toMatchObject([
      { name: 'more-than-looked-at', message: 'no shoots are among those looked at' },
    ])
    const classes = findingsOf(
      'found: { powdery: { leaves: 5, scored: { leaves: { classes: { 0: 95, 0-10: 5 } } } } }',
    )
    expect(classes).toMatchObject([{ message: expect.stringContaining('50') }])
    const much = findingsOf(
      'found: { powdery: { bunches: 90, leaves: 5, scored: { leaves: { severity: 20 % } } } }',
    )
    expect(much).toMatchObject([{ message: expect.stringContaining('10 %') }])
  })
  test('rounds after the requested day are left out, and a small change counts as chance', () => {
    const entries =
      walk('2026-06-20', 'looked_at: { leaves: 50 }, found: { downy: { leaves: 2 } }') +
      walk('2026-07-01', 'looked_at: { leaves: 50 }, found: { downy: { leaves: 4 } }')
    const files = { 'seasons/2026/scouting/a.yaml': entries }
    expect(scouting(inputOf(files, '2026-06-30')).data.walks).toHaveLength(1)
    expect(scouting(inputOf(files, '2026-07-01')).data.trends).toMatchObject([{ beyondChance: false }])
    expect(scouting(inputOf(files, '2026-07-01')).data.states).toMatchObject([{ verdict: 'no threshold' }])
  })
  test('the first find, and what was sprayed against it before the next round', () => {
    const files = {
      'seasons/2026/scouting/a.yaml':
        walk(
          '2026-06-10',
          'looked_at: { leaves: 50 }, found: { powdery: { leaves: 0 }, downy: { leaves: 0 } }',
        ) +
        walk('2026-06-20', 'looked_at: { leaves: 50 }, found: { powdery: { leaves: 9 } }') +
        walk('2026-07-01', 'looked_at: { leaves: 50 }, found: { powdery: { leaves: 1 } }'),
      'seasons/2026/sprays.yaml': [
        '- { date: 2026-06-15, blocks: [upper], products: [ { product: copper, rate: 1 kg/ha, for: downy } ] }',
        '- { date: 2026-06-20, blocks: [upper], rows: 3-5, products: [ { product: sulphur, rate: 3 kg/ha, for: powdery } ] }',
        '- { date: 2026-06-22, blocks: [lower], products: [ { product: sulphur, rate: 3 kg/ha, for: powdery } ] }',
        '- { date: 2026-07-01, blocks: [upper], products: [ { product: sulphur, rate: 3 kg/ha, for: powdery } ] }',
      ].join('\n'),
    }
    const { firsts, trends } = scouting(inputOf(files, '2026-07-02')).data
    expect(firsts).toMatchObject([{ disease: 'powdery', date: '2026-06-20', found: 9 }])
    expect(trends.map(({ sprays }) => sprays)).toEqual([
      [],
      [{ date: '2026-06-20', product: 'sulphur', rows: { from: 3, to: 5 } }],
    ])
  })
})
