import { addDays, type IsoDate } from '../../records/date.ts'
import { type Gate, type GateName, isOpen } from './gate.ts'

export type Verdict = 'ready' | 'wait' | 'stop'

/** Gates on which not knowing is as bad as failing: law, people's safety, sound fruit. */
const MUST_KNOW: ReadonlySet<GateName> = new Set(['records', 'before-harvest', 're-entry', 'disease'])

/** `stop` where a gate fails or one that must be known isn't; `wait` where any other that was asked for doesn't pass; else `ready`. */
export function verdictOf(gates: readonly Gate[]): Verdict {
  if (gates.some(({ gate, state }) => state === 'fail' || (state === 'unknown' && MUST_KNOW.has(gate))))
    return 'stop'
  return gates.every(isOpen) ? 'ready' : 'wait'
}

/** The first day on which the gates that dates decide may all pass; null where something else stands in the way. */
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
