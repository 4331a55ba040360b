import { findColumns, MEASURED, type Measured, type WeatherMapping } from '../weather/columns.ts'
import { NOTHING } from '../weather/rows.ts'
import { takeCellUnits } from './cell-units.ts'
import { markOf, shapeOfExport } from './export-shape.ts'
import { openOf, reportUnrecognised, reportUnused } from './recognise-open.ts'
import { offsetOf, takeTimes } from './recognise-times.ts'
import { countsRain, numberIn, scaleOf, takeUnits } from './recognise-units.ts'
import { type HeadedColumn, type ReadColumn, type Recognising, readingOf, type Said } from './recognised.ts'
import { headingWords, temperatureKey, unitIn } from './weather-words.ts'

/**
 * Recognises an export's columns by their names, units and values, after what the user said about it and
 * what `vineyard.yaml` maps. Asks about anything that can be read in two ways.
 * @returns null where no row with a time was found
 */
export function recognise(
  text: string,
  site: { weather?: WeatherMapping | undefined; units?: 'metric' | 'us' | 'imperial' | undefined },
  said: Said,
) {
  const shape = shapeOfExport(text, said.how?.separator)
  if (!shape) return null
  const mapping = merged(site.weather, said.how)
  const columns = shape.head.names.map(
    (name, at): HeadedColumn => ({
      name,
      as: null,
      unit: null,
      unitAssumed: false,
      by: null,
      at,
      words: headingWords(name),
    }),
  )
  const work: Recognising = {
    ...said,
    shape,
    mapping: { ...mapping, columns: { ...mapping.columns } },
    units: site.units,
    columns,
    questions: [],
    mark: said.how?.decimal ?? null,
    isDaily: false,
    step: null,
    timeOf: () => '',
  }
  takeSaid(work)
  takeTimes(work)
  const numberOf = takeCellUnits(work)
  const isTime = columns.map(({ as }) => as === 'time' || as === 'date')
  work.mark ??= markOf(shape.rows.slice(0, 3000).flatMap((cells) => cells.filter((_, at) => !isTime[at])))
  takeReadings(work)
  takeUnits(work)
  const isCounted = countsRain(work)
  reportUnused(work)
  reportUnrecognised(work)
  return {
    ...asHow(work),
    head: shape.head,
    isDaily: work.isDaily,
    /** Whether its rain is a running total, so that a row's rain is the difference. */
    isCounted,
    columns: columns.map(({ at, words, ...column }): ReadColumn => column),
    questions: work.questions,
    /** The clock's UTC offset, where its times don't include one and it isn't the vineyard's own clock. */
    offset: offsetOf(work, text.slice(0, shape.head.start)),
    open: openOf(work),
    /** How to read a row's time, and a cell as a plain number, in this export. */
    timeOf: work.timeOf,
    numberOf,
  }
}

/** A recognised export: how `readRows` reads it, and what to report about it. */
export type Recognised = NonNullable<ReturnType<typeof recognise>>

export function merged(weather: WeatherMapping = {}, how: WeatherMapping = {}): WeatherMapping {
  return {
    ...weather,
    ...how,
    columns: { ...weather.columns, ...how.columns },
    units: { ...weather.units, ...how.units },
  }
}

/** The option value that leaves a column out. */
const NONE = 'none'

/**
 * Takes columns named in options, in vineyard.yaml, or by our own names; a column in vineyard.yaml may be missing here.
 */
function takeSaid({ how, mapping, shape, columns }: Recognising): void {
  const said = how?.columns ?? {}
  const { names } = shape.head
  for (const [key, name] of Object.entries(mapping.columns!)) {
    const isThere = names.some((one) => one.toLowerCase() === name.toLowerCase())
    if (name === NONE || (!isThere && !Object.hasOwn(said, key))) delete mapping.columns![key]
  }
  const { time, date, measured } = findColumns(names, mapping)
  const take = (index: number | null, as: 'time' | 'date' | Measured) => {
    if (index === null || said[as] === NONE) return
    const { name, words } = Object.assign(columns[index]!, {
      as,
      by: Object.hasOwn(said, as) ? 'said' : 'name',
    })
    if (!Object.hasOwn(said, as) || as === 'time' || as === 'date') return
    const about = as === 'min' || as === 'max' || as === 'mean' ? 'temperature' : as
    Object.assign(words, { about, unit: unitIn(name, about) })
  }
  take(time, 'time')
  take(date, 'date')
  for (const { key, index } of measured) take(index, key)
}

/** Recognises the other columns by the words in their headings. */
function takeReadings(work: Recognising): void {
  const { columns, questions } = work
  const keys = columns.map((column) => (column.as === null ? keyOf(work, column) : null))
  for (const key of MEASURED) {
    const all = columns.filter(({ at }) => keys[at] === key)
    const some = likeliest(all, key, work)
    for (const column of all) if (!some.includes(column)) column.as = 'unused'
    const [first, second] = some
    if (first && !second) Object.assign(first, { as: key, by: 'heading' })
    if (first && second)
      questions.push({
        level: 'error',
        name: 'column-unclear',
        message: `${some.map(({ name }) => `\`${name}\``).join(', ')} may each be the ${key}`,
        help: `say which it is: --columns "${key}=${first.name}", or "${key}=none" to leave it out`,
        answers: [
          ...some.map(({ name }) => ({ shown: name, columns: { [key]: name } })),
          { shown: 'none of them', columns: { [key]: NONE } },
        ],
      })
  }
}

/** What a column measures by its heading; null where it isn't understood, or isn't of use: then it is marked so. */
function keyOf(work: Recognising, column: HeadedColumn): Measured | null {
  const { columns, how, isDaily, shape } = work
  const { at, words, name } = column
  const { about, end } = words
  const isEmpty = shape.rows.every((row) => NOTHING.has((row[at] ?? '').toLowerCase()))
  // A column of row numbers may have no heading.
  const isCount = () =>
    /^column \d+$/.test(name) &&
    shape.rows.every(
      (row, place) => place === 0 || Number(row[at]) === Number(shape.rows[place - 1]![at]) + 1,
    )
  const isText = () => shape.rows.every((row) => !row[at] || numberIn(work, row[at]!) === null)
  const key = about === 'temperature' ? temperatureKey(end, isDaily) : about === 'unused' ? null : about
  const isTaken = key === null || how?.columns?.[key] === NONE || columns.some(({ as }) => as === key)
  if (isEmpty || isCount() || (about === null ? isText() : isTaken)) column.as = 'unused'
  return column.as === null ? key : null
}

/** Of several columns for one reading, picks those useful in a vineyard: outdoors, and rain that isn't a total. */
function likeliest(places: HeadedColumn[], key: Measured, { step }: Recognising): HeadedColumn[] {
  if (places.length < 2) return places
  const wanted = ({ words }: HeadedColumn) =>
    key === 'rain'
      ? words.counts === null || (step === 60 && words.counts === 'hour')
      : key === 'temperature' && places.some((one) => one.words.end === 'mean')
        ? words.end === 'mean'
        : words.outdoor
  const some = places.filter(wanted)
  const narrowed = some.length > 0 ? some : places
  // The same reading in two units: either will do.
  const units = narrowed.map(({ words }) => words.unit)
  const isOne = new Set(units).size === units.length && units.every((unit) => unit !== null)
  return isOne ? narrowed.slice(0, 1) : narrowed
}

/** The mapping that reads the export, and how to convert figures in units that aren't multiples of ours. */
function asHow(work: Recognising): {
  how: WeatherMapping
  scale: Partial<Record<Measured, (value: number) => number>>
} {
  const { columns, mapping, mark, shape, how, isDaily, step } = work
  const scale: Partial<Record<Measured, (value: number) => number>> = {}
  const units: Record<string, string> = { ...how?.units }
  const names: Record<string, string> = {}
  for (const as of ['time', 'date', ...MEASURED] as const) {
    const column = columns.find((one: ReadColumn) => one.as === as)
    if (!column) continue
    names[as] = column.name
    const key = readingOf(column)
    const unit = key && (column.unit ?? how?.units?.[key])
    if (!key || !unit) continue
    const scaled = scaleOf(key, unit, isDaily ? 1440 : step)
    units[key] = scaled?.unit ?? unit
    if (scaled) scale[key] = scaled.scale
  }
  // What was typed is kept, so that a mistake in it is reported.
  const typed = Object.entries(how?.columns ?? {}).filter(([, name]) => name !== NONE)
  return {
    how: {
      columns: { ...names, ...Object.fromEntries(typed) },
      units,
      decimal: mark ?? 'point',
      dates: mapping.dates,
      separator: shape.separator,
    },
    scale,
  }
}
