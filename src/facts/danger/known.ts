import type { Ledger } from '../../ledger/read/ledger.ts'
import { DISEASES, type Disease, USUAL_DISEASES } from '../../records/disease.ts'
import { ORGANS } from '../../records/kinds/scouting.ts'

/** The diseases judged: those that the site names, and any with a product, a find or a threshold in the ledger. */
export function judgedDiseases(ledger: Ledger): Disease[] {
  const { vineyard, products, scouting, blocks, varieties } = ledger
  const named = new Set<Disease>(vineyard.diseases ?? USUAL_DISEASES)
  const thresholds = [vineyard, ...blocks.values(), ...varieties.values()].flatMap((one) =>
    Object.keys(one.thresholds ?? {}),
  )
  const knows = (disease: Disease) =>
    named.has(disease) ||
    [...products.values()].some(({ uses }) => uses.some(({ against }) => against === disease)) ||
    thresholds.some((key) => key === disease || key.startsWith(`${disease}-`)) ||
    scouting.some(({ found }) => ORGANS.some((organ) => (found[disease]?.[organ] ?? 0) > 0))
  return DISEASES.filter(knows)
}
