import { incidence } from '../../agronomy/disease/incidence.ts'
import { severity } from '../../agronomy/disease/severity.ts'
import type { ScoutingEntry } from '../../ledger/read/ledger.ts'
import { DISEASES } from '../../records/disease.ts'
import { ORGANS, type Organ } from '../../records/kinds/scouting.ts'
import type { ReportInput } from '../report.ts'

/** What a scouting round found of one disease on one organ. Shares are 0 to 1. */
export type RoundRow = ReturnType<typeof roundRows>[number]

/** What the scouting rounds of a season found in the blocks, up to the day of the report. */
export function roundsOf({ ledger, season, asOf, blocks }: ReportInput): RoundRow[] {
  const ids = new Set(blocks.map(({ id }) => id))
  return ledger.scouting
    .filter((walk) => walk.season === season && walk.date <= asOf && ids.has(walk.block))
    .flatMap(roundRows)
}

/** The rows of a scouting round: one for each disease and organ with a count, or with class counts alone. */
export function roundRows(walk: ScoutingEntry) {
  return DISEASES.flatMap((disease) => {
    const found = walk.found[disease]
    if (!found) return []
    const isCounted = (organ: Organ) => found[organ] !== undefined && walk.looked_at[organ] !== undefined
    // A severity or classes without an organ belong to bunches if counted, else to the first organ counted.
    const first = ORGANS.find(isCounted) ?? ORGANS.find((organ) => walk.looked_at[organ] !== undefined)
    return ORGANS.flatMap((organ) => {
      const score = found.scored?.[organ] ?? (organ === first ? found : {})
      const graded = gradedOf(score.classes)
      if (!isCounted(organ) && !graded) return []
      const looked = walk.looked_at[organ] ?? graded?.looked ?? 0
      const affected = found[organ] ?? graded?.affected ?? 0
      const share = incidence(affected, looked)
      if (!share) return []
      const all = graded?.severity ?? (score.severity === undefined ? null : score.severity / 100)
      const ofAffected = all === null || affected === 0 ? null : (all * looked) / affected
      return [
        {
          date: walk.date,
          block: walk.block,
          disease,
          organ,
          looked,
          found: affected,
          // With the Wilson interval, 95 %.
          ...share,
          /** Mean share of surface affected: over all looked at, and over the affected ones; null where not scored. */
          severity: all,
          severityAffected: graded ? graded.severityAffected : ofAffected,
          /** Rows where it was found. */
          rows: found.rows ? { from: found.rows.low, to: found.rows.high } : null,
          where: found.where ?? null,
          /** Why severity is null, or how the entry was interpreted; else null. */
          why: remark({ all, looked, affected, graded }),
        },
      ]
    })
  })
}

/** Severity by class counts; null where none is given. */
function gradedOf(classes: Readonly<Record<string, number>> = {}) {
  return severity(
    Object.entries(classes).map(([name, count]) => {
      const [low, high] = name.split('-').map(Number)
      return { midpoint: (low! + (high ?? low!)) / 200, count }
    }),
  )
}

function remark({
  all,
  looked,
  affected,
  graded,
}: {
  all: number | null
  looked: number
  affected: number
  graded: ReturnType<typeof severity>
}): string | null {
  if (all === null) return affected === 0 ? null : 'severity was not scored'
  if (graded && graded.looked !== looked)
    return `the classes add up to ${graded.looked}, not to the ${looked} looked at`
  if (graded && graded.affected !== affected)
    return `the classes hold ${graded.affected} affected, the count says ${affected}`
  return all > affected / looked ? 'severity over all units is above incidence, which cannot be' : null
}
