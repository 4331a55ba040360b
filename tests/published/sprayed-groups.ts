import { findingsOf } from '../ledger/in-memory.ts'

const product = (groups: readonly string[], against: string, more: string) => {
  const actives = groups.map((group, index) => `{ name: active ${index}, group: "${group}" }`).join(', ')
  return `name: P\nform: WG\nkind: fungicide\nactives: [ ${actives} ]\nuses:\n  - { against: ${against}, rate: 1-3 kg/ha }\n${more}`
}

/** What the rules on groups find in sprays twelve days apart, each of one product that holds the groups given. */
export function groupFindings(
  sprays: readonly (readonly string[])[],
  { against = 'downy', label = '' }: { against?: string; label?: string } = {},
): string {
  const id = (groups: readonly string[]) => `g${groups.join('-').toLowerCase()}`
  const files = {
    ...Object.fromEntries(
      sprays.map((groups) => [`products/${id(groups)}.yaml`, product(groups, against, label)]),
    ),
    'seasons/2026/sprays.yaml': sprays
      .map((groups, index) => {
        const date = new Date(Date.UTC(2026, 3, 20) + index * 12 * 86_400_000).toISOString().slice(0, 10)
        return `- date: ${date}\n  blocks: [upper]\n  water: 300 L/ha\n  products:\n    - { product: ${id(groups)}, rate: 2 kg/ha, for: ${against} }\n`
      })
      .join(''),
  }
  const rules = { 'in-row': 'action-group-run', 'per-season': 'action-group-count' }
  return Object.entries(rules)
    .filter(([, rule]) => findingsOf(rule, files).length > 0)
    .map(([kind]) => kind)
    .join(', ')
}
