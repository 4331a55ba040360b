import { highest } from '../statistics/extremes.ts'

interface GroupUse {
  group: string
  /** Sprays of the list that held the group. */
  count: number
  /** Most sprays one after another that held it. */
  longestRun: number
  /** Runs of two and more: index of the first and last spray, and the number of sprays. */
  runs: { from: number; to: number; length: number }[]
}

/**
 * Runs and counts of mode-of-action groups over the sprays against one disease on one block. Consecutive is
 * the next spray of the list; any spray without the group breaks a run, also one of sulphur alone (bodies
 * differ). A product with two actives counts in both groups; a group twice in one spray counts once.
 * @param sprays group codes of each spray, oldest first, each group in one spelling (U8 and 50 are the same group)
 * @returns one entry a group, in order of first use
 * Source: FRAC working-group rules; CropLife Australia via AWRI.
 */
export function groupUses(sprays: readonly (readonly string[])[]): GroupUse[] {
  const uses = new Map<string, number[]>()
  sprays.forEach((groups, index) => {
    for (const group of new Set(groups)) {
      const seen = uses.get(group)
      if (seen) seen.push(index)
      else uses.set(group, [index])
    }
  })
  return [...uses].map(([group, indexes]) => {
    const all: GroupUse['runs'] = []
    for (const index of indexes) {
      const run = all.at(-1)
      if (run && run.to === index - 1) {
        run.to = index
        run.length += 1
      } else all.push({ from: index, to: index, length: 1 })
    }
    return {
      group,
      count: indexes.length,
      longestRun: highest(all.map((run) => run.length)),
      runs: all.filter((run) => run.length > 1),
    }
  })
}
