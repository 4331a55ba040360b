import { areaOf } from '../../facts/block-size.ts'
import { blockCrop, totalOf } from '../../facts/crop/estimate.ts'
import { roundsOf } from '../../facts/disease/round-rows.ts'
import type { ReportInput } from '../../facts/report.ts'
import { isCopper } from '../../facts/spraying/actives.ts'
import { sprayedIn } from '../../facts/spraying/season-totals.ts'
import { seasonSpan } from '../../ledger/read/seasons.ts'
import { daysBetween, type IsoDate } from '../../records/date.ts'
import { diseaseWord } from '../../records/disease.ts'
import { SEASON_KINDS } from '../../records/kinds.ts'
import { type SugarCourse, sugarCourse } from './sugar.ts'
import { seasonWeather } from './weather.ts'

/** A figure of one season; null where `why` says what is missing. */
export interface SeasonValue {
  value: number | null
  /** Where the figure is a day. */
  date: IsoDate | null
  why: string | null
  /** What the figure leaves out or fills in, where it isn't as measured. */
  remark?: string | null
}

/** The figures of one season by name. */
export interface SeasonFigures {
  season: number
  first: IsoDate
  figures: Map<string, SeasonValue & { unit: string }>
  sugar: Map<string, SugarCourse>
  /** Whether the season has no record of any kind. */
  empty: boolean
}

/** Growth stages that mark the season, by their BBCH number. */
const MARKS = [
  [9, 'budburst'],
  [65, 'full flowering'],
  [81, 'veraison'],
  [89, 'ripe'],
] as const

/** Spans of growth stages in which scouting rounds are comparable. */
const SPANS = [
  [0, 59, 'before flowering'],
  [60, 71, 'flowering to fruit set'],
  [73, 79, 'berries growing'],
  [81, 89, 'from veraison'],
] as const

/** All figures of one season, up to a day, for the requested blocks and for the vineyard. */
export function seasonFigures(input: ReportInput): SeasonFigures {
  const { ledger, season, asOf, blocks } = input
  const { first } = seasonSpan(ledger.vineyard, season)
  const figures: SeasonFigures['figures'] = new Map()
  const put = (scope: string, name: string, unit: string, value: number | null, why: string | null = null) =>
    figures.set(`${scope}\n${name}`, {
      unit,
      value,
      date: null,
      why: value === null ? (why ?? 'nothing recorded') : null,
    })
  const putDate = (scope: string, name: string, date: IsoDate | null, why: string) =>
    figures.set(`${scope}\n${name}`, {
      unit: 'd',
      value: date === null ? null : daysBetween(first, date),
      date,
      why: date === null ? why : null,
    })
  const weather = seasonWeather(input)
  for (const [name, unit, { value, why, remark }] of [
    ['heat sum', '°C-days', weather.heat],
    ['rain', 'mm', weather.rain],
  ] as const)
    figures.set(`\n${name}`, { unit, value, date: null, why, remark })
  const sprays = sprayedIn(input, season)
  const empty = isEmpty(input) ? 'nothing recorded' : null
  for (const one of [
    ...sprays.blocks.map((each) => ({ ...each, scope: each.block })),
    { ...sprays.vineyard, scope: '' },
  ]) {
    const sprayed = <T>(value: T) => (empty === null ? value : null)
    put(one.scope, 'sprays', '', sprayed(one.sprays), empty)
    put(one.scope, 'treatment frequency', '', sprayed(one.treatmentFrequency), empty)
    const copper = sprayed(one.copper.season?.value ?? null)
    put(one.scope, 'copper', 'kg/ha', copper, empty ?? one.copper.missing)
    for (const active of one.actives.filter(
      ({ active, group }) => !isCopper({ name: active, group: group ?? undefined }),
    ))
      put(one.scope, `active ${active.active}`, 'kg/ha', active.perHa?.value ?? null, active.missing)
  }
  const sugar = new Map<string, SugarCourse>()
  for (const block of blocks) {
    for (const [stage, name] of MARKS) {
      const seen = ledger.stages.find(
        (entry) =>
          entry.block === block.id && entry.season === season && entry.date <= asOf && entry.stage >= stage,
      )
      putDate(block.id, name, seen?.date ?? null, 'stage not recorded')
    }
    putDisease(input, block.id, put)
    sugar.set(block.id, sugarCourse(input, { block: block.id, season, heatUpTo: weather.heatUpTo, first }))
    put(block.id, 'sugar rate', 'Brix/d', sugar.get(block.id)!.perDay, 'too few samples')
  }
  putPicks(input, put, putDate)
  return { season, first, figures, sugar, empty: empty !== null }
}

/** Whether a season has no record of any kind up to the day, so that having no sprays may only mean no records. */
const isEmpty = ({ ledger, season, asOf }: ReportInput) =>
  SEASON_KINDS.every((kind) => !ledger[kind].some((one) => one.season === season && one.date <= asOf))

type Put = (scope: string, name: string, unit: string, value: number | null, why?: string | null) => void
type PutDate = (scope: string, name: string, date: IsoDate | null, why: string) => void

/** The worst share found in each span of stages, so that rounds are compared at the same growth. */
function putDisease(input: ReportInput, block: string, put: Put): void {
  const { ledger, season } = input
  const stageOn = (date: IsoDate) =>
    ledger.scouting.find((walk) => walk.block === block && walk.date === date && walk.stage !== undefined)
      ?.stage ??
    ledger.stages.findLast((entry) => entry.block === block && entry.season === season && entry.date <= date)
      ?.stage
  const own = input.blocks.filter(({ id }) => id === block)
  const worst = new Map<string, number>()
  for (const walk of roundsOf({ ...input, blocks: own })) {
    const stage = stageOn(walk.date)
    const span = stage === undefined ? undefined : SPANS.find(([low, high]) => stage >= low && stage <= high)
    if (!span || walk.incidence === null) continue
    const name = `${diseaseWord(walk.disease)} on ${walk.organ}, ${span[2]}`
    worst.set(name, Math.max(worst.get(name) ?? 0, walk.incidence))
  }
  for (const [name, share] of worst) put(block, name, '%', share * 100)
}

function putPicks(input: ReportInput, put: Put, putDate: PutDate): void {
  const { ledger, season, asOf, blocks } = input
  const ids = new Set(blocks.map(({ id }) => id))
  const all = ledger.picks.filter(
    (pick) => pick.season === season && pick.date <= asOf && ids.has(pick.block),
  )
  for (const own of [...blocks.map((block) => [block]), blocks]) {
    const scope = own === blocks ? '' : own[0]!.id
    const picks = all.filter((pick) => own.some(({ id }) => id === pick.block))
    const weightOf = (some: typeof picks) => some.reduce((sum, { weight }) => sum + weight, 0)
    const kilograms = weightOf(picks)
    const area = own.reduce((sum, block) => sum + areaOf(block), 0)
    const none = 'not picked'
    putDate(scope, 'first pick', picks[0]?.date ?? null, none)
    put(scope, 'yield', 'kg/ha', picks.length === 0 || area === 0 ? null : kilograms / area, none)
    const read = picks.filter(({ brix }) => brix !== undefined)
    const weighed = weightOf(read)
    const brix =
      weighed === 0 ? null : read.reduce((sum, { weight, brix }) => sum + weight * brix!, 0) / weighed
    put(scope, 'sugar at the press', 'Brix', brix, none)
    const timed = picks.filter(({ people, hours }) => people !== undefined && hours !== undefined)
    const hours = timed.reduce((sum, { people, hours }) => sum + people! * hours!, 0)
    const rate = hours === 0 ? null : weightOf(timed) / hours
    put(scope, 'picking rate', 'kg/h', rate, 'no people and hours recorded')
    const firstPick = picks[0]?.date
    const estimated =
      firstPick === undefined
        ? null
        : totalOf(own.map((block) => blockCrop(ledger, block, { ...input, asOf: firstPick })))
    const ratio = estimated?.estimate ? (100 * kilograms) / estimated.estimate : null
    put(scope, 'picked of the estimate', '%', ratio, estimated ? (estimated.reason ?? 'no estimate') : none)
  }
}
