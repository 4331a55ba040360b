import type { PlainEntry } from '../../ledger/write/entry-text.ts'
import { type SeasonKind, SINGULAR } from '../../records/kinds.ts'
import type { Draft } from '../../reports/note/draft.ts'
import { fieldsOf, isStanding, type Kind } from '../../reports/note/fields.ts'
import { type Missing, missingOf } from '../../reports/note/missing.ts'
import type { Call } from '../plumbing/call.ts'
import { optionName } from '../plumbing/command.ts'
import { UsageError } from '../plumbing/errors.ts'
import { noteFields, RECORD_FIELDS } from '../plumbing/note-options.ts'

/** The fields that were typed as options, and the ids of the blocks. */
export interface TypedFields {
  typed: Map<string, readonly string[]>
  blocks: readonly string[]
  /** Paths to take out of an entry before its new values are put in. */
  without?: readonly (readonly string[])[]
}

/** Kinds that count or measure something in one block: where several are named, each is asked about in turn. */
export const BLOCK_BY_BLOCK: ReadonlySet<SeasonKind> = new Set(['scouting', 'samples', 'crop', 'picks'])

/** The options that give the fields of a kind. */
export function optionsOf(kind: Kind): ReadonlySet<string> {
  if (isStanding(kind))
    return new Set(RECORD_FIELDS.filter(({ of }) => of?.includes(SINGULAR[kind])).map(optionName))
  const own = fieldsOf(kind).map(({ option }) => option)
  return new Set(kind === 'sprays' ? [...own, 'weather'] : own)
}

/** The fields typed as options. @throws UsageError where one isn't a field of this kind of entry or record */
export function typedOptions(call: Call, kind: Kind): Map<string, readonly string[]> {
  const word = SINGULAR[kind]
  const own = optionsOf(kind)
  const typed = new Map<string, readonly string[]>()
  for (const option of noteFields().map(optionName)) {
    const texts = call.texts(option)
    if (texts.length === 0) continue
    if (!own.has(option))
      throw isStanding(kind)
        ? new UsageError(`--${option} is no field of a ${word}`, `see \`rowbook help note ${word}\``)
        : new UsageError(
            `--${option} is no field of a ${word} entry`,
            `its fields: ${[...own].map((name) => `--${name}`).join(' ')}`,
          )
    typed.set(option, texts)
  }
  return typed
}

/** The texts of parts of answers, added to those typed for each option. */
export function withParts(
  typed: ReadonlyMap<string, readonly string[]>,
  parts: readonly { option: string; text: string }[],
): Map<string, readonly string[]> {
  const all = new Map(typed)
  for (const { option, text } of parts) all.set(option, [...(all.get(option) ?? []), text])
  return all
}

/** The entry of a draft in which nothing is wrong. @throws UsageError where something is. */
export function entryOf({ entry, faults: [first] }: Draft): PlainEntry {
  if (first) throw new UsageError(`--${first.option}: ${first.fault.message}`, first.fault.help)
  return entry
}

/** The same, with nothing missing. @throws UsageError where something is. */
export function complete(draft: Draft, kind: Kind): PlainEntry {
  const entry = entryOf(draft)
  const missing = missingOf(kind, entry)
  const what = `${SINGULAR[kind]}${isStanding(kind) ? '' : ' entry'}`
  if (missing.length > 0) throw new UsageError(`this ${what} is not complete`, missingLines(missing))
  return entry
}

/** A line for each missing field. */
export const missingLines = (missing: readonly Missing[]): string =>
  missing.map(({ option, what }) => (option === null ? what : `--${option} is missing: ${what}`)).join('\n  ')
