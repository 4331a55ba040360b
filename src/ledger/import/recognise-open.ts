import { MEASURED, type Measured } from '../weather/columns.ts'
import { numbersOf } from './recognise-units.ts'
import type { ReadColumn, Recognised, Recognising } from './recognised.ts'
import { type HeadingWords, likelyBy } from './weather-words.ts'

/** Reports columns that are understood but not used: rain rates, and an hour's minimum and maximum temperature. */
export function reportUnused({ columns, words, questions, isDaily }: Recognising): void {
  const has = (key: Measured) => columns.some(({ as }) => as === key)
  const named = (which: (words: HeadingWords) => boolean) =>
    columns
      .filter(({ as, by }, at) => as === 'unused' && by !== 'said' && which(words[at]!))
      .map(({ name }) => `\`${name}\``)
  const tell = (names: readonly string[], message: string, help: string) => {
    if (names.length > 0)
      questions.push({
        level: 'warning',
        name: 'unknown-column',
        message: `${names.join(', ')} ${message}`,
        help,
      })
  }
  if (!has('rain'))
    tell(
      named(({ isRate }) => isRate),
      'says how hard it rains, not how much fell: no rain is read',
      'export the rain of each row too, and bring the file in again',
    )
  if (!has('temperature') && !isDaily)
    tell(
      named(({ about, end }) => about === 'temperature' && end !== null),
      'is only one end of the temperatures of a row: no temperature is read',
      'export the mean too, or say which will do: --columns "temperature=NAME"',
    )
}

/** Reports columns that aren't understood and how to name them; refuses the file where only the time is understood. */
export function reportUnrecognised({ columns, questions, isDaily }: Recognising): void {
  const read = columns.filter(({ as }) => as !== null && as !== 'unused' && as !== 'time' && as !== 'date')
  const left = columns.filter(({ as }) => as === null)
  const [lacks] = lackingIn({ columns, isDaily })
  const free = MEASURED.filter((key) => !columns.some(({ as }) => as === key))
  const byUnit = left.map(({ name }) => [likelyBy(name, free), name] as const).find(([key]) => key !== null)
  const [key, name] = byUnit ?? [lacks ?? 'wetness', left[0]?.name ?? 'NAME']
  const example = `--columns "${key}=${name}"`
  if (read.length === 0 && !questions.some(({ level }) => level === 'error'))
    questions.push({
      level: 'error',
      name: 'unknown-column',
      message: `only the time is understood in it; its other columns are ${
        namesOf(columns.filter(({ as }) => as !== 'time' && as !== 'date')) || 'none'
      }`,
      help: `say what they hold: ${example}; known are ${MEASURED.join(', ')}`,
    })
  else if (left.length > 0)
    questions.push({
      level: 'warning',
      name: 'unknown-column',
      message: `${namesOf(left)} ${left.length === 1 ? 'is' : 'are'} not understood, and nothing is read from ${left.length === 1 ? 'it' : 'them'}`,
      help: `if ${left.length === 1 ? 'it' : 'one of them'} is needed, say what it is: ${example}`,
    })
}

/** Most column names in one message; a file can have hundreds of columns. */
const MOST_NAMED = 12

function namesOf(columns: readonly ReadColumn[]): string {
  const names = columns.slice(0, MOST_NAMED).map(({ name }) => `\`${name}\``)
  const more = columns.length - names.length
  return [...names, ...(more > 0 ? [`and ${more} more`] : [])].join(', ')
}

/** What reports need and no column holds. */
const lackingIn = ({ columns, isDaily }: Pick<Recognising, 'columns' | 'isDaily'>): Measured[] =>
  (isDaily ? (['rain', 'max', 'min'] as const) : (['rain', 'temperature', 'humidity'] as const)).filter(
    (key) => !columns.some(({ as }) => as === key),
  )

/** Whether figures may be those of a reading, in whichever unit: degrees and percent vary, rain is mostly none. */
function mayBe(key: Measured, values: readonly number[]): boolean {
  const isWithin = (low: number, high: number) => values.every((value) => value >= low && value <= high)
  if (key === 'humidity') return isWithin(0, 100) && values.some((value) => value > 30)
  if (key !== 'rain') return isWithin(-40, 120) && new Set(values).size > 1
  const isCount = values.every((value, at) => at === 0 || value >= values[at - 1]!)
  return isWithin(0, 10_000) && (isCount || values.filter((value) => value === 0).length * 2 > values.length)
}

/**
 * Columns that aren't understood and may hold what is lacking, by their unit or their figures; with their first
 * figures and possible meanings.
 */
export function openOf(work: Recognising): Recognised['open'] {
  const { columns, shape, isDaily } = work
  const daily = ['min', 'max', 'mean']
  const may = MEASURED.filter((key) => isDaily || !daily.includes(key))
  const free = may.filter((key) => !columns.some(({ as }) => as === key))
  return columns.flatMap(({ as, name }, at) => {
    const likely = as === null ? likelyBy(name, free) : null
    const isNeeded = () => lackingIn(work).some((key) => mayBe(key, numbersOf(work, at)))
    if (as !== null || (likely === null && !isNeeded())) return []
    return [{ name, figures: shape.rows.flatMap((row) => row[at] || []).slice(0, 4), may: free, likely }]
  })
}
