import { MEASURED, type Measured } from '../weather/columns.ts'
import { numbersOf } from './recognise-units.ts'
import { type HeadedColumn, type ReadColumn, type Recognising, readingOf } from './recognised.ts'
import { likelyBy } from './weather-words.ts'

const has = ({ columns }: Recognising, key: Measured) => columns.some(({ as }) => as === key)

/** Reports columns that are understood but not used: rain rates, and an hour's minimum and maximum temperature. */
export function reportUnused(work: Recognising): void {
  const tell = (which: (words: HeadedColumn['words']) => boolean, what: string, help: string) => {
    const unused = work.columns.filter(
      ({ as, by, words }) => as === 'unused' && by !== 'said' && which(words),
    )
    const message = `${unused.map(({ name }) => `\`${name}\``).join(', ')} ${what}`
    if (unused.length > 0) work.questions.push({ level: 'warning', name: 'unknown-column', message, help })
  }
  if (!has(work, 'rain'))
    tell(
      ({ isRate }) => isRate,
      'says how hard it rains, not how much fell: no rain is read',
      'export the rain of each row too, and bring the file in again',
    )
  if (!has(work, 'temperature') && !work.isDaily)
    tell(
      ({ about, end }) => about === 'temperature' && end !== null,
      'is only one end of the temperatures of a row: no temperature is read',
      'export the mean too, or say which will do: --columns "temperature=NAME"',
    )
}

/** Reports columns that aren't understood and how to name them; refuses the file where only the time is understood. */
export function reportUnrecognised(work: Recognising): void {
  const { columns, questions } = work
  const left = columns.filter(({ as }) => as === null)
  const free = MEASURED.filter((key) => !has(work, key))
  const byUnit = left.map(({ name }) => [likelyBy(name, free), name] as const).find(([key]) => key !== null)
  const [key, name] = byUnit ?? [lackingIn(work)[0] ?? 'wetness', left[0]?.name ?? 'NAME']
  const example = `--columns "${key}=${name}"`
  if (!columns.some(readingOf) && !questions.some(({ level }) => level === 'error'))
    questions.push({
      level: 'error',
      name: 'unknown-column',
      message: `only the time is understood in it; its other columns are ${
        namesOf(columns.filter(({ as }) => as !== 'time' && as !== 'date')) || 'none'
      }`,
      help: `say what they hold: ${example}; known are ${MEASURED.join(', ')}`,
    })
  else if (left.length > 0) {
    const [are, them, one] = left.length === 1 ? ['is', 'it', 'it'] : ['are', 'them', 'one of them']
    questions.push({
      level: 'warning',
      name: 'unknown-column',
      message: `${namesOf(left)} ${are} not understood, and nothing is read from ${them}`,
      help: `if ${one} is needed, say what it is: ${example}`,
    })
  }
}

/** Most column names in one message; a file can have hundreds of columns. */
const MOST_NAMED = 12

function namesOf(columns: readonly ReadColumn[]): string {
  const names = columns.slice(0, MOST_NAMED).map(({ name }) => `\`${name}\``)
  const more = columns.length - names.length
  return [...names, ...(more > 0 ? [`and ${more} more`] : [])].join(', ')
}

/** What reports need and no column holds. */
const lackingIn = (work: Recognising): Measured[] =>
  (work.isDaily ? (['rain', 'max', 'min'] as const) : (['rain', 'temperature', 'humidity'] as const)).filter(
    (key) => !has(work, key),
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
export function openOf(work: Recognising) {
  const may = MEASURED.filter(
    (key) => !has(work, key) && (work.isDaily || (key !== 'min' && key !== 'max' && key !== 'mean')),
  )
  return work.columns.flatMap(({ as, name, at }) => {
    if (as !== null) return []
    const likely = likelyBy(name, may)
    if (likely === null && !lackingIn(work).some((key) => mayBe(key, numbersOf(work, at)))) return []
    return [{ name, figures: work.shape.rows.flatMap((row) => row[at] || []).slice(0, 4), may, likely }]
  })
}
