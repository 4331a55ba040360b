import type { Ledger } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Range } from '../../records/quantity.ts'
import { statedTargets } from '../judged.ts'
import type { Application } from './applications.ts'
import { stagesOf, usesFor } from './label.ts'

/** Share of the vines, in %, from which a noted stage counts for the block. Our own choice. */
const MOST_VINES = 50

/** A growth stage outside those in which the label allows a use. */
interface StageOutside {
  stage: number
  /** The day on which the stage was noted in the block; null where the spray itself names it. */
  noted: IsoDate | null
  target: string | undefined
  /** The stages that the label allows, for each use it could have been. */
  allowed: Pick<Range, 'low' | 'high'>[]
  path: (string | number)[]
  /** Whether it was later than all of them: then the label's waiting times don't hold. */
  isLate: boolean
}

/**
 * Uses whose growth stages the application missed: by the stage of the spray, else by the last one noted in the
 * block, which only shows that the vines had come that far. Each named target must be in its stages; where none
 * is named, one use in its stages is enough.
 */
export function stagesOutside(ledger: Ledger, one: Application): StageOutside[] {
  const { product, spray } = one
  if (product.not_after === undefined && product.uses.every(({ stages }) => stages === undefined)) return []
  const reached = stageOf(ledger, one)
  if (!reached) return []
  const { stage, noted } = reached
  return (statedTargets(one)?.map((target) => [target]) ?? [undefined]).flatMap((targets) => {
    const uses = usesFor(product, targets)
    const closed = uses.flatMap((one) => {
      const stages = stagesOf(product, one)
      const isOut = stages && (stage > stages.high || (noted === null && stage < stages.low))
      return isOut ? [stages] : []
    })
    if (closed.length === 0 || closed.length < uses.length) return []
    return [
      {
        stage,
        noted: spray.stage === undefined ? noted : null,
        target: targets?.[0],
        allowed: closed.map(({ low, high }) => ({ low, high })),
        path: closed[0]!.path,
        isLate: closed.every(({ high }) => stage > high),
      },
    ]
  })
}

function stageOf(
  ledger: Ledger,
  { spray, block }: Application,
): { stage: number; noted: IsoDate | null } | null {
  if (spray.stage !== undefined) return { stage: spray.stage, noted: null }
  const last = ledger.stages.findLast(
    ({ block: id, season, date, share }) =>
      id === block.id && season === spray.season && date <= spray.date && (share ?? 100) >= MOST_VINES,
  )
  return last ? { stage: last.stage, noted: last.date } : null
}
