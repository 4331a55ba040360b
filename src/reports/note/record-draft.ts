import type { z } from 'zod'
import type { PlainEntry, PlainValue } from '../../ledger/write/entry-text.ts'
import { STANDING, type StandingKind } from '../../records/kinds.ts'
import { inSiteUnits } from '../../records/typed/site-way.ts'
import type { Draft, Typed } from './draft.ts'
import { fieldsOfShape, type NoteField } from './fields.ts'
import type { Read } from './read.ts'
import { readActive, readUse } from './read-label.ts'
import { readValue, type When } from './read-value.ts'

/** Lists of a product that are typed item by item, with the option that takes one. */
const LISTS = {
  actives: { option: 'active', read: readActive },
  uses: { option: 'use', read: readUse },
} as const

type ListKey = keyof typeof LISTS
const isList = (key: string): key is ListKey => Object.hasOwn(LISTS, key)

/** The option of a field of a standing record, where the key alone would say too little. */
export const recordOption = (field: Pick<NoteField, 'path' | 'option'>): string =>
  isList(field.path[0]!) ? LISTS[field.path[0]].option : field.option

/** The fields of a block, a variety, a product or a sprayer; of two with one name, the first. */
export function recordFieldsOf(kind: StandingKind): NoteField[] {
  const taken = new Set<string>()
  return fieldsOfShape(STANDING[kind].shape as Record<string, z.ZodType>).filter((field) => {
    const option = recordOption(field)
    return taken.size < taken.add(option).size
  })
}

/** Makes a standing record of what was typed, as its file will hold it. */
export function makeRecord(kind: StandingKind, typed: Typed, when: When): Draft {
  const entry: PlainEntry = {}
  const faults: Draft['faults'] = []
  for (const field of recordFieldsOf(kind)) {
    const option = recordOption(field)
    const texts = typed.get(option)
    if (texts === undefined || texts.length === 0) continue
    const [key, inner] = field.path as [string, string?]
    const read = isList(key)
      ? readItems(
          texts.map((text) => inSiteUnits(text, when.units)),
          LISTS[key].read,
        )
      : readValue(field, texts, when)
    if (read.fault) faults.push({ option, fault: read.fault })
    else if (inner === undefined) entry[key] = read.value!
    else entry[key] = { ...(entry[key] as PlainEntry | undefined), [inner]: read.value! }
  }
  return { entry, faults }
}

function readItems(
  texts: readonly string[],
  read: (text: string) => Read<{ value: PlainEntry }>,
): Read<{ value: PlainValue }> {
  const all = texts.map(read)
  return all.find(({ fault }) => fault) ?? { value: all.map(({ value }) => value!) }
}
