/** Sprays of a list, one after another, that held one group: positions of the first and the last. */
interface GroupRun {
  group: string
  from: number
  to: number
}

/**
 * Runs of mode-of-action groups over the sprays against one disease on one block. Consecutive is the next spray
 * of the list; any spray without the group breaks a run, also one of sulphur alone (bodies differ). A product with
 * two actives counts in both groups; a group twice in one spray counts once.
 * @param sprays group codes of each spray, oldest first, each group in one spelling (U8 and 50 are the same group)
 * @returns the runs, those of one spray too, by group in order of first use, oldest first
 * Source: FRAC working-group rules; CropLife Australia via AWRI.
 */
export function groupRuns(sprays: readonly (readonly string[])[]): GroupRun[] {
  const runs = new Map<string, GroupRun[]>()
  sprays.forEach((groups, index) => {
    for (const group of new Set(groups)) {
      const own = runs.get(group) ?? []
      runs.set(group, own)
      const last = own.at(-1)
      if (last?.to === index - 1) last.to = index
      else own.push({ group, from: index, to: index })
    }
  })
  return [...runs.values()].flat()
}
