import type { Node } from '../read/source.ts'

/**
 * A node as plain data. A number not in its shortest form (`007`, `20.0`) stays text, so that a
 * code keeps its zeros; the schemas' number fields read such text as a number.
 */
export function toPlain(node: Node): unknown {
  if (node.kind === 'list') return node.items.map(toPlain)
  if (node.kind === 'map') {
    const plain: Record<string, unknown> = {}
    for (const { key, value } of node.entries) {
      // A plain assignment to `__proto__` would set the object's prototype.
      if (key === '__proto__') Object.defineProperty(plain, key, { value: toPlain(value), enumerable: true })
      else plain[key] = toPlain(value)
    }
    return plain
  }
  if (typeof node.value === 'number' && String(node.value) !== node.text) return node.text
  return node.value
}
