import { MEASURED, type Measured } from '../weather/columns.ts'
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
  const wanted = isDaily ? (['rain', 'max', 'min'] as const) : (['rain', 'temperature', 'humidity'] as const)
  const lacks = wanted.find((key) => !columns.some(({ as }) => as === key))
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
      help: `if one of them is needed, say what it is: ${example}`,
    })
}

/** Names of columns that are told of at once; a file can have hundreds. */
const MOST_NAMED = 12

function namesOf(columns: readonly ReadColumn[]): string {
  const names = columns.slice(0, MOST_NAMED).map(({ name }) => `\`${name}\``)
  const more = columns.length - names.length
  return [...names, ...(more > 0 ? [`and ${more} more`] : [])].join(', ')
}

/** Columns that aren't understood, with their first figures and possible meanings. */
export function openOf({ columns, shape, isDaily }: Recognising): Recognised['open'] {
  const daily = ['min', 'max', 'mean']
  const may = MEASURED.filter((key) => isDaily || !daily.includes(key))
  const free = may.filter((key) => !columns.some(({ as }) => as === key))
  return columns.flatMap(({ as, name }, at) => {
    const figures = shape.rows.flatMap((row) => row[at] || []).slice(0, 4)
    return as === null ? [{ name, figures, may: free, likely: likelyBy(name, free) }] : []
  })
}
