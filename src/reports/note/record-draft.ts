import type { z } from 'zod'
import type { PlainEntry, PlainValue } from '../../ledger/write/entry-text.ts'
import { STANDING, type StandingKind } from '../../records/kinds.ts'
import type { Fault } from '../../records/said-date.ts'
import { inSiteUnits } from '../../records/site-way.ts'
import type { Draft, Typed } from './draft.ts'
import { fieldsOfShape, type NoteField } from './fields.ts'
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
  read: (text: string) => { value?: PlainEntry; fault?: Fault | undefined },
): { value: PlainValue; fault?: undefined } | { value?: undefined; fault: Fault } {
  const values: PlainEntry[] = []
  for (const text of texts) {
    const { value, fault } = read(text)
    if (fault) return { fault }
    values.push(value!)
  }
  return { value: values }
}

/** What a record still needs, each with the option that gives it; none where several would do. */
export function missingOfRecord(
  kind: StandingKind,
  entry: PlainEntry,
): { option: string | null; what: string }[] {
  const missing = recordFieldsOf(kind)
    .filter((field) => field.required && entry[field.path[0]!] === undefined)
    .map((field) => ({
      option: recordOption(field),
      what: EXAMPLES[recordOption(field)] ?? (field.about.description ?? '').replace(/ \(kept in .*\)$/, ''),
    }))
  if (missing.length > 0) return missing
  const result = STANDING[kind].safeParse(entry)
  const issues = result.success ? [] : result.error.issues
  return issues.map((issue) => {
    const params = issue.code === 'custom' ? (issue.params as { help?: string } | undefined) : undefined
    return { option: null, what: params?.help ? `${issue.message}: ${params.help}` : issue.message }
  })
}

const EXAMPLES: Readonly<Record<string, string>> = {
  active: 'active substance, like "sulphur 800 g/kg M02"',
  use: 'what the label allows, like "powdery 2-6 kg/ha every 7-14 d"',
  form: 'formulation code on the label: WG, WP, SC, EC, SL',
  colour: 'white, red, rose or grey',
}
