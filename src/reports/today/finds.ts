import { findAdvice } from '../../facts/danger/advice.ts'
import { changeSentence, type FollowUp, findSentence, followUps } from '../../facts/danger/follow-up.ts'
import { groupedBy } from '../../facts/judged.ts'
import { daysBetween, latestOf } from '../../records/date.ts'
import { diseaseWord } from '../../records/disease.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import { hanging, on, type TodayDraft, type TodayFrom } from './item.ts'

/** Days for which the change after a treatment is reported. Our own choice. */
const CHANGE_TOLD = 7

interface Finds {
  items: TodayDraft[]
  /** Blocks and diseases found that nothing was sprayed against yet. */
  untreated: ReadonlySet<string>
  /** Blocks of which the round after treating is reported already. */
  rounds: ReadonlySet<string>
}

/** What scouting found and asks for: treat, look again, or what became of it; and which blocks have a find of which disease that nothing was sprayed against. */
export function findItems(from: TodayFrom): Finds {
  const all = followUps({ ...from, blocks: hanging(from) }, from.judge).filter(({ disease }) =>
    from.judge.diseases.includes(disease),
  )
  const untreated = all.filter(({ act, treated }) => act && treated.length === 0)
  const treated = all.filter(({ act, treated }) => act && treated.length > 0)
  const others = all.filter((one) => !untreated.includes(one))
  const items = [
    ...[...groupedBy(untreated, ({ block }) => block).values()].map((own) => toTreat(own, from)),
    ...rounds(treated, from),
    ...changes(others, from),
  ]
  return {
    items,
    untreated: new Set(untreated.map(({ block, disease }) => `${block} ${disease}`)),
    rounds: new Set(treated.map(({ block }) => block)),
  }
}

/** The finds of a block that nothing was sprayed against yet. */
function toTreat(ones: readonly FollowUp[], from: TodayFrom): TodayDraft {
  const { block } = ones[0]!
  const { judge, asOf } = from
  const picking = from.windows.get(block)?.earliest ?? null
  const { diseases, said, next, also, spray } = findAdvice(ones, { input: from, judge, picking })
  return {
    what: 'find',
    block,
    blocks: [block],
    disease: diseases.length === 1 ? diseases[0]! : null,
    urgency: ones.every(isBetter) ? 'soon' : 'now',
    until: null,
    text: `${from.nameOf(block)}: ${said.join(' ')}`,
    short: null,
    next,
    also,
    ...(spray && spray.rows === null && also.length === 0
      ? { tank: { products: spray.products, diseases } }
      : {}),
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
  const when =
    late > 0 ? `was due ${spokenDate(due)}` : late === 0 ? 'is due today' : `is due ${spokenDate(due)}`
  const said = [...byBlock].map(([block, own]) => {
    const last = latestOf(own.map(({ treated: all }) => all.at(-1)!.date))!
    return `${from.nameOf(block)} (${own.map(({ disease }) => diseaseWord(disease)).join(', ')}, treated ${shortDate(last)})`
  })
  const diseases = new Set(treated.map(({ disease }) => disease))
  return [
    {
      ...on('find', blocks),
      until: due,
      urgency: late >= 0 ? 'soon' : 'plan',
      disease: diseases.size === 1 ? treated[0]!.disease : null,
      text: `The scouting round after treating ${when}: ${said.join(', ')}.`,
      short: null,
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
  const blocks = [...new Set(told.map(({ block }) => block))]
  const worse = told.some(({ before }) => before!.difference.change > 0 && before!.difference.beyondChance)
  return [
    {
      ...on('find', blocks),
      until: null,
      urgency: worse ? 'soon' : 'plan',
      disease: new Set(told.map(({ disease }) => disease)).size === 1 ? told[0]!.disease : null,
      text: told.map((one) => `${from.nameOf(one.block)}: ${changeSentence(one)}`).join(' '),
      short: null,
      next: 'rowbook scouting',
      reasons: [],
    },
  ]
}
