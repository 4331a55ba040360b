import type { z } from 'zod'
import type { Ledger, Seasonal } from '../../ledger/read/ledger.ts'
import type { Placed } from '../../ledger/read/source.ts'
import type { PlainEntry, PlainValue } from '../../ledger/write/entry-text.ts'
import { toPlain } from '../../ledger/yaml/plain.ts'
import type { IsoDate } from '../../records/date.ts'
import { shapeOf } from '../../records/fields/shape.ts'
import { SEASONAL, type SeasonKind } from '../../records/kinds.ts'
import { aboutOf } from './fields.ts'
import { tidy } from './read.ts'

/** What stays the same from one entry to the next like it. What was measured or seen that day never does. */
const CARRIED: Record<SeasonKind, readonly string[]> = {
  sprays: 'blocks rows share sprayer water dilute products operator certificate method'.split(' '),
  scouting: ['block', 'looked_at', 'rows', 'who'],
  samples: ['block', 'berries', 'of', 'compensated', 'ta_as', 'end_point', 'who', 'instrument'],
  stages: ['block', 'who'],
  crop: ['block', 'at', 'rows', 'part', 'vines', 'who'],
  picks: ['block', 'people'],
  work: ['block', 'job', 'people', 'rows', 'who'],
  weather: ['who'],
}

type Entry = Seasonal<{ date: IsoDate; block?: string; blocks?: string[] }>

/** The entries that `--like` may mean: not after the day, of these blocks where any are given, newest last. */
export function likeEntries(
  ledger: Ledger,
  kind: SeasonKind,
  { asOf, blocks, on }: { asOf: IsoDate; blocks: readonly string[]; on?: IsoDate },
): Entry[] {
  return (ledger[kind] as Entry[]).filter((entry) => {
    const own = entry.blocks ?? [entry.block ?? '']
    const ofBlocks = blocks.length === 0 || own.some((id) => blocks.includes(id))
    return ofBlocks && (on === undefined ? entry.date <= asOf : entry.date === on)
  })
}

/** What of an entry a new one like it begins with, as it is written there. */
export const carried = (kind: SeasonKind, entry: Placed<object>): PlainEntry =>
  Object.fromEntries(Object.entries(wholeEntry(kind, entry)).filter(([key]) => CARRIED[kind].includes(key)))

/** All of an entry, as it is written there. */
export const wholeEntry = (kind: SeasonKind, entry: Placed<object>): PlainEntry =>
  asWritten(SEASONAL[kind], toPlain(entry.source.node) as PlainEntry) as PlainEntry

/** The same value in the form that is written: `20.0` read as text becomes the number that its field holds. */
function asWritten(schema: z.ZodType, value: PlainValue): PlainValue {
  const shape = shapeOf(schema)
  if (Array.isArray(value)) {
    const item = shape.kind === 'list' || shape.kind === 'one-or-more' ? shape.item : schema
    return value.map((one) => asWritten(item, one))
  }
  if (typeof value === 'object') {
    return Object.fromEntries(
      Object.entries(value).map(([key, inner]) => {
        const below =
          shape.kind === 'map' ? shape.keys[key] : shape.kind === 'table' ? shape.value : undefined
        return [key, below ? asWritten(below, inner) : inner]
      }),
    )
  }
  if (typeof value !== 'string') return value
  return tidy(value, aboutOf(schema))
}
