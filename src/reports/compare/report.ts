import { CAUTION, makeReport, type Report, type ReportInput } from '../../facts/report.ts'
import { seasonOf, seasonSpan } from '../../ledger/read/seasons.ts'
import { addDays, daysBetween, type IsoDate } from '../../records/date.ts'
import { type SeasonFigures, type SeasonValue, seasonFigures } from './compared.ts'
import { atCommonPlace } from './sugar.ts'

export interface ComparedFigure {
  /** null for the vineyard as a whole. */
  block: string | null
  figure: string
  unit: string
  values: ({ season: number } & SeasonValue)[]
  /** Last season minus the one before it, in `unit`; null where either is missing. */
  change: number | null
  /**
   * How much that is, to put the most first: as a share of the larger; for days of a fortnight, for shares of a fifth.
   */
  weight: number | null
}

export interface CompareData {
  seasons: number[]
  /** The day up to which each season is compared, and whether that is the whole season. */
  upTo: { season: number; date: IsoDate; whole: boolean }[]
  /** What changed most first; what can't be compared last. */
  figures: ComparedFigure[]
}

/** Changes that count as much as one from zero. Own rule: a fortnight, or a fifth of the units looked at. */
const FORTNIGHT = 14
const FIFTH = 20

/**
 * Two or more seasons side by side: growth, heat and rain, sprays, disease at comparable stages, sugar at
 * comparable days and heat, picks and estimates. Where the season of `asOf` is among them and not over, all are
 * looked at up to the same day of the season.
 */
export function compare(input: ReportInput, seasons: readonly number[]): Report<CompareData> {
  const { ledger, asOf } = input
  const site = ledger.vineyard
  const current = seasonOf(site, asOf)
  const sinceStart = seasons.includes(current)
    ? daysBetween(seasonSpan(site, current).first, asOf)
    : Number.POSITIVE_INFINITY
  const upTo = seasons.map((season) => {
    const { first, last } = seasonSpan(site, season)
    const cut = Number.isFinite(sinceStart) ? addDays(first, sinceStart) : last
    return { season, date: cut < last ? cut : last, whole: cut >= last }
  })
  const perSeason = upTo.map(({ season, date }) => seasonFigures({ ...input, season, asOf: date }))
  const figures = [...sideBySide(perSeason), ...sugarFigures(perSeason)].filter(({ values }) =>
    values.some(({ value }) => value !== null),
  )
  const data = { seasons: [...seasons], upTo, figures: figures.sort(byWeight) }
  return makeReport('compare', { asOf, season: null }, { data, cautions: [CAUTION.estimate] })
}

function sideBySide(perSeason: readonly SeasonFigures[]): ComparedFigure[] {
  const keys = new Set(perSeason.flatMap(({ figures }) => [...figures.keys()]))
  return [...keys].map((key) => {
    const [scope, figure] = key.split('\n') as [string, string]
    const unit = perSeason.map(({ figures }) => figures.get(key)?.unit).find((one) => one !== undefined)!
    const values = perSeason.map(({ season, figures, empty }) => {
      const { value, date, why, remark } = figures.get(key) ?? absent(figure, empty)
      return { season, value, date, why, ...(remark ? { remark } : {}) }
    })
    return withChange({ block: scope === '' ? null : scope, figure, unit, values })
  })
}

/** An active substance that wasn't sprayed is zero; a round that wasn't made is unknown. */
function absent(figure: string, empty: boolean): SeasonValue {
  if (!empty && figure.startsWith('active ')) return { value: 0, date: null, why: null }
  const why = !empty && figure.includes(' on ') ? 'no scouting round then' : 'nothing recorded'
  return { value: null, date: null, why }
}

function sugarFigures(perSeason: readonly SeasonFigures[]): ComparedFigure[] {
  const blocks = [...(perSeason.at(-1)?.sugar.keys() ?? [])]
  return blocks.flatMap((block) => {
    const courses = perSeason.map(({ sugar }) => sugar.get(block)!)
    const day = atCommonPlace(courses.map(({ byDay }) => byDay))
    const heat = atCommonPlace(courses.map(({ byHeat }) => byHeat))
    const valuesAt = (brix: readonly number[], dateIn: (first: IsoDate) => IsoDate | null) =>
      perSeason.map(({ season, first }, at) => ({ season, value: brix[at]!, date: dateIn(first), why: null }))
    const figures = [
      day && {
        figure: 'sugar on the same day',
        values: valuesAt(day.brix, (first) => addDays(first, day.x)),
      },
      heat && { figure: `sugar at ${Math.round(heat.x)} °C-days`, values: valuesAt(heat.brix, () => null) },
    ]
    return figures
      .flatMap((one) => one ?? [])
      .map((one) => withChange({ block, figure: one.figure, unit: 'Brix', values: one.values }))
  })
}

function withChange(one: Omit<ComparedFigure, 'change' | 'weight'>): ComparedFigure {
  const [before, now] = one.values.slice(-2).map(({ value }) => value)
  if (before === null || before === undefined || now === null || now === undefined)
    return { ...one, change: null, weight: null }
  const change = now - before
  const larger = Math.max(Math.abs(now), Math.abs(before))
  return { ...one, change, weight: weightOf(change, larger, one.unit) }
}

function weightOf(change: number, larger: number, unit: string): number {
  const size = Math.abs(change)
  if (unit === 'd') return size / FORTNIGHT
  if (unit === '%') return size / FIFTH
  return larger === 0 ? 0 : size / larger
}

function byWeight(a: ComparedFigure, b: ComparedFigure): number {
  return (b.weight ?? -1) - (a.weight ?? -1) || (`${a.block} ${a.figure}` < `${b.block} ${b.figure}` ? -1 : 1)
}
