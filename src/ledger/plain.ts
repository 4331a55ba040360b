import type { Node } from './source.ts'

/**
 * A node as plain data. A number that isn't written in its shortest form (`007`, `20.0`) stays text, so that a
 * code keeps its zeros; the number fields of the schemas read such text as the number it is.
 */
export function toPlain(node: Node): unknown {
  if (node.kind === 'list') return node.items.map(toPlain)
  if (node.kind === 'map')
    return Object.fromEntries(node.entries.map((entry) => [entry.key, toPlain(entry.value)]))
  if (typeof node.value === 'number' && String(node.value) !== node.text) return node.text
  return node.value
}
