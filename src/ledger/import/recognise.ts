import { findColumns, MEASURED, type Measured, type WeatherMapping } from '../weather/columns.ts'
import { NOTHING } from '../weather/rows.ts'
import { takeCellUnits } from './cell-units.ts'
import { markOf, shapeOfExport } from './export-shape.ts'
import { openOf, reportUnrecognised, reportUnused } from './recognise-open.ts'
import { offsetOf, takeTimes } from './recognise-times.ts'
import { countsRain, numberIn, scalesOf, takeUnits, unitRead } from './recognise-units.ts'
import type { ReadColumn, Recognised, Recognising, Said } from './recognised.ts'
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
): Recognised | null {
  const shape = shapeOfExport(text, said.how?.separator)
  if (!shape) return null
  const { names } = shape.head
  const mapping = merged(site.weather, said.how)
  const columns = names.map(
    (name): ReadColumn => ({ name, as: null, unit: null, unitAssumed: false, by: null }),
  )
  const work: Recognising = {
    ...said,
    shape,
    mapping: { ...mapping, columns: { ...mapping.columns } },
    units: site.units,
    words: names.map(headingWords),
    columns,
    questions: [],
    mark: said.how?.decimal ?? null,
    isDaily: false,
    step: null,
    timeOf: () => '',
  }
  takeSaid(work)
  const times = takeTimes(work)
  const numberOf = takeCellUnits(work, times)
  work.mark ??= markOf(
    shape.rows.slice(0, 3000).flatMap((cells) => cells.filter((_, at) => !times.includes(at))),
  )
  takeReadings(work)
  takeUnits(work)
  const isCounted = countsRain(work)
  reportUnused(work)
  reportUnrecognised(work)
  return {
    ...asHow(work),
    head: shape.head,
    isDaily: work.isDaily,
    isCounted,
    columns,
    questions: work.questions,
    offset: offsetOf(work, times, text.slice(0, shape.head.start)),
    scale: scalesOf(work),
    open: openOf(work),
    timeOf: work.timeOf,
    numberOf,
  }
}

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
function takeSaid({ how, mapping, shape, columns, words }: Recognising): void {
  const said = how?.columns ?? {}
  for (const key of Object.keys(mapping.columns!)) {
    const name = mapping.columns![key]!
    const isThere = shape.head.names.some((one) => one.toLowerCase() === name.toLowerCase())
    if (name === NONE || (!isThere && !Object.hasOwn(said, key))) delete mapping.columns![key]
  }
  const { time, date, measured } = findColumns(shape.head.names, mapping)
  const take = (index: number | null, as: ReadColumn['as']) => {
    if (index === null || said[as!] === NONE) return
    const by = Object.hasOwn(said, as!) ? 'said' : 'name'
    Object.assign(columns[index]!, { as, by })
    const about = as === 'min' || as === 'max' || as === 'mean' ? 'temperature' : as
    if (by === 'said' && about !== 'time' && about !== 'date')
      Object.assign(words[index]!, { about, unit: unitIn(columns[index]!.name, about) })
  }
  take(time, 'time')
  take(date, 'date')
  for (const { key, index } of measured) take(index, key)
}

/** Recognises the other columns by the words in their headings. */
function takeReadings(work: Recognising): void {
  const { columns, words, how, isDaily, shape, questions } = work
  const found = new Map<Measured, number[]>()
  for (const [at, column] of columns.entries()) {
    if (column.as !== null) continue
    const { about, end } = words[at]!
    const isEmpty = shape.rows.every((row) => NOTHING.has((row[at] ?? '').toLowerCase()))
    // A column of row numbers may have no heading.
    const isCount =
      /^column \d+$/.test(column.name) &&
      shape.rows.every(
        (row, place) => place === 0 || Number(row[at]) === Number(shape.rows[place - 1]![at]) + 1,
      )
    const isText = about === null && shape.rows.every((row) => !row[at] || numberIn(work, row[at]!) === null)
    if (about === 'unused' || isEmpty || isText || isCount) column.as = 'unused'
    else if (about !== null) {
      const key = about === 'temperature' ? temperatureKey(end, isDaily) : about
      if (key === null || how?.columns?.[key] === NONE || columns.some(({ as }) => as === key))
        column.as = 'unused'
      else found.set(key, [...(found.get(key) ?? []), at])
    }
  }
  for (const key of MEASURED) {
    const places = likeliest(found.get(key) ?? [], key, work)
    if (places.length === 1) Object.assign(columns[places[0]!]!, { as: key, by: 'heading' })
    for (const at of found.get(key) ?? []) if (!places.includes(at)) columns[at]!.as = 'unused'
    if (places.length > 1)
      questions.push({
        level: 'error',
        name: 'column-unclear',
        message: `${places.map((at) => `\`${columns[at]!.name}\``).join(', ')} may each be the ${key}`,
        help: `say which it is: --columns "${key}=${columns[places[0]!]!.name}", or "${key}=none" to leave it out`,
        answers: [
          ...places.map((at) => ({ shown: columns[at]!.name, columns: { [key]: columns[at]!.name } })),
          { shown: 'none of them', columns: { [key]: NONE } },
        ],
      })
  }
}

/** Of several columns for one reading, picks those useful in a vineyard: outdoors, and rain that isn't a total. */
function likeliest(
  places: readonly number[],
  key: Measured,
  { words, step }: Recognising,
): readonly number[] {
  if (places.length < 2) return places
  const wanted =
    key === 'rain'
      ? (at: number) => words[at]!.counts === null || (step === 60 && words[at]!.counts === 'hour')
      : key === 'temperature' && places.some((at) => words[at]!.end === 'mean')
        ? (at: number) => words[at]!.end === 'mean'
        : (at: number) => words[at]!.outdoor
  const some = places.filter(wanted)
  const narrowed = some.length > 0 ? some : places
  // The same reading in two units: either will do.
  const units = narrowed.map((at) => words[at]!.unit)
  const isOne = new Set(units).size === units.length && units.every((unit) => unit !== null)
  return isOne ? narrowed.slice(0, 1) : narrowed
}

function asHow(work: Recognising): Pick<Recognised, 'how'> {
  const { columns, mapping, mark, shape, how } = work
  const at = (as: ReadColumn['as']) => columns.find((one) => one.as === as)
  const keys = ['time', 'date', ...MEASURED] as const
  const found = keys.flatMap((key) => (at(key) ? [[key, at(key)!.name] as const] : []))
  const units = MEASURED.flatMap((key) => {
    const unit = how?.units?.[key] ?? at(key)?.unit
    return unit ? [[key, unitRead(work, key, unit)] as const] : []
  })
  // What was typed is kept, so that a mistake in it is reported.
  const typed = Object.entries(how?.columns ?? {}).filter(([, name]) => name !== NONE)
  return {
    how: {
      columns: Object.fromEntries([...found, ...typed]),
      units: { ...how?.units, ...Object.fromEntries(units) },
      decimal: mark ?? 'point',
      dates: mapping.dates,
      separator: shape.separator,
    },
  }
}
