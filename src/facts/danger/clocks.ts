import { dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import type { Disease } from '../../records/disease.ts'
import { curesHours } from '../protection/acts.ts'
import type { ReportInput } from '../report.ts'

/** How long a product in the shed still acts on an infection that has begun. */
interface CurativeClock {
  product: string
  name: string
  hours: number
  /** Last day on which it acts, counted from the start of the day of infection. */
  until: IsoDate
}

/** Products that still act some days after an infection, by `cures` in their records. */
export function curativeClocks(
  { ledger }: Pick<ReportInput, 'ledger'>,
  { disease, infected, asOf }: { disease: Disease; infected: IsoDate; asOf: IsoDate },
): CurativeClock[] {
  return [...ledger.products.values()].flatMap((product) => {
    const hours = curesHours(product)
    if (hours === null || !product.uses.some(({ against }) => against === disease)) return []
    const until = isoDate(dayOf(infected) + Math.max(0, Math.ceil(hours / 24) - 1))
    return until < asOf ? [] : [{ product: product.id, name: product.name, hours, until }]
  })
}
