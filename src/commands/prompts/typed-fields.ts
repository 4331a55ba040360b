import { type SeasonKind, SINGULAR } from '../../records/kinds.ts'
import { fieldsOf } from '../../reports/note/fields.ts'
import type { Call } from '../plumbing/call.ts'
import { optionName } from '../plumbing/command.ts'
import { UsageError } from '../plumbing/errors.ts'
import { noteFields } from '../plumbing/record-options.ts'

/** The fields that were typed as options, and the ids of the blocks. */
export interface TypedFields {
  typed: Map<string, readonly string[]>
  blocks: readonly string[]
  /** Paths of an entry that is changed, which are taken out before what was typed is put in. */
  without?: readonly (readonly string[])[]
}

/** The options typed. @throws UsageError of one of another kind of entry */
export function typedFields(call: Call, kind: SeasonKind, blocks: readonly string[]): TypedFields {
  const fields = new Set(fieldsOf(kind).map((field) => field.option))
  if (kind === 'sprays') fields.add('weather')
  const typed = new Map<string, readonly string[]>()
  for (const { flags } of noteFields()) {
    const option = optionName({ flags })
    const texts = call.texts(option)
    if (texts.length === 0) continue
    if (!fields.has(option)) {
      const takes = [...fields].map((name) => `--${name}`).join(' ')
      throw new UsageError(`--${option} is no field of a ${SINGULAR[kind]} entry`, `its fields: ${takes}`)
    }
    typed.set(option, texts)
  }
  return { typed, blocks }
}
