import type { Value } from './table.ts'

/** A table found in a report: its path in the data, like `blocks.products`, and its rows by column. */
interface FoundTable {
  path: string
  columns: string[]
  rows: Record<string, Value>[]
}

type Plain = { [key: string]: unknown }

/**
 * The tables in a report's data: every list of objects, however deep. Quantities become two columns, objects are
 * told by joined names, and the rows of an inner list carry the columns of the row that they stand in.
 */
export function tablesIn(data: unknown): FoundTable[] {
  const found = new Map<string, FoundTable>()
  if (isPlain(data)) visit(data, { path: '', above: {}, found })
  for (const one of found.values()) one.columns = [...new Set(one.rows.flatMap((row) => Object.keys(row)))]
  return [...found.values()]
}

interface Place {
  path: string
  /** Columns of the rows above. */
  above: Record<string, Value>
  found: Map<string, FoundTable>
}

function visit(data: Plain, { path, above, found }: Place): void {
  for (const [key, value] of Object.entries(data)) {
    const inner = path ? `${path}.${key}` : key
    if (isPlain(value)) visit(value, { path: inner, above, found })
    if (!isListOfPlain(value)) continue
    const table = found.get(inner) ?? { path: inner, columns: [], rows: [] }
    found.set(inner, table)
    for (const item of value) {
      const own = columnsOf(item)
      const row = { ...renamed(above, own, path), ...own }
      table.rows.push(row)
      visit(item, { path: inner, above: row, found })
    }
  }
}

/** Columns of the row above keep their name, unless the row has one of the same name. */
function renamed(
  above: Record<string, Value>,
  own: Record<string, Value>,
  path: string,
): Record<string, Value> {
  const prefix = path.split('.').at(-1) ?? ''
  return Object.fromEntries(
    Object.entries(above).map(([key, value]) => [key in own ? `${prefix}_${key}` : key, value]),
  )
}

function columnsOf(item: Plain, prefix = ''): Record<string, Value> {
  const columns: Record<string, Value> = {}
  for (const [key, value] of Object.entries(item)) {
    const name = `${prefix}${snake(key)}`
    if (isQuantity(value)) {
      columns[name] = value.value
      columns[`${name}_unit`] = value.unit
    } else if (isPlain(value)) Object.assign(columns, columnsOf(value, `${name}_`))
    else if (isListOfPlain(value)) continue
    else columns[name] = (value ?? null) as Value
  }
  return columns
}

const snake = (key: string) => key.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`)

const isPlain = (value: unknown): value is Plain =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

const isQuantity = (value: unknown): value is { value: number | null; unit: string } =>
  isPlain(value) && Object.keys(value).length === 2 && 'value' in value && typeof value.unit === 'string'

const isListOfPlain = (value: unknown): value is Plain[] =>
  Array.isArray(value) && value.length > 0 && value.every(isPlain)
