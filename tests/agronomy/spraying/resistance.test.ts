import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { GROUP_LIMITS, groupBreaches } from '../../../src/agronomy/spraying/group-limits.ts'
import { groupUses } from '../../../src/agronomy/spraying/resistance.ts'

const useOf = (group: string, sprays: string[][]) => groupUses(sprays).find((use) => use.group === group)

describe('runs and counts', () => {
  test('no sprays have no groups', () => {
    expect(groupUses([])).toEqual([])
    expect(groupUses([[], []])).toEqual([])
  })

  test('a product with two actives counts in both groups', () => {
    const sprays = [['3', '11'], ['3'], ['11']]
    expect(useOf('3', sprays)).toEqual({
      group: '3',
      count: 2,
      longestRun: 2,
      runs: [{ from: 0, to: 1, length: 2 }],
    })
    expect(useOf('11', sprays)).toMatchObject({ count: 2, longestRun: 1, runs: [] })
  })

  test('the same group twice in one spray counts once', () => {
    expect(useOf('3', [['3', '3'], ['M02']])).toMatchObject({ count: 1, longestRun: 1, runs: [] })
  })

  test('any spray without the group breaks the run, and each run is listed', () => {
    const use = useOf('7', [['7'], ['7'], ['M02'], ['7'], ['7'], ['7'], []])
    expect(use).toMatchObject({ count: 5, longestRun: 3 })
    expect(use!.runs).toEqual([
      { from: 0, to: 1, length: 2 },
      { from: 3, to: 5, length: 3 },
    ])
  })

  test('counts agree with the sprays, and no run is longer than the count', () => {
    const sprays = fc.array(fc.array(fc.constantFrom<string>('3', '11', '7', 'M02'), { maxLength: 3 }), {
      maxLength: 12,
    })
    fc.assert(
      fc.property(sprays, (list) => {
        for (const use of groupUses(list)) {
          expect(use.count).toBe(list.filter((groups) => groups.includes(use.group)).length)
          expect(use.longestRun).toBeGreaterThanOrEqual(1)
          expect(use.longestRun).toBeLessThanOrEqual(use.count)
        }
      }),
    )
  })
})

describe('limits', () => {
  const of = (group: string) => GROUP_LIMITS.find((limit) => limit.group === group)!

  test('a group that was not sprayed breaks nothing', () => {
    expect(groupBreaches([['M02'], ['M02']], of('3'))).toEqual([])
  })

  test('what was found and allowed is told, row and season each for itself', () => {
    expect(groupBreaches([['3'], ['3'], ['3'], ['3']], of('3'))).toEqual([
      { kind: 'in-row', found: 4, allowed: 2 },
      { kind: 'per-season', found: 4, allowed: 3 },
    ])
  })

  test('the stricter count of group 49 ends with the fifth spray', () => {
    const season = (others: number) => [['49'], ['M01'], ['49'], ...new Array<string[]>(others).fill(['M01'])]
    expect(groupBreaches(season(1), of('49'))).toEqual([{ kind: 'per-season', found: 2, allowed: 1 }])
    expect(groupBreaches(season(2), of('49'))).toEqual([])
  })

  test('a limit without a row or a season looks only at the other', () => {
    const limit = { ...of('11'), maxPerSeason: null }
    expect(groupBreaches([['11'], ['11'], ['11']], limit)).toEqual([])
  })

  test('every limit names its body', () => {
    for (const limit of GROUP_LIMITS) expect(limit.body.length).toBeGreaterThan(3)
  })
})
