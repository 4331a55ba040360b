import type { MapNode } from '../read/source.ts'
import { toPlain } from '../yaml/plain.ts'
import { readYaml } from '../yaml/read-yaml.ts'
import { amendedText } from './amended-text.ts'
import type { PlainEntry } from './entry-text.ts'

/** A key of a record whose value changes: the old text (null where there was none) and the new. */
export interface ChangedValue {
  key: string
  before: string | null
  now: string
}

/**
 * The text of a record with some values replaced and new keys added after the last: all other lines and
 * comments stay.
 * @returns null where a value can't be changed this way, for instance one of several lines.
 */
export function withValues(
  text: string,
  values: PlainEntry,
): { text: string; changes: ChangedValue[] } | null {
  const stood = mapOf(text)
  const made = stood && amendedText(text, [], { ...(toPlain(stood) as PlainEntry), ...values })
  const stands = made && mapOf(made)
  if (!stands) return null
  const changes = Object.keys(values).map((key) => ({
    key,
    before: textOf(text, stood, key),
    now: textOf(made, stands, key)!,
  }))
  return { text: made, changes: changes.filter(({ before, now }) => before !== now) }
}

function mapOf(text: string): MapNode | null {
  const { node } = readYaml({ file: 'record', text })
  return node?.kind === 'map' ? node : null
}

function textOf(text: string, { entries }: MapNode, key: string): string | null {
  const entry = entries.find((one) => one.key === key)
  return entry ? text.slice(entry.value.start, entry.value.end) : null
}
