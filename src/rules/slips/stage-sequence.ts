import { isJudged, type JudgedLedger, seasonKey } from '../../facts/judged.ts'
import type { Placed } from '../../ledger/read/source.ts'

/** A growth stage recorded anywhere in the ledger. */
export interface SeenStage {
  entry: Placed<{ date: string; season: number }>
  date: string
  stage: number
}

/** Stages of each block and season that is judged, oldest first: of `stages`, sprays and walks. */
export function stageSequences(input: JudgedLedger): Map<string, SeenStage[]> {
  const { ledger, asOf } = input
  const seen = new Map<string, SeenStage[]>()
  const add = (block: string, entry: SeenStage['entry'], stage: number | undefined) => {
    if (stage === undefined || !isJudged(input, entry) || entry.date > asOf) return
    const key = seasonKey({ block, season: entry.season })
    seen.set(key, [...(seen.get(key) ?? []), { entry, date: entry.date, stage }])
  }
  for (const entry of ledger.stages) add(entry.block, entry, entry.stage)
  for (const entry of ledger.scouting) add(entry.block, entry, entry.stage)
  for (const entry of ledger.sprays) for (const block of entry.blocks) add(block, entry, entry.stage)
  for (const list of seen.values())
    list.sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : a.stage - b.stage))
  return seen
}
