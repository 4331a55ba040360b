import { requirePositive } from '../statistics/require-number.ts'
import { studentQuantile } from '../statistics/student.ts'

/**
 * Picking rate from past picks: all kg over all person-hours.
 * Low and high are a 90 % interval for one more day's rate by Student's t over the picks. Published for comparison:
 * plan 50 kg per person-hour, United Kingdom (hortnews.com, an advisory firm's article).
 *
 * @param picks weight in kg, people, and hours of the day for each pick
 * @returns kg per person-hour; null without a pick, low and high null with fewer than two
 * @throws RangeError when a number is not above zero
 */
export function pickingRate(picks: readonly { weight: number; people: number; hours: number }[]): {
  rate: number | null
  low: number | null
  high: number | null
  picks: number
} {
  for (const { weight, people, hours } of picks) requirePositive({ weight, people, hours })
  const n = picks.length
  if (n === 0) return { rate: null, low: null, high: null, picks: 0 }
  const weight = picks.reduce((sum, pick) => sum + pick.weight, 0)
  const rate = weight / picks.reduce((sum, pick) => sum + pick.people * pick.hours, 0)
  if (n === 1) return { rate, low: null, high: null, picks: 1 }
  const logs = picks.map((pick) => Math.log(pick.weight / (pick.people * pick.hours) / rate))
  const mean = logs.reduce((sum, log) => sum + log, 0) / n
  const variance = logs.reduce((sum, log) => sum + (log - mean) ** 2, 0) / (n - 1)
  const spread = Math.exp(studentQuantile(0.95, n - 1) * Math.sqrt(variance * (1 + 1 / n)))
  return { rate, low: rate / spread, high: rate * spread, picks: n }
}
