import { pickingRate } from '../../agronomy/crop/picking-rate.ts'
import { entriesOf } from '../../facts/block-entries.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'

/** A figure that the plan divides by, and where it comes from. */
interface Setting {
  value: number
  source: string
}

interface RateSetting extends Setting {
  low: number | null
  high: number | null
}

export type HarvestSettings = ReturnType<typeof harvestSettings>

const DEFAULTS = {
  picking: {
    value: 50,
    source: 'default: 50 kg per person-hour, planned in the United Kingdom (hortnews.com)',
  },
  crate: { value: 13.6, source: 'default: the 30 lb lug (wine-grape-growing.com, chapter 30)' },
  juice: { value: 626, source: 'default: 150 US gal a US ton (Cornell CALS 2011)' },
  day: { value: 8, source: 'default: common practice, no source' },
  bottle: { value: 0.75, source: 'default: the usual bottle' },
} as const

const from =
  (source: string) =>
  (value: number | undefined): Setting | null =>
    value === undefined ? null : { value, source }
const asked = from('as asked')
const bySite = from('vineyard.yaml')

/** The figures typed with the command, else the site's own, else published ones. */
export function harvestSettings(
  { vineyard: { harvest: site = {} } }: Ledger,
  typed: { crate?: number | undefined; bucket?: number | undefined; hours?: number | undefined } = {},
) {
  return {
    /** kg of fruit in a crate. */
    crate: asked(typed.crate) ?? bySite(site.crate) ?? DEFAULTS.crate,
    /** kg of fruit in a full bucket; null where nobody says. */
    bucket: asked(typed.bucket) ?? bySite(site.bucket),
    /** Litres of juice from a tonne. */
    juice: bySite(site.juice) ?? DEFAULTS.juice,
    /** Hours that a picking day has. */
    day: asked(typed.hours) ?? bySite(site.day) ?? DEFAULTS.day,
    /** kg in a press load; null where the site doesn't say. */
    press: bySite(site.press),
    /** Litres of a tank; null where the site doesn't say. */
    tank: bySite(site.tank),
    /** Litres of a bottle. */
    bottle: bySite(site.bottle) ?? DEFAULTS.bottle,
  }
}

/** What the fruit is counted in: crates, or buckets where only these were weighed here. */
export const vesselOf = ({ crate, bucket }: HarvestSettings): 'crate' | 'bucket' =>
  bucket && crate.source === DEFAULTS.crate.source ? 'bucket' : 'crate'

/**
 * kg per person-hour: the block's own earlier seasons where they have two picks, else all picks, else the site's
 * figure, else a published one. The block's picks of this season are what the plan is held against: they don't count, nor
 * does any pick from that day on.
 */
export function rateFor(
  ledger: Ledger,
  block: string,
  { season, asOf }: { season: number; asOf: IsoDate },
): RateSetting {
  const first = entriesOf(ledger.picks, { block, season, asOf })[0]
  const before = ledger.picks.filter(({ date }) => (first ? date < first.date : date <= asOf))
  const timed = before.flatMap(({ block, weight, people, hours }) =>
    people !== undefined && hours !== undefined ? [{ block, weight, people, hours }] : [],
  )
  const own = timed.filter((pick) => pick.block === block)
  const used = own.length >= 2 ? own : timed
  const { rate, low, high, picks } = pickingRate(used)
  if (rate !== null) {
    const whose =
      own.length >= 2 ? 'past picks of this block' : `past pick${picks === 1 ? '' : 's'} of all blocks`
    return { value: rate, low, high, source: `${picks} ${whose}` }
  }
  const setting = bySite(ledger.vineyard.harvest?.picking) ?? DEFAULTS.picking
  return { ...setting, low: null, high: null }
}
