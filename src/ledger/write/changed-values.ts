import type { MapNode } from '../read/source.ts'
import { readYaml } from '../yaml/read-yaml.ts'

/** A key of a record whose value changes: as it stood, null where it didn't, and as it stands then. */
export interface ChangedValue {
  key: string
  before: string | null
  now: string
}

/**
 * The text of a record with some of its values written anew, and new keys behind the last: every other line and all
 * comments stay.
 * @param values YAML of one line for each key.
 * @returns null where a value can't be changed so: in braces, or over several lines.
 */
export function withValues(
  text: string,
  values: Readonly<Record<string, string>>,
): { text: string; changes: ChangedValue[] } | null {
  const node = mapOf(text)
  const last = node?.entries.at(-1)
  if (!node || !last || text[node.start] === '{') return null
  const changes: ChangedValue[] = []
  const puts: { from: number; to: number; put: string }[] = []
  for (const [key, now] of Object.entries(values)) {
    const entry = node.entries.find((one) => one.key === key)
    if (!entry) {
      const at = endOfLine(text, last.value.end)
      puts.push({ from: at, to: at, put: `${lineEnd(text)}${key}: ${now}` })
      changes.push({ key, before: null, now })
      continue
    }
    const { start, end } = entry.value
    const before = text.slice(start, end)
    if (before.includes('\n')) return null
    if (before === now) continue
    puts.push({ from: start, to: end, put: now })
    changes.push({ key, before, now })
  }
  // From the end on; of several new keys at one place the last goes in first, so that they keep their order.
  const made = puts
    .map((one, index) => ({ ...one, index }))
    .sort((a, b) => b.from - a.from || b.index - a.index)
    .reduce((all, { from, to, put }) => all.slice(0, from) + put + all.slice(to), text)
  return mapOf(made) ? { text: made, changes } : null
}

function mapOf(text: string): MapNode | null {
  const { node } = readYaml({ file: 'record', text })
  return node?.kind === 'map' ? node : null
}

const lineEnd = (text: string) => (text.includes('\r\n') ? '\r\n' : '\n')

/** Where the line ends on which something ends, its comment included. */
function endOfLine(text: string, at: number): number {
  const stop = text.indexOf('\n', text[at - 1] === '\n' ? at - 1 : at)
  const end = stop < 0 ? text.length : stop
  return text[end - 1] === '\r' ? end - 1 : end
}
