import type { Ledger, Named, PickEntry } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/block.ts'
import type { IsoDate } from '../../records/date.ts'

interface PickedSeason {
  season: number
  picks: PickEntry[]
  /** All that was picked, kg. */
  weight: number
}

/** The seasons up to this one in which a block was picked to the last; where it still hangs in part, none. */
export function pickedWhole(
  ledger: Ledger,
  block: Named<Block>,
  { season: current, asOf }: { season: number; asOf: IsoDate },
): PickedSeason[] {
  const own = ledger.picks.filter(
    (pick) => pick.block === block.id && pick.date <= asOf && pick.season <= current,
  )
  return [...new Set(own.map((pick) => pick.season))].flatMap((season) => {
    const picks = own.filter((pick) => pick.season === season)
    if ((picks.at(-1)!.rest ?? 0) > 0) return []
    return [{ season, picks, weight: picks.reduce((sum, pick) => sum + pick.weight, 0) }]
  })
}
