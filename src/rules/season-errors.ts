import type { Asked } from '../facts/picking/gate.ts'
import type { Finding } from '../ledger/read/finding.ts'
import { judge, MILD, RULES } from './index.ts'

/** Errors that the rules find in a season, each once. */
export function errorsOf({ ledger, asOf, season }: Omit<Asked, 'block'>): Finding[] {
  const grave = RULES.filter((rule) => !MILD.has(rule))
  return judge({ ledger, asOf, seasons: new Set([season]) }, grave).filter(({ level }) => level === 'error')
}
