import type { Asked } from '../facts/picking/gate.ts'
import type { Finding } from '../ledger/read/finding.ts'
import { GRAVE, judge } from './index.ts'

/** Errors that the rules find in a season, each once. */
export function errorsOf({ ledger, asOf, season }: Omit<Asked, 'block'>): Finding[] {
  return judge({ ledger, asOf, seasons: new Set([season]) }, GRAVE).filter(({ level }) => level === 'error')
}
