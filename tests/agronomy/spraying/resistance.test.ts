import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { GROUP_LIMITS, mostPerSeason } from '../../../src/agronomy/spraying/group-limits.ts'
import { groupRuns } from '../../../src/agronomy/spraying/resistance.ts'

const runsOf = (group: string, sprays: string[][]) =>
  groupRuns(sprays)
    .filter((run) => run.group === group)
    .map(({ from, to }) => [from, to])

describe('runs', () => {
  test('no sprays have no groups', () => {
    expect(groupRuns([])).toEqual([])
    expect(groupRuns([[], []])).toEqual([])
  })

  test('a product with two actives counts in both groups', () => {
    const sprays = [['3', '11'], ['3'], ['11']]
    expect(runsOf('3', sprays)).toEqual([[0, 1]])
    expect(runsOf('11', sprays)).toEqual([
      [0, 0],
      [2, 2],
    ])
  })

  test('the same group twice in one spray counts once', () => {
    expect(runsOf('3', [['3', '3'], ['M02']])).toEqual([[0, 0]])
  })

  test('any spray without the group breaks the run, and each run is listed', () => {
    expect(runsOf('7', [['7'], ['7'], ['M02'], ['7'], ['7'], ['7'], []])).toEqual([
      [0, 1],
      [3, 5],
    ])
  })

  test('the runs of a group hold exactly the sprays that held it, with a spray without it between', () => {
    const sprays = fc.array(fc.array(fc.constantFrom<string>('3', '11', '7', 'M02'), { maxLength: 3 }), {
      maxLength: 12,
    })
    fc.assert(
      fc.property(sprays, (list) => {
        for (const group of ['3', '11', '7', 'M02']) {
          const runs = runsOf(group, list)
          for (const [at, groups] of list.entries())
            expect(runs.some(([from, to]) => from! <= at && at <= to!)).toBe(groups.includes(group))
          for (const [at, [from]] of runs.entries())
            if (at > 0) expect(from).toBeGreaterThan(runs[at - 1]![1]! + 1)
        }
      }),
    )
  })
})

describe('limits', () => {
  const of = (group: string) => GROUP_LIMITS.find((limit) => limit.group === group)!

  test('the stricter count of group 49 ends with the fifth spray', () => {
    expect([3, 4, 5, 9].map((sprays) => mostPerSeason(of('49'), sprays))).toEqual([1, 1, 2, 2])
  })

  test('a limit that says nothing of the season allows any number', () => {
    expect(mostPerSeason({ ...of('11'), maxPerSeason: null }, 20)).toBe(Infinity)
  })

  test('every limit names its body', () => {
    for (const limit of GROUP_LIMITS) expect(limit.body.length).toBeGreaterThan(3)
  })
})
