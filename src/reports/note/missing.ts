import type { PlainEntry } from '../../ledger/write/entry-text.ts'
import { fieldsOf, isStanding, type Kind, schemaOf } from './fields.ts'
import { ruleOf } from './read.ts'

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
  active: 'active substance, like "sulphur 800 g/kg M02"',
  use: 'what the label allows, like "powdery 2-6 kg/ha every 7-14 d"',
  form: 'formulation code on the label: WG, WP, SC, EC, SL',
  colour: 'white, red, rose or grey',
}

/** What an entry or a record lacks of its kind's required fields, and of what one of several fields must give. */
export function missingOf(kind: Kind, entry: PlainEntry): Missing[] {
  const missing = fieldsOf(kind).filter(({ required, path }) => required && entry[path[0]!] === undefined)
  if (missing.length > 0)
    return missing.map(({ option, about }) => ({
      option,
      what: EXAMPLES[option] ?? (about.description ?? '').replace(/ \(kept in .*\)$/, ''),
    }))
  const issues = schemaOf(kind).safeParse(entry).error?.issues ?? []
  return issues.flatMap((issue): Missing[] => {
    const { name, help } = ruleOf(issue)
    const open = { option: null, what: help ? `${issue.message}: ${help}` : issue.message }
    if (isStanding(kind)) return [open]
    if (name !== 'missing-key') return []
    if (issue.path[0] === 'products' && issue.path.length === 2) {
      const part = (entry.products as PlainEntry[])[issue.path[1] as number]
      return [{ option: 'product', what: `the dose of ${part?.product}` }]
    }
    return issue.path.at(-1) === 'concentration' ? [{ option: 'water', what: issue.message }] : [open]
  })
}
