import { BOTRYTIS_RISK_FROM, botrytisShare } from '../../agronomy/disease/botrytis-infection.ts'
import { isoDate } from '../../records/date.ts'
import { type Disease, diseaseWord } from '../../records/disease.ts'
import type { DayChart } from '../charts/day-chart.ts'
import type { PressureDay } from './days.ts'

/**
 * A disease's index on a day: powdery 0 to 100, botrytis 0 to 1, downy and black rot 1 where infection was possible.
 */
export function pressureOn(day: PressureDay | undefined, disease: Disease): number | null {
  if (!day) return null
  const yes = (value: boolean | null) => (value === null ? null : value ? 1 : 0)
  if (disease === 'powdery') return day.powdery.index ?? day.powdery.high
  if (disease === 'downy') return yes(day.downy.primary)
  if (disease === 'botrytis') return day.botrytis.index ?? (day.botrytis.risk === 'none' ? 0 : null)
  return disease === 'black-rot' ? yes(day.blackRot.infection) : null
}

/** One chart for each disease, all over the same days. */
export const pressureCharts = (days: readonly PressureDay[]) => ({
  powdery: powderyChart(days),
  downy: chartOf(days, 'downy', 'downy mildew, primary infection possible'),
  botrytis: {
    ...chartOf(days, 'botrytis', 'botrytis, share of berries infected'),
    bands: bandsBetween(['none', 'low', 'moderate', 'high'], [0, ...BOTRYTIS_SHARES, 1]),
  },
  blackRot: chartOf(days, 'black-rot', 'black rot, infection possible'),
})

/** The pressure chart behind the protection spans of a disease. */
export const pressureChart = (days: readonly PressureDay[], disease: Disease): DayChart =>
  disease === 'powdery' ? powderyChart(days) : chartOf(days, disease, `${diseaseWord(disease)} pressure`)

const BOTRYTIS_SHARES = BOTRYTIS_RISK_FROM.map(({ logit }) => botrytisShare(logit))

const powderyChart = (days: readonly PressureDay[]): DayChart => ({
  ...chartOf(days, 'powdery', 'powdery mildew index'),
  high: 100,
  values: days.map(({ powdery }) => powdery.index),
  bands: bandsBetween(['low', 'moderate', 'high'], [0, 35, 55, 100]),
})

const chartOf = (days: readonly PressureDay[], disease: Disease, title: string): DayChart => ({
  title,
  unit: '',
  from: days[0]?.date ?? isoDate(0),
  low: 0,
  high: 1,
  values: days.map((day) => pressureOn(day, disease)),
  combine: 'greatest',
})

const bandsBetween = (names: readonly string[], limits: readonly number[]) =>
  names.map((name, at) => ({ name, from: limits[at]!, to: limits[at + 1]! }))
