import type { CourseChart } from '../../facts/charts/course-chart.ts'
import { addDays, daysBetween } from '../../records/date.ts'
import { diseaseWord } from '../../records/disease.ts'
import type { ScoutingData } from './report.ts'

/** What the scouting rounds of a block found, a panel for each disease and organ; null where there was no scouting round. */
export function scoutingChart(
  { walks, states, trends }: ScoutingData,
  { block, name }: { block: string; name: string },
): CourseChart | null {
  const own = walks.filter((walk) => walk.block === block)
  const dates = own.map(({ date }) => date).sort()
  const [first, last] = [dates[0], dates.at(-1)]
  if (first === undefined || last === undefined) return null
  const room = Math.max(2, Math.round(daysBetween(first, last) / 30))
  const keys = [
    ...new Map(own.map(({ disease, organ }) => [`${disease} ${organ}`, { disease, organ }])).values(),
  ]
  const sprayed = trends.filter((trend) => trend.block === block).flatMap(({ sprays }) => sprays)
  return {
    marks: [...new Set(sprayed.map(({ date }) => date))].map((date) => ({
      date,
      label: 'sprayed',
      done: true,
    })),
    title: `${name}: share found with symptoms, 95 % interval`,
    from: addDays(first, -room),
    to: addDays(last, room),
    panels: keys.map(({ disease, organ }) => {
      const state = states.find(
        (one) => one.block === block && one.disease === disease && one.organ === organ,
      )
      const limit = state?.threshold.of === 'incidence' ? state.threshold.share : null
      return {
        name: `${diseaseWord(disease)} on ${organ}`,
        unit: '%',
        points: own
          .filter((walk) => walk.disease === disease && walk.organ === organ)
          .map(({ date, incidence, low, high }) => ({
            date,
            value: incidence * 100,
            low: low * 100,
            high: high * 100,
          })),
        ...(limit === null ? {} : { limit: limit * 100 }),
      }
    }),
  }
}
