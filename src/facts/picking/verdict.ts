import type { Finding } from '../../ledger/read/finding.ts'
import { addDays, type IsoDate } from '../../records/date.ts'
import { pressBias } from '../ripeness/press-bias.ts'
import { legalFrom, spraysOf } from '../spraying/legal-from.ts'
import { type AcidAhead, acidGate } from './acid.ts'
import { cropGate } from './crop.ts'
import { diseaseGate } from './disease.ts'
import { type Asked, type Gate, type GateName, isOpen } from './gate.ts'
import { recordsGate } from './records.ts'
import { sugarGate } from './sugar.ts'
import { beforeHarvestGate, reEntryGate } from './waits.ts'

/** All checks before picking a block, and from when sprays allow it. */
export function gatesOf(
  asked: Asked,
  { errors, asPressed, ahead }: { errors: readonly Finding[]; asPressed?: boolean; ahead?: AcidAhead },
) {
  const sprays = spraysOf(asked.ledger, { ...asked, block: asked.block.id })
  const legal = legalFrom(asked.ledger, sprays)
  const reEntry = reEntryGate(asked, sprays)
  const gates = [
    recordsGate(asked, errors),
    beforeHarvestGate(asked, legal),
    reEntry,
    diseaseGate(asked),
    sugarGate(asked, asPressed ? pressBias(asked.ledger, asked.asOf) : null),
    acidGate(asked, ahead),
    cropGate(asked),
  ]
  return { gates, legal, until: reEntry.until ?? null }
}

export type Verdict = 'ready' | 'wait' | 'stop'

/** Gates where unknown counts as failed: the law, people's safety, sound fruit. */
const MUST_KNOW: ReadonlySet<GateName> = new Set(['records', 'before-harvest', 're-entry', 'disease'])

/**
 * `stop` where a gate fails or a must-know gate is unknown; `wait` where any other gate asked for doesn't pass; else
 * `ready`.
 */
export function verdictOf(gates: readonly Gate[]): Verdict {
  if (gates.some(({ gate, state }) => state === 'fail' || (state === 'unknown' && MUST_KNOW.has(gate))))
    return 'stop'
  return gates.every(isOpen) ? 'ready' : 'wait'
}

/** The first day on which all gates that depend on dates may pass; null where something else holds up the pick. */
export function turnOf(
  gates: readonly Gate[],
  of: {
    verdict: Verdict
    asOf: IsoDate
    legalFrom: IsoDate | null
    until: string | null
    likely: IsoDate | null
  },
): IsoDate | null {
  if (of.verdict === 'ready') return null
  const days: (IsoDate | null)[] = gates
    .filter((gate) => !isOpen(gate))
    .map(({ gate, state, turns }) => {
      if (gate === 'before-harvest' && state === 'fail') return of.legalFrom
      if (gate === 're-entry' && state === 'fail' && of.until) return addDays(of.until.slice(0, 10), 1)
      if (gate === 'sugar' && state === 'wait')
        return of.likely !== null && of.likely > of.asOf ? of.likely : null
      if (gate === 'acid' && state === 'wait') return turns && turns > of.asOf ? turns : null
      return null
    })
  if (days.length === 0 || days.includes(null)) return null
  return days.sort().at(-1) ?? null
}
