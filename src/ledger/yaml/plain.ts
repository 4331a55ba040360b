import type { Node } from '../read/source.ts'

/**
 * A node as plain data. A number that isn't written in its shortest form (`007`, `20.0`) stays text, so that a
 * code keeps its zeros; the number fields of the schemas read such text as the number it is.
 */
export function toPlain(node: Node): unknown {
  if (node.kind === 'list') return node.items.map(toPlain)
  if (node.kind === 'map') {
    const plain: Record<string, unknown> = {}
    for (const { key, value } of node.entries) {
      // Set like any other key, `__proto__` would be taken for what the object stems from.
      if (key === '__proto__') Object.defineProperty(plain, key, { value: toPlain(value), enumerable: true })
      else plain[key] = toPlain(value)
    }
    return plain
  }
  if (typeof node.value === 'number' && String(node.value) !== node.text) return node.text
  return node.value
}
