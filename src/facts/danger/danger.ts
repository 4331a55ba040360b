import { dayOf, type IsoDate } from '../../records/date.ts'
import { type Disease, diseaseWord } from '../../records/disease.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { type PressureCourse, sitePressure } from '../disease/course.ts'
import { growingSpan } from '../heat/window.ts'
import { inLedgerUnits, unitsOf } from '../ledger-units.ts'
import type { ReportInput } from '../report.ts'
import { type Find, findsBy, findText, isFresh, overText, seenRows } from './finds.ts'
import type { Growth } from './growth.ts'
import { judgedDiseases } from './known.ts'
import { type Tissue, tissueOn } from './tissue.ts'
import { type Rank, type WeatherRank, weatherRank } from './weather-rank.ts'
import { winterOf } from './winter.ts'

type Units = ReportInput['ledger']['vineyard']['units']

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

/** The judgement with its inputs, for explanations. */
interface Judged extends Danger {
  /** Whether the day lies in the critical period of fruit, or a time botrytis sprays are timed for. */
  critical: Tissue['critical']
  /** What was seen in the block and still counts. */
  finds: Find[]
  /** Whether what was seen needs action: over the threshold, or anything found in the critical period. */
  act: boolean
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
    const spotted =
      disease === 'downy' &&
      findsOn(disease, date).some(
        (find) => find.block === block && find.organ === 'leaves' && isFresh(find, date),
      )
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
    const tissue = tissueIn(block, disease, date)
    const all = findsOn(disease, date)
    const finds = all.filter((find) => find.block === block)
    const others = all.filter((find) => find.block !== block)
    const spots = disease === 'downy' ? [...finds, ...others].filter((find) => isFresh(find, date)) : []
    const oilSpotsSince = spots.map((find) => find.date).sort()[0] ?? null
    const weather = rankOn(disease, date, oilSpotsSince)
    const variety = ledger.varieties.get(ledger.blocks.get(block)?.variety ?? '')
    const prone = variety?.susceptibility?.[disease]
    const wintered = winter(block, disease, date)
    const parts = { disease, date, tissue, weather, finds, others, prone, wintered }
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
  finds: [],
  act: false,
})

/** Whether the last pick by then left nothing on the vines. */
export function isPicked({ ledger, season }: ReportInput, block: string, date: IsoDate): boolean {
  const last = ledger.picks.findLast(
    (one) => one.block === block && one.season === season && one.date <= date,
  )
  return last !== undefined && (last.rest ?? 0) === 0
}

interface Parts {
  disease: Disease
  date: IsoDate
  tissue: Tissue
  weather: WeatherRank
  finds: readonly Find[]
  others: readonly Find[]
  prone: 'low' | 'medium' | 'high' | undefined
  /** What overwintered, in words. */
  wintered: string[]
}

/** Combines weather, what was seen, tissue and variety. The variety never changes what was seen. */
function join(parts: Parts): Judged {
  const { disease, tissue, weather, finds, date } = parts
  const { part, critical } = tissue
  const anyFind = disease !== 'botrytis' && critical !== 'out' && part !== null
  const act = finds.some((find) => isFresh(find, date) && (find.over || anyFind))
  const facts = { critical, finds: [...finds], act }
  if (part === null) {
    // What was seen on the fruit still counts when nothing more can be infected.
    const level = LEVELS[act ? 2 : 1]!
    return { ...facts, level, reasons: [...seenTexts(parts), tissue.why], unknown: [], tissue: null }
  }
  const likely = shifted(likelyRank(parts), parts)
  const rank = Math.max(likely, seenRank(parts, act)) as Rank
  const unknown = [...weather.unknown, ...(tissue.unknown ? [tissue.unknown] : [])]
  const level = rank < 3 && weather.open ? 'unknown' : LEVELS[rank]!
  return {
    ...facts,
    level,
    // Worded only when read: most days are just compared.
    get reasons() {
      return reasonsOf(parts)
    },
    unknown,
    tissue: part,
  }
}

const LEVELS: readonly DangerLevel[] = ['low', 'low', 'moderate', 'high']

/** By weather, tissue and what was seen elsewhere. */
function likelyRank({ disease, tissue, weather, others, date }: Parts): Rank {
  let rank: Rank = weather.rank ?? 0
  if (disease === 'botrytis' && tissue.critical === 'may be') rank = Math.min(rank, 2) as Rank
  if (disease === 'powdery' && tissue.critical === 'in') rank = 3
  if (disease === 'powdery' && tissue.critical === 'may be') rank = Math.max(rank, 2) as Rank
  // Leaves alone can wait for a day, fruit can't: common practice, no source.
  if (tissue.part === 'leaf') rank = Math.min(rank, 2) as Rank
  // Rot in another block also needs wet weather, which the weather rank already counts.
  const near = disease !== 'botrytis' && others.some((find) => isFresh(find, date))
  if (tissue.critical !== 'out' && near) rank = Math.max(rank, 2) as Rank
  return rank
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
function seenRank({ disease, finds, weather, date, tissue }: Parts, act: boolean): Rank {
  if (finds.length === 0) return 0
  if (act) return 3
  if (disease === 'botrytis' && weather.rank === 0 && !weather.open) return 1
  const fresh = finds.some((find) => isFresh(find, date))
  const spread = disease === 'downy' && weather.rank === 3
  return fresh && spread && tissue.part !== null ? 3 : 2
}

const seenTexts = ({ finds, date }: Parts) =>
  finds
    .filter((find) => isFresh(find, date))
    .slice(-2)
    .reverse()
    .map((find) => `${findText(find)}${overText(find)}`)

function reasonsOf(parts: Parts): string[] {
  const { disease, tissue, weather, others, prone, date } = parts
  const near = others.filter((find) => isFresh(find, date)).at(-1)
  const elsewhere = near ? [`seen elsewhere in the vineyard on ${shortDate(near.date)}`] : []
  return [
    ...seenTexts(parts),
    ...(disease === 'powdery' && tissue.critical !== 'out'
      ? [tissue.why, ...elsewhere, ...weather.reasons]
      : [...weather.reasons, ...elsewhere, tissue.why]),
    ...parts.wintered,
    ...(prone === 'high' ? ['susceptible variety'] : prone === 'low' ? ['resistant variety'] : []),
  ]
}
