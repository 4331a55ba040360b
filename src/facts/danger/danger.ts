import { dayOf, type IsoDate } from '../../records/date.ts'
import { type Disease, diseaseWord } from '../../records/disease.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { type PressureCourse, sitePressure } from '../disease/course.ts'
import { shareHanging } from '../hanging.ts'
import { growingSpan } from '../heat/window.ts'
import { inLedgerUnits, type Units, unitsOf } from '../ledger-units.ts'
import type { ReportInput } from '../report.ts'
import { type Find, findsBy, findText, isFresh, overText, seenRows } from './finds.ts'
import type { Growth } from './growth.ts'
import { judgedDiseases } from './known.ts'
import { type Tissue, tissueOn } from './tissue.ts'
import { type Rank, type WeatherRank, weatherRank } from './weather-rank.ts'
import { winterOf } from './winter.ts'

type DangerLevel = 'low' | 'moderate' | 'high' | 'unknown'

/** How likely and how serious a disease is in a block on a day, and why. */
export interface Danger {
  level: DangerLevel
  /** The most important first. */
  reasons: string[]
  /** What isn't known and could raise the level. */
  unknown: string[]
  /** What is open to infection; null where nothing is. */
  tissue: 'fruit' | 'leaf' | 'both' | null
}

/** The judgement, and whether the day lies in the critical period of fruit, or a time botrytis sprays are timed for. */
interface Judged extends Danger {
  critical: Tissue['critical']
}

/** The judgement of danger for every block, disease and day of a ledger; the one place that makes it. */
export interface DangerJudge {
  diseases: readonly Disease[]
  on: (block: string, disease: Disease, date: IsoDate) => Judged
  /** Whether anything in the block can be infected: a part of the judgement that is quick to calculate. */
  isOpen: (block: string, disease: Disease, date: IsoDate) => boolean
  growth: (block: string) => Growth
  /** Disease pressure on the whole site, calculated once for a report. */
  site: PressureCourse
}

/** Judges with what all judgements of a report share: weather, growth of each block, the diseases judged. */
export function dangerJudge(input: ReportInput, site: PressureCourse = sitePressure(input)): DangerJudge {
  const { ledger, season } = input
  const growing = growingSpan(ledger.vineyard, season)
  const growth = (block: string) => site.starts.growths.get(block)!
  const diseases = judgedDiseases(ledger)
  const findsOn = findsBy(seenRows(input))
  const winter = winterOf(input)
  const whyNone = (block: string, disease: Disease, date: IsoDate): string | null => {
    if (!diseases.includes(disease)) return `${diseaseWord(disease)} is not known here`
    return date < growing.from || isPicked(input, block, date) ? 'no crop or leaves to protect' : null
  }
  const tissueIn = (block: string, disease: Disease, date: IsoDate): Tissue => {
    const isSpot = (find: Find) => find.block === block && find.organ === 'leaves' && isFresh(find, date)
    const spotted = disease === 'downy' && findsOn(disease, date).some(isSpot)
    return tissueOn(disease, growth(block), { day: dayOf(date), spotted })
  }
  const isOpen = (block: string, disease: Disease, date: IsoDate): boolean =>
    whyNone(block, disease, date) === null && tissueIn(block, disease, date).part !== null
  // All blocks share the weather, and reports ask for it day by day.
  const ranks = new Map<string, WeatherRank>()
  const rankOn = (disease: Disease, date: IsoDate, oilSpotsSince: IsoDate | null): WeatherRank => {
    const key = `${disease} ${date} ${oilSpotsSince}`
    const rank = ranks.get(key) ?? weatherRank(disease, site.days, { date, oilSpotsSince })
    ranks.set(key, rank)
    return rank
  }
  const on = (block: string, disease: Disease, date: IsoDate): Judged => {
    const none = whyNone(block, disease, date)
    if (none !== null) return nothing(none)
    const all = findsOn(disease, date)
    const isHere = (find: Find) => find.block === block
    const fresh = all.filter((find) => isFresh(find, date))
    const oilSpotsSince = disease === 'downy' ? (fresh.map((find) => find.date).sort()[0] ?? null) : null
    const variety = ledger.varieties.get(ledger.blocks.get(block)?.variety ?? '')
    const parts: Parts = {
      disease,
      tissue: tissueIn(block, disease, date),
      weather: rankOn(disease, date, oilSpotsSince),
      finds: all.filter(isHere),
      fresh: fresh.filter(isHere),
      near: fresh.filter((find) => !isHere(find)),
      prone: variety?.susceptibility?.[disease],
      wintered: winter(block, disease, date),
    }
    return inUnits(join(parts), unitsOf(ledger))
  }
  return { diseases, on, isOpen, growth, site }
}

function inUnits(judged: Judged, units: Units): Judged {
  if (units === 'metric') return judged
  const put = (lines: string[]) => lines.map((line) => inLedgerUnits(line, units))
  return { ...judged, reasons: put(judged.reasons), unknown: put(judged.unknown) }
}

const GRAVITY: Record<DangerLevel, number> = { low: 0, moderate: 1, unknown: 2, high: 3 }

/** The more serious of two; unknown may be worse than moderate. */
export const graver = <One extends Danger>(one: One, other: One): One =>
  GRAVITY[other.level] > GRAVITY[one.level] ? other : one

/** The judgement alone, as the JSON contract has it. */
export const plainDanger = (danger: Danger): Danger => ({
  level: danger.level,
  get reasons() {
    return danger.reasons
  },
  unknown: danger.unknown,
  tissue: danger.tissue,
})

const nothing = (why: string): Judged => ({
  level: 'low',
  reasons: [why],
  unknown: [],
  tissue: null,
  critical: 'out',
})

/** Whether the last pick by then left nothing on the vines. */
export function isPicked({ ledger, season }: ReportInput, block: string, date: IsoDate): boolean {
  return shareHanging(ledger, { block, season, asOf: date }) === 0
}

interface Parts {
  disease: Disease
  tissue: Tissue
  weather: WeatherRank
  /** What was seen in the block; of that, what still counts in full; and the same of the other blocks. */
  finds: Find[]
  fresh: readonly Find[]
  near: readonly Find[]
  prone: 'low' | 'medium' | 'high' | undefined
  /** What overwintered, in words. */
  wintered: string[]
}

/** Combines weather, what was seen, tissue and variety. The variety never changes what was seen. */
function join(parts: Parts): Judged {
  const { disease, tissue, weather, fresh } = parts
  const { part, critical } = tissue
  /** Whether what was seen needs action: over the threshold, or anything found in the critical period. */
  const act = fresh.some(({ over }) => over || callsForAction(disease, { critical, tissue: part }))
  if (part === null) {
    // What was seen on the fruit still counts when nothing more can be infected.
    const level = LEVELS[act ? 2 : 1]!
    return { critical, level, reasons: [...seenTexts(parts), tissue.why], unknown: [], tissue: null }
  }
  const rank = Math.max(shifted(likelyRank(parts), parts), seenRank(parts, act))
  return {
    critical,
    level: rank < 3 && weather.open ? 'unknown' : LEVELS[rank]!,
    // Worded only when read: most days are just compared.
    get reasons() {
      return reasonsOf(parts)
    },
    unknown: [...weather.unknown, ...(tissue.unknown ? [tissue.unknown] : [])],
    tissue: part,
  }
}

/** Whether any find needs action, even under its threshold: in the critical period, but for botrytis. */
export const callsForAction = (disease: Disease, { critical, tissue }: Pick<Judged, 'critical' | 'tissue'>) =>
  disease !== 'botrytis' && critical !== 'out' && tissue !== null

const LEVELS: readonly DangerLevel[] = ['low', 'low', 'moderate', 'high']

/** By weather, tissue and what was seen elsewhere. */
function likelyRank({ disease, tissue: { part, critical }, weather, near }: Parts): Rank {
  let rank: number = weather.rank ?? 0
  if (disease === 'botrytis' && critical === 'may be') rank = Math.min(rank, 2)
  if (disease === 'powdery' && critical !== 'out') rank = Math.max(rank, critical === 'in' ? 3 : 2)
  // Leaves alone can wait for a day, fruit can't: common practice, no source.
  if (part === 'leaf') rank = Math.min(rank, 2)
  // Rot in another block also needs wet weather, which the weather rank already counts.
  if (critical !== 'out' && disease !== 'botrytis' && near.length > 0) rank = Math.max(rank, 2)
  return rank as Rank
}

/**
 * The variety moves the class by one either way; "no infection possible" stays, and leaves alone don't rise from low.
 */
function shifted(rank: Rank, { prone, tissue }: Parts): Rank {
  if (rank === 0) return 0
  if (prone === 'low') return Math.max(1, rank - 1) as Rank
  if (prone !== 'high' || (tissue.part === 'leaf' && rank === 1)) return rank
  // Where tissue only may be at risk, the variety alone doesn't make it high.
  const most = tissue.part === 'leaf' || tissue.critical === 'may be' ? Math.max(2, rank) : 3
  return Math.min(most, rank + 1) as Rank
}

/**
 * From what was seen in the block: high where it needs action or oil spots had a night that suits infection, else
 * moderate.
 */
function seenRank({ disease, finds, fresh, weather }: Parts, act: boolean): Rank {
  if (finds.length === 0) return 0
  if (act) return 3
  if (disease === 'botrytis' && weather.rank === 0 && !weather.open) return 1
  return disease === 'downy' && fresh.length > 0 && weather.rank === 3 ? 3 : 2
}

const seenTexts = ({ fresh }: Parts) =>
  fresh
    .slice(-2)
    .reverse()
    .map((find) => `${findText(find)}${overText(find)}`)

function reasonsOf(parts: Parts): string[] {
  const { disease, tissue, weather, near, prone } = parts
  const last = near.at(-1)
  const elsewhere = last ? [`seen elsewhere in the vineyard on ${shortDate(last.date)}`] : []
  return [
    ...seenTexts(parts),
    ...(disease === 'powdery' && tissue.critical !== 'out'
      ? [tissue.why, ...elsewhere, ...weather.reasons]
      : [...weather.reasons, ...elsewhere, tissue.why]),
    ...parts.wintered,
    ...(prone === 'high' ? ['susceptible variety'] : prone === 'low' ? ['resistant variety'] : []),
  ]
}

/** The judgement of one block and disease. */
export interface BlockDanger {
  block: string
  disease: Disease
  danger: Danger
}
