import { planWeatherImport, writeWeatherImport } from '../../src/ledger/import/weather.ts'
import { openLedger } from '../../src/ledger/read/open.ts'

/** Plans an import of weather into a ledger, and writes it where asked. */
export function importPlan(root: string, path: string, write = false) {
  const ledger = openLedger(root, { seasons: 'all' })
  const plan = planWeatherImport(ledger, path)
  if (write) writeWeatherImport(ledger, plan)
  return plan
}
