import { isoDate } from '../../records/date.ts'
import { type Disease, diseaseWord } from '../../records/disease.ts'
import type { DayChart } from '../charts/day-chart.ts'
import type { PressureDay } from '../disease/days.ts'

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

/** The pressure chart behind the protection spans. */
export function pressureChart(
  days: readonly PressureDay[],
  disease: Disease,
  { powdery }: { powdery: DayChart },
): DayChart {
  if (disease === 'powdery') return powdery
  const values = days.map((day) => pressureOn(day, disease))
  const from = days[0]?.date ?? isoDate(0)
  return {
    title: `${diseaseWord(disease)} pressure`,
    unit: '',
    from,
    low: 0,
    high: 1,
    values,
    combine: 'greatest',
  }
}
