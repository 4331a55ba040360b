import type { PlainEntry } from '../../ledger/write/entry-text.ts'
import { type SeasonKind, SINGULAR } from '../../records/kinds.ts'
import type { Draft } from '../../reports/note/draft.ts'
import { fieldsOf } from '../../reports/note/fields.ts'
import type { Missing } from '../../reports/note/missing.ts'
import type { Call } from '../plumbing/call.ts'
import { optionName } from '../plumbing/command.ts'
import { UsageError } from '../plumbing/errors.ts'
import { noteFields } from '../plumbing/record-options.ts'

/** The fields that were typed as options, and the ids of the blocks. */
export interface TypedFields {
  typed: Map<string, readonly string[]>
  blocks: readonly string[]
  /** Paths to take out of an entry before its new values are put in. */
  without?: readonly (readonly string[])[]
}

/** Kinds that count or measure something in one block: where several are named, each is asked about in turn. */
export const BLOCK_BY_BLOCK: ReadonlySet<SeasonKind> = new Set(['scouting', 'samples', 'crop', 'picks'])

/** The options typed. @throws UsageError where one belongs to another kind of entry */
export function typedFields(call: Call, kind: SeasonKind, blocks: readonly string[]): TypedFields {
  const fields = new Set(fieldsOf(kind).map((field) => field.option))
  if (kind === 'sprays') fields.add('weather')
  const takes = [...fields].map((name) => `--${name}`).join(' ')
  const about = { what: `${SINGULAR[kind]} entry`, help: `its fields: ${takes}` }
  return { typed: typedOptions(call, (option) => fields.has(option), about), blocks }
}

/** The fields typed as options. @throws UsageError where one isn't a field of this entry or record */
export function typedOptions(
  call: Call,
  isField: (option: string) => boolean,
  { what, help }: { what: string; help: string },
): Map<string, readonly string[]> {
  const typed = new Map<string, readonly string[]>()
  for (const option of noteFields().map(optionName)) {
    const texts = call.texts(option)
    if (texts.length === 0) continue
    if (!isField(option)) throw new UsageError(`--${option} is no field of a ${what}`, help)
    typed.set(option, texts)
  }
  return typed
}

/** The entry of a draft in which nothing is wrong or missing. @throws UsageError where something is. */
export function complete(
  { entry, faults }: Draft,
  what: string,
  missingOf: (entry: PlainEntry) => Missing[],
) {
  const [first] = faults
  if (first) throw new UsageError(`--${first.option}: ${first.fault.message}`, first.fault.help)
  const missing = missingOf(entry)
  if (missing.length > 0) throw new UsageError(`this ${what} is not complete`, missingLines(missing))
  return entry
}

/** A line for each missing field. */
export const missingLines = (missing: readonly Missing[]): string =>
  missing.map(({ option, what }) => (option === null ? what : `--${option} is missing: ${what}`)).join('\n  ')
