import { highest, lowest } from '../../agronomy/statistics/extremes.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { seasonSpan } from '../../ledger/read/seasons.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Quantity } from '../../records/quantity.ts'
import { areaOf } from '../block-size.ts'
import type { ReportInput } from '../report.ts'
import { type Application, applicationsOf } from './applications.ts'
import { copperOverYears, copperSum, mostCopperOnAVine } from './copper.ts'
import { type SprayTotals, sumUp } from './sum.ts'

export type CopperTotals = ReturnType<typeof copperOfBlock>

export interface BlockTotals extends SprayTotals {
  block: string
  name: string
  copper: CopperTotals
}

export type VineyardTotals = SprayTotals & { copper: CopperTotals }

/** Everything sprayed on the blocks in a season, up to its end or the day of the report. */
export function sprayedIn({ ledger, asOf, blocks }: Omit<ReportInput, 'season'>, season: number) {
  const { last } = seasonSpan(ledger.vineyard, season)
  /** The last day that counts. */
  const day = last < asOf ? last : asOf
  const past = applicationsOf(
    ledger,
    ledger.sprays.filter(({ date }) => date <= day),
  )
  const inSeason = (list: readonly Application[]) => list.filter(({ spray }) => spray.season === season)
  const each = blocks.map((block): BlockTotals => {
    const own = past.filter((one) => one.block.id === block.id)
    return {
      block: block.id,
      name: block.name,
      ...sumUp(inSeason(own), areaOf(block)),
      copper: copperOfBlock(ledger, { own, inSeason: inSeason(own), day }),
    }
  })
  const applications = inSeason(past).filter(({ block }) => blocks.some(({ id }) => id === block.id))
  const area = blocks.reduce((sum, block) => sum + areaOf(block), 0)
  const vineyard: VineyardTotals = { ...sumUp(applications, area), copper: meanCopper(each) }
  return { day, blocks: each, vineyard, applications }
}

const perHa = (value: number | null | undefined): Quantity | null =>
  value === null || value === undefined ? null : { value, unit: 'kg/ha' }

/** Copper as metal, kg per ha of the whole block. */
function copperOfBlock(
  ledger: Ledger,
  from: { own: readonly Application[]; inSeason: readonly Application[]; day: IsoDate },
) {
  const limits = ledger.vineyard.limits?.copper
  const season = copperSum(from.inSeason)
  const window = copperOverYears(ledger, from.own, from.day)
  const limitSeason = limits?.per_season
  const known = window !== null && !window.unknownDose
  return {
    season: perHa(season),
    /** The most that a vine can have had in the season, kg per treated ha: above the mean where parts were sprayed. */
    most: perHa(mostCopperOnAVine(from.inSeason)),
    /** Over the calendar years of the limit, including this one; a minimum where years are unknown. */
    rolling: perHa(known ? window.sum : null),
    /** Calendar years that the limit counts. */
    years: window?.years ?? null,
    window: window && { from: window.from, to: window.to, known: window.known, unknown: window.unknown },
    limitSeason: perHa(limitSeason),
    limitRolling: perHa(limits?.rolling),
    roomSeason: perHa(
      season === null || limitSeason === undefined ? null : Math.max(0, limitSeason - season),
    ),
    roomRolling: perHa(known ? window.room : null),
    missing:
      season === null || window?.unknownDose
        ? 'the copper content of a product, or a dose'
        : window === null
          ? 'a limit over years in vineyard.yaml (limits: copper: rolling, years)'
          : null,
  }
}

/** Over several blocks: copper as a mean weighted by area; the allowance left is that of the block with the least. */
function meanCopper(blocks: readonly BlockTotals[]): CopperTotals {
  const area = blocks.reduce((sum, block) => sum + block.area.value, 0)
  const ofAll = (
    key: 'season' | 'most' | 'rolling' | 'roomSeason' | 'roomRolling',
    join: (values: readonly number[]) => number,
  ) => {
    const values = blocks.flatMap(({ copper }) => copper[key]?.value ?? [])
    return values.length === 0 || values.length < blocks.length ? null : perHa(join(values))
  }
  const mean = (values: readonly number[]) =>
    values.reduce((sum, value, index) => sum + value * blocks[index]!.area.value, 0) / area
  const first = blocks[0]?.copper
  return {
    season: ofAll('season', mean),
    most: ofAll('most', highest),
    rolling: ofAll('rolling', mean),
    years: first?.years ?? null,
    window: first?.window ?? null,
    limitSeason: first?.limitSeason ?? null,
    limitRolling: first?.limitRolling ?? null,
    roomSeason: ofAll('roomSeason', lowest),
    roomRolling: ofAll('roomRolling', lowest),
    missing: blocks.find(({ copper }) => copper.missing !== null)?.copper.missing ?? null,
  }
}
