import { highest } from '../../agronomy/statistics/extremes.ts'
import type { ScoutingEntry } from '../../ledger/read/ledger.ts'
import { daysBetween } from '../../records/date.ts'
import { DISEASES, type Disease, diseaseWord } from '../../records/disease.ts'
import { ORGANS } from '../../records/kinds/scouting.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { entriesOf } from '../block-entries.ts'
import { type RoundRow, roundRows } from '../disease/round-rows.ts'
import { daysText, listed } from '../sentences.ts'
import { type JudgedBunches, judgeBunches } from './bunches.ts'
import { type Asked, answersOf, type Gate, OLDEST } from './gate.ts'

const { wait, fail, unknown } = answersOf('disease')

const LOOK = 'Scout: look at 100 bunches, and note what you find.'

/**
 * Whether the bunches are sound: the last scouting round that looked at bunches is recent, and what it found is within
 * the limits. Disease on leaves is reported too but decides nothing: leaves are not picked.
 */
export function diseaseGate(asked: Asked): Gate {
  const { asOf } = asked
  const walks = entriesOf(asked.ledger.scouting, { ...asked, block: asked.block.id })
  const last = walks.at(-1)
  if (!last) return unknown('no scouting round recorded this season', 'no round', LOOK)
  const onBunches = walks.findLast(({ looked_at }) => (looked_at.bunches ?? 0) > 0)
  if (!onBunches) return unknown(`no bunches were looked at on ${spokenDate(last.date)}`, 'no bunches', LOOK)
  const age = daysBetween(onBunches.date, asOf)
  if (age > OLDEST.walk) {
    const what = onBunches === last ? 'no scouting round' : 'no bunches looked at'
    const detail = `${what} since ${spokenDate(onBunches.date)}, ${age} days ago; one in the last ${OLDEST.walk} days is needed (common practice, no source)`
    return unknown(detail, `none\nsince ${spokenDate(onBunches.date).slice(4)}`, LOOK)
  }
  const latest = walks.filter(({ date }) => date === onBunches.date)
  const rows = latest.flatMap(roundRows)
  const judged = rows.filter(({ organ }) => organ === 'bunches').map((row) => judgeBunches(asked.ledger, row))
  const beside = leavesBeside(walks, asked)
  const when = `scouted ${spokenDate(onBunches.date)}, ${daysText(age)} ago`
  const told = (some: readonly JudgedBunches[]) => [some.map(({ text }) => text).join('; '), ...beside, when]
  const over = worstFirst(judged.filter(({ stands }) => stands === 'over'))
  if (over[0])
    return fail(
      told(over).join('; '),
      short(over[0].row),
      'Sort out or leave diseased bunches. See how far it has spread, and ask whoever takes the grapes.',
    )
  const since = walks.filter((walk) => walk.date >= onBunches.date && uncountedOn(walk, onBunches).length > 0)
  if (since.length > 0) {
    const uncounted = new Set(since.flatMap((walk) => uncountedOn(walk, onBunches)))
    return unknown(
      `${listed([...uncounted])} noted on ${spokenDate(since.at(-1)!.date)} without a count of bunches or leaves`,
      'no count',
      LOOK,
    )
  }
  const open = worstFirst(judged.filter(({ stands }) => stands === 'open'))
  if (open[0])
    return wait(
      told(open).join('; '),
      short(open[0].row),
      `Score how much of each bunch is diseased: note \`${open[0].row.disease}: { bunches: ${open[0].row.found}, severity: 2 % }\`.`,
    )
  const worst = worstFirst(judged)[0]
  const bunches = highest(latest.map(({ looked_at }) => looked_at.bunches ?? 0))
  const found = judged.filter(({ row }) => row.found > 0)
  const what = found.length === 0 ? [`nothing found on ${bunches} bunches`, ...beside, when] : told(found)
  return {
    gate: 'disease',
    state: 'pass',
    todo: null,
    detail: what.join('; '),
    short: worst ? short(worst.row) : `0 of ${bunches}`,
  }
}

/** What the last round saw on leaves, if it is recent. */
function leavesBeside(walks: readonly ScoutingEntry[], { asOf }: Asked): string[] {
  const last = walks.findLast(({ looked_at }) => (looked_at.leaves ?? 0) > 0)
  if (!last || daysBetween(last.date, asOf) > OLDEST.walk) return []
  const found = roundRows(last).filter(({ organ, found }) => organ === 'leaves' && found > 0)
  if (found.length === 0) return []
  const rows = found.map(({ disease, found, looked }) => `${diseaseWord(disease)} on ${found} of ${looked}`)
  return [`leaves, which are not picked: ${rows.join(', ')}`]
}

const worstFirst = (judged: readonly JudgedBunches[]) =>
  judged.toSorted((a, b) => b.row.incidence / (b.limit.share || 1) - a.row.incidence / (a.limit.share || 1))

/**
 * Diseases that a scouting round gives only by surface or place: the number of affected bunches isn't known. A round
 * after the one that counted bunches says so of botrytis, and of any disease if it looked at whole vines.
 */
function uncountedOn({ date, looked_at, found }: ScoutingEntry, onBunches: ScoutingEntry): Disease[] {
  const isOnLeaves = date > onBunches.date && looked_at.vines === undefined
  return DISEASES.filter((disease) => {
    const one = found[disease]
    if (one === undefined || (isOnLeaves && disease !== 'botrytis')) return false
    return ORGANS.every((organ) => one[organ] === undefined)
  })
}

const short = ({ found, looked }: RoundRow) => `${found} of ${looked}`
