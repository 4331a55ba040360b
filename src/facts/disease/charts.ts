import { BOTRYTIS_RISK_FROM, botrytisShare } from '../../agronomy/disease/botrytis-infection.ts'
import type { DayChart } from '../charts/day-chart.ts'
import type { PressureDay } from './days.ts'

interface PressureCharts {
  powdery: DayChart
  downy: DayChart
  botrytis: DayChart
  blackRot: DayChart
}

/** One chart for each disease, all over the same days. */
export function pressureCharts(days: readonly PressureDay[]): PressureCharts {
  const from = days[0]?.date ?? '1970-01-01'
  const yesNo = (value: boolean | null) => (value === null ? null : value ? 1 : 0)
  const event = (title: string, pick: (day: PressureDay) => boolean | null): DayChart => ({
    title,
    unit: '',
    from,
    low: 0,
    high: 1,
    values: days.map((day) => yesNo(pick(day))),
    combine: 'greatest',
  })
  const [low, moderate, high] = BOTRYTIS_RISK_FROM.map(({ logit }) => botrytisShare(logit))
  return {
    powdery: {
      title: 'powdery mildew index',
      unit: '',
      from,
      low: 0,
      high: 100,
      values: days.map(({ powdery }) => powdery.index),
      bands: [
        { name: 'low', from: 0, to: 35 },
        { name: 'moderate', from: 35, to: 55 },
        { name: 'high', from: 55, to: 100 },
      ],
      combine: 'greatest',
    },
    downy: event('downy mildew, primary infection possible', ({ downy }) => downy.primary),
    botrytis: {
      title: 'botrytis, share of berries infected',
      unit: '',
      from,
      low: 0,
      high: 1,
      values: days.map(({ botrytis }) => botrytis.index ?? (botrytis.risk === 'none' ? 0 : null)),
      bands: [
        { name: 'none', from: 0, to: low! },
        { name: 'low', from: low!, to: moderate! },
        { name: 'moderate', from: moderate!, to: high! },
        { name: 'high', from: high!, to: 1 },
      ],
      combine: 'greatest',
    },
    blackRot: event('black rot, infection possible', ({ blackRot }) => blackRot.infection),
  }
}
