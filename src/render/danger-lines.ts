import type { Danger } from '../facts/danger/danger.ts'
import type { BlockDanger } from '../facts/danger/today.ts'
import { safeLine } from './safe.ts'
import { listed } from './text.ts'

const ORDER: readonly Danger['level'][] = ['high', 'unknown', 'moderate', 'low']
/** Reasons told of each group. */
const MOST = 2

/** One line for each disease: in which blocks the danger is how great, and why; empty where nothing is open to infection. */
export function dangerLines(all: readonly BlockDanger[], blocks: ReadonlyMap<string, string>): string[] {
  const open = all.filter(({ danger }) => danger.tissue !== null)
  return [...new Set(open.map(({ disease }) => disease))].map((disease) => {
    const own = open.filter((one) => one.disease === disease)
    const said = groupsOf(own).map((group, at) => sayGroup(group, { blocks, isFirst: at === 0 }))
    return `${upper(disease)} danger ${said.join('. ')}.`
  })
}

/** Blocks with the same class and the same reasons together, the most serious first. */
function groupsOf(all: readonly BlockDanger[]): BlockDanger[][] {
  const groups = new Map<string, BlockDanger[]>()
  for (const one of all) {
    const { level, reasons } = one.danger
    const key = JSON.stringify([level, reasons.slice(0, MOST)])
    groups.set(key, [...(groups.get(key) ?? []), one])
  }
  return [...groups.values()].sort(
    ([a], [b]) => ORDER.indexOf(a!.danger.level) - ORDER.indexOf(b!.danger.level),
  )
}

function sayGroup(
  group: readonly BlockDanger[],
  { blocks, isFirst }: { blocks: ReadonlyMap<string, string>; isFirst: boolean },
): string {
  const { level, reasons, unknown } = group[0]!.danger
  const who = listed(group.map(({ block }) => safeLine(blocks.get(block) ?? block)))
  const open = unknown.length > 0 ? [`not known: ${listed(unknown)}`] : []
  return `${isFirst ? level : upper(level)} in ${who}: ${[...reasons.slice(0, MOST), ...open].join('; ')}`
}

const upper = (disease: string) => `${disease[0]!.toUpperCase()}${disease.slice(1)}`
