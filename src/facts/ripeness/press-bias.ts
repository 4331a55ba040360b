import { meanInterval } from '../../agronomy/statistics/mean.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { daysBetween, type IsoDate } from '../../records/date.ts'
import { sampleDays } from './sample-day.ts'
import { samplesOf } from './samples.ts'

/** Days before the pick after which a sample says little about the press. Our choice, no source. */
const OLDEST = 7

export type PressBias = ReturnType<typeof pressBias>

/**
 * How the grower's samples compare with the press: each pick with Brix, against the block's last sample in the
 * week before. The days between are left uncorrected. Growers' samples may read up to 2 Brix above the winery's
 * (Zoecklein, Virginia Tech, Enology Notes 53).
 */
export function pressBias(ledger: Ledger, asOf: IsoDate) {
  const picks = ledger.picks.flatMap((pick) => {
    if (pick.brix === undefined || pick.date > asOf) return []
    const samples = samplesOf(ledger, { block: pick.block, season: pick.season, asOf: pick.date })
    const last = sampleDays(samples, 'brix').at(-1)
    if (!last || daysBetween(last.date, pick.date) > OLDEST) return []
    const difference = pick.brix - last.mean
    return { block: pick.block, season: pick.season, date: pick.date, sample: last.date, difference }
  })
  if (picks.length === 0) {
    const why = `no pick so far has both Brix at the press and a sample in the ${OLDEST} days before`
    return { mean: null, low: null, high: null, picks, why }
  }
  const { mean, low, high } = meanInterval(picks.map(({ difference }) => difference))
  const why = low === null ? 'three picks are needed for an interval' : null
  return {
    /** Brix at the press minus Brix of the last sample; positive where the field reads too low. */
    mean,
    /** 95 % interval; null below three picks. */
    low,
    high,
    picks,
    why,
  }
}

/** Standard error of the mean field-to-press difference, Brix; 0 with fewer than two picks. */
export function biasError(pressed: PressBias | null): number {
  if (!pressed || pressed.picks.length < 2) return 0
  const { sd, n } = meanInterval(pressed.picks.map(({ difference }) => difference))
  return (sd ?? 0) / Math.sqrt(n)
}
