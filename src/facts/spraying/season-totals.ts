import { highest, lowest } from '../../agronomy/statistics/extremes.ts'
import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import { seasonSpan } from '../../ledger/read/seasons.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Block } from '../../records/kinds/block.ts'
import type { Quantity } from '../../records/quantity.ts'
import { areaOf } from '../block-size.ts'
import type { ReportInput } from '../report.ts'
import { type Application, applicationsOf } from './applications.ts'
import { copperOverYears, copperSum, mostCopperOnAVine } from './copper.ts'
import { type SprayTotals, sumUp } from './sum.ts'

/** Copper as metal, kg per ha of the whole block. */
export interface CopperTotals {
  season: Quantity | null
  /** The most that a vine can have had in the season, kg per treated ha: above the mean where parts were sprayed. */
  most: Quantity | null
  /** Over the calendar years of the limit, including this one; a minimum where years are unknown. */
  rolling: Quantity | null
  /** Calendar years that the limit counts. */
  years: number | null
  window: { from: number; to: number; known: number[]; unknown: number[] } | null
  limitSeason: Quantity | null
  limitRolling: Quantity | null
  roomSeason: Quantity | null
  roomRolling: Quantity | null
  missing: string | null
}

export interface BlockTotals extends SprayTotals {
  block: string
  name: string
  copper: CopperTotals
}

export type VineyardTotals = SprayTotals & { copper: CopperTotals }

interface SeasonSprayed {
  /** The last day that counts. */
  day: IsoDate
  blocks: BlockTotals[]
  vineyard: VineyardTotals
  /** Applications to these blocks in the season. */
  applications: Application[]
}

/** Everything sprayed on the blocks in a season, up to its end or the day of the report. */
export function sprayedIn(
  { ledger, asOf, blocks }: Omit<ReportInput, 'season'>,
  season: number,
): SeasonSprayed {
  const { last } = seasonSpan(ledger.vineyard, season)
  const day = last < asOf ? last : asOf
  const past = applicationsOf(
    ledger,
    ledger.sprays.filter(({ date }) => date <= day),
  )
  const mine = past.filter(({ block }) => blocks.some(({ id }) => id === block.id))
  const inSeason = mine.filter(({ spray }) => spray.season === season)
  const each = blocks.map((block) => ofBlock({ ledger, day, season }, block, mine))
  const area = blocks.reduce((sum, block) => sum + areaOf(block), 0)
  const vineyard = { ...sumUp(inSeason, area), copper: meanCopper(each) }
  return { day, blocks: each, vineyard, applications: inSeason }
}

function ofBlock(
  { ledger, day, season }: { ledger: Ledger; day: IsoDate; season: number },
  block: Named<Block>,
  past: readonly Application[],
): BlockTotals {
  const own = past.filter((one) => one.block.id === block.id)
  const inSeason = own.filter(({ spray }) => spray.season === season)
  return {
    block: block.id,
    name: block.name,
    ...sumUp(inSeason, areaOf(block)),
    copper: copperOfBlock(ledger, { own, inSeason, day }),
  }
}

const perHa = (value: number | null | undefined): Quantity | null =>
  value === null || value === undefined ? null : { value, unit: 'kg/ha' }

function copperOfBlock(
  ledger: Ledger,
  from: { own: readonly Application[]; inSeason: readonly Application[]; day: IsoDate },
): CopperTotals {
  const limits = ledger.vineyard.limits?.copper
  const season = copperSum(from.inSeason)
  const window = copperOverYears(ledger, from.own, from.day)
  const limitSeason = limits?.per_season
  const known = window !== null && !window.unknownDose
  return {
    season: perHa(season),
    most: perHa(mostCopperOnAVine(from.inSeason)),
    rolling: perHa(known ? window.sum : null),
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
  const mean = (pick: (copper: CopperTotals) => Quantity | null) =>
    blocks.length === 0 || blocks.some(({ copper }) => pick(copper) === null)
      ? null
      : perHa(blocks.reduce((sum, one) => sum + pick(one.copper)!.value * one.area.value, 0) / area)
  const ofAll = (
    pick: (copper: CopperTotals) => Quantity | null,
    end: (values: readonly number[]) => number,
  ) =>
    blocks.length === 0 || blocks.some(({ copper }) => pick(copper) === null)
      ? null
      : perHa(end(blocks.map(({ copper }) => pick(copper)!.value)))
  const first = blocks[0]?.copper
  return {
    season: mean(({ season }) => season),
    most: ofAll(({ most }) => most, highest),
    rolling: mean(({ rolling }) => rolling),
    years: first?.years ?? null,
    window: first?.window ?? null,
    limitSeason: first?.limitSeason ?? null,
    limitRolling: first?.limitRolling ?? null,
    roomSeason: ofAll(({ roomSeason }) => roomSeason, lowest),
    roomRolling: ofAll(({ roomRolling }) => roomRolling, lowest),
    missing: blocks.find(({ copper }) => copper.missing !== null)?.copper.missing ?? null,
  }
}
