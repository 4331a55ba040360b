import { findAdvice } from '../../facts/danger/advice.ts'
import { changeSentence, type FollowUp, findSentence, followUps } from '../../facts/danger/follow-up.ts'
import { groupedBy } from '../../facts/judged.ts'
import { daysBetween, latestOf } from '../../records/date.ts'
import { diseaseWord } from '../../records/disease.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import { diseaseOf, nameOf, type TodayDraft, type TodayFrom } from './item.ts'

/** Days for which the change after a treatment is reported. Our own choice. */
const CHANGE_TOLD = 7

/** What scouting found and asks for: treat, look again, or what became of it. */
export function findItems(from: TodayFrom) {
  const all = followUps({ ...from, blocks: from.hanging }, from.judge).filter(({ disease }) =>
    from.judge.diseases.includes(disease),
  )
  const isUntreated = ({ act, treated }: FollowUp) => act && treated.length === 0
  const untreated = all.filter(isUntreated)
  const others = all.filter((one) => !isUntreated(one))
  const treated = others.filter(({ act }) => act)
  const items = [
    ...[...groupedBy(untreated, ({ block }) => block).values()].map((own) => toTreat(own, from)),
    ...rounds(treated, from),
    ...changes(others, from),
  ]
  return {
    items,
    /** Blocks and diseases found that nothing was sprayed against yet. */
    untreated: new Set(untreated.map(({ block, disease }) => `${block} ${disease}`)),
    /** Blocks of which the round after treating is reported already. */
    rounds: new Set(treated.map(({ block }) => block)),
  }
}

/** The finds of a block that nothing was sprayed against yet. */
function toTreat(ones: readonly FollowUp[], from: TodayFrom): TodayDraft {
  const { block } = ones[0]!
  const { judge, asOf } = from
  const picking = from.windows.get(block)?.earliest ?? null
  const { diseases, said, next, also, spray } = findAdvice(ones, {
    input: from,
    judge,
    picking,
    heatAhead: from.forecast?.highest,
  })
  return {
    what: 'find',
    blocks: [block],
    disease: diseaseOf(ones),
    urgency: ones.every(isBetter) ? 'soon' : 'now',
    text: `${nameOf(from, block)}: ${said.join(' ')}`,
    next,
    also,
    tank: spray?.rows === null && also.length === 0 ? { products: spray.products, diseases } : undefined,
    reasons: diseases.flatMap((disease) => judge.on(block, disease, asOf).reasons),
  }
}

const isBetter = ({ before }: FollowUp) =>
  before !== null && before.difference.change < 0 && before.difference.beyondChance

/** Finds that were sprayed against: the next round tells whether it worked. */
function rounds(treated: readonly FollowUp[], from: TodayFrom): TodayDraft[] {
  const due = treated.map(({ nextRound }) => nextRound!).sort()[0]
  if (due === undefined) return []
  const late = daysBetween(due, from.asOf)
  const byBlock = groupedBy(treated, ({ block }) => block)
  const blocks = [...byBlock.keys()]
  const when = late === 0 ? 'is due today' : `${late > 0 ? 'was' : 'is'} due ${spokenDate(due)}`
  const said = [...byBlock].map(([block, own]) => {
    const last = latestOf(own.map(({ treated: all }) => all.at(-1)!.date))!
    return `${nameOf(from, block)} (${own.map(({ disease }) => diseaseWord(disease)).join(', ')}, treated ${shortDate(last)})`
  })
  return [
    {
      what: 'find',
      blocks,
      until: due,
      urgency: late >= 0 ? 'soon' : 'plan',
      disease: diseaseOf(treated),
      text: `The scouting round after treating ${when}: ${said.join(', ')}.`,
      next: `rowbook note scouting --block ${blocks[0]}`,
      reasons: treated.map(findSentence),
    },
  ]
}

/** How it stands after treatments, against the rounds before them. */
function changes(all: readonly FollowUp[], from: TodayFrom): TodayDraft[] {
  const told = all.filter(
    (one) => one.before?.told === true && daysBetween(one.newest.date, from.asOf) <= CHANGE_TOLD,
  )
  if (told.length === 0) return []
  const worse = told.some(({ before }) => before!.difference.change > 0 && before!.difference.beyondChance)
  return [
    {
      what: 'find',
      blocks: [...new Set(told.map(({ block }) => block))],
      urgency: worse ? 'soon' : 'plan',
      disease: diseaseOf(told),
      text: told.map((one) => `${nameOf(from, one.block)}: ${changeSentence(one)}`).join(' '),
      next: 'rowbook scouting',
    },
  ]
}
