import type { BlockDanger, Danger } from '../facts/danger/danger.ts'
import { LAST_SEASON } from '../facts/danger/winter.ts'
import { groupedBy } from '../facts/judged.ts'
import { asSentences, listed, notKnown, upperFirst } from '../facts/sentences.ts'
import { diseaseWord } from '../records/disease.ts'
import { safeLine } from './safe.ts'

const ORDER: readonly Danger['level'][] = ['high', 'unknown', 'moderate', 'low']
/** Most reasons shown for each group. */
const MOST = 2

/** For each disease, a line for the blocks with the same danger, and why; empty where nothing is open to infection. */
export function dangerLines(all: readonly BlockDanger[], blocks: ReadonlyMap<string, string>): string[] {
  const open = all.filter(({ danger }) => danger.tissue !== null)
  return [...new Set(open.map(({ disease }) => disease))].map((disease) => {
    const own = open.filter((one) => one.disease === disease)
    return groupsOf(own)
      .map((group) => `${upperFirst(diseaseWord(disease))} danger ${groupText(group, blocks)}`)
      .join('\n')
  })
}

/** Blocks with the same class and the same reasons together, the most serious first. */
function groupsOf(all: readonly BlockDanger[]): BlockDanger[][] {
  const groups = groupedBy(all, ({ danger }) => JSON.stringify([danger.level, shownReasons(danger)]))
  return [...groups.values()].sort(
    ([a], [b]) => ORDER.indexOf(a!.danger.level) - ORDER.indexOf(b!.danger.level),
  )
}

function groupText(group: readonly BlockDanger[], blocks: ReadonlyMap<string, string>): string {
  const { danger } = group[0]!
  const who = listed(group.map(({ block }) => safeLine(blocks.get(block) ?? block)))
  return `${danger.level} in ${who}. ${asSentences([...shownReasons(danger), ...notKnown(danger.unknown)])}`
}

/** The first reasons; where danger is low, also that the disease was there when the last season ended. */
const shownReasons = ({ level, reasons }: Danger): string[] =>
  reasons.filter((reason, at) => at < MOST || (level === 'low' && reason.startsWith(LAST_SEASON)))
