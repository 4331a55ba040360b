import type { PlainEntry } from '../../ledger/write/entry-text.ts'
import { SEASONAL, type SeasonKind } from '../../records/kinds.ts'
import { fieldsOf } from './fields.ts'

/** Something that an entry still needs before it can be written. */
export interface Missing {
  /** The option that gives it, or null where one of several would do. */
  option: string | null
  what: string
}

/** What an option takes, where its description alone is no help to who types it for the first time. */
const EXAMPLES: Readonly<Record<string, string>> = {
  product: 'product and its dose, like "sulphur=3 kg/ha"',
  'looked-at': 'what you looked at, like "50 bunches, 20 leaves"',
  found: 'what you found, like "powdery 3 of 50, rest clean", or "clean"',
  stage: 'growth stage, like 65, flowering or "50 % veraison"',
  at: '"lag" in the lag phase, or "harvest" near it',
  job: 'what was done, like pruning or mowing',
}

/** What an entry lacks of its kind's required fields, and of what one of several fields must give. */
export function missingOf(kind: SeasonKind, entry: PlainEntry): Missing[] {
  const missing: Missing[] = fieldsOf(kind)
    .filter((field) => field.required && entry[field.path[0]!] === undefined)
    .map((field) => ({
      option: field.option,
      what: EXAMPLES[field.option] ?? (field.about.description ?? '').replace(/ \(kept in .*\)$/, ''),
    }))
  if (missing.length > 0) return missing
  const result = SEASONAL[kind].safeParse(entry)
  if (result.success) return []
  return result.error.issues.flatMap((issue): Missing[] => {
    if (issue.code !== 'custom' || (issue.params as { name?: string })?.name !== 'missing-key') return []
    const help = (issue.params as { help?: string }).help ?? ''
    if (issue.path[0] === 'products' && issue.path.length === 2) {
      const part = (entry.products as PlainEntry[])[issue.path[1] as number]
      return [{ option: 'product', what: `the dose of ${part?.product}` }]
    }
    if (issue.path.at(-1) === 'concentration') return [{ option: 'water', what: issue.message }]
    return [{ option: null, what: `${issue.message}: ${help}` }]
  })
}
