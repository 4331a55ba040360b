import type { Ledger } from '../../ledger/read/ledger.ts'
import { type IsoDate, isoDate } from '../../records/date.ts'
import { dayReached } from './day-reached.ts'
import { halfColourOf } from './veraison.ts'

/** How one earlier season of a block went. */
export interface PastDates {
  season: number
  /** 50 % veraison; null where it was not noted. */
  veraison: IsoDate | null
  /** Day on which samples and press passed the target, read off with hindsight; null where they never did. */
  reached: IsoDate | null
  /** First pick. */
  picked: IsoDate | null
}

/** The dates of a block's earlier seasons, newest first; seasons with none are left out. */
export function pastDates(
  ledger: Ledger,
  { block, season, target }: { block: string; season: number; target: number },
): PastDates[] {
  const records = [...ledger.samples, ...ledger.stages, ...ledger.picks].filter(
    (entry) => entry.block === block && entry.season < season,
  )
  const seasons = [...new Set(records.map((entry) => entry.season))].sort((a, b) => b - a)
  return seasons.flatMap((one) => {
    const of = { block, season: one }
    const coloured = halfColourOf(ledger, { ...of, asOf: '9999-12-31' })
    const day = dayReached(ledger, { ...of, target })
    const veraison = coloured && isoDate(Math.round(coloured.day))
    const reached = day === null ? null : isoDate(Math.ceil(day))
    const picks = ledger.picks.filter((pick) => pick.block === block && pick.season === one)
    const picked = picks.map(({ date }) => date).sort()[0] ?? null
    return veraison || reached || picked ? [{ season: one, veraison, reached, picked }] : []
  })
}
