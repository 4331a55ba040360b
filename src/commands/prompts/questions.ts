import { judgedDiseases } from '../../facts/danger/known.ts'
import { blocksInOrder, FIELD_ORDER } from '../../facts/entry-order.ts'
import { listed } from '../../facts/sentences.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import type { PlainEntry } from '../../ledger/write/entry-text.ts'
import type { IsoDate } from '../../records/date.ts'
import { readStage, STAGE_WORDS } from '../../records/growth-stage.ts'
import type { SeasonKind } from '../../records/kinds.ts'
import { fieldsOf } from '../../reports/note/fields.ts'
import { carried, likeEntries } from '../../reports/note/like.ts'
import { UsageError } from '../plumbing/errors.ts'
import { choosing } from './choices.ts'
import { fieldQuestion, inBlock, valueText } from './field-question.ts'
import { hoursQuestion } from './hours-question.ts'
import type { Part, Question } from './question.ts'
import {
  foundText,
  type Looked,
  lookedAtText,
  lookedText,
  lookedTyped,
  readFound,
  readLooked,
} from './scouting-answers.ts'
import {
  isWaterOpen,
  partQuestion,
  partText,
  productQuestions,
  spotWater,
  weatherQuestion,
  weatherText,
} from './spray-questions.ts'
import { BLOCK_BY_BLOCK } from './typed-fields.ts'
import { withWeek } from './week-questions.ts'
import { wordingOf } from './wording.ts'

export interface Asking {
  ledger: Ledger
  kind: SeasonKind
  asOf: IsoDate
  /** Options that were typed, or given by the entry that `--like` names; they are not asked. */
  given: ReadonlySet<string>
  /** Ids of the blocks that were typed. */
  blocks: readonly string[]
  /** Options that were typed. */
  typed: ReadonlyMap<string, readonly string[]>
  /** The entry to begin with, from `--like`. */
  like: PlainEntry | null
  /** The entry to change: its values are shown in brackets. */
  standing?: PlainEntry | undefined
  /** The part of the block for which a spray is advised, where it isn't the whole block. */
  part?: string | undefined
  /** The answers so far, by the key of their question. */
  answers: ReadonlyMap<string, readonly Part[]>
}

/** Options that say which part of a block was sprayed. */
export const PART_OPTIONS = ['rows', 'share', 'vines', 'method']

/** The questions that follow from the answers so far: each chosen block and product adds its own. */
export function questionsOf(asking: Asking): Question[] {
  const { kind, ledger, standing } = asking
  const options = FIELD_ORDER[kind]
  const ids = blocksOf(asking)
  if (!BLOCK_BY_BLOCK.has(kind) || ids.length < 2) {
    const plain = options.flatMap((option) => asksOf(option, asking))
    return kind === 'weather' && !standing ? withWeek(plain, asking) : plain
  }
  const cut = options.indexOf('block') + 1
  const common = options.slice(0, cut).flatMap((option) => asksOf(option, asking))
  const own = options.slice(cut)
  return [
    ...common,
    ...ids.flatMap((id) => {
      const questions = own.flatMap((option) => asksOf(option, asking, id))
      return questions.map((question) => inBlock(question, ledger.blocks.get(id)!))
    }),
  ]
}

/** The blocks that the entry is about, as far as known. */
export function blocksOf({ answers, blocks, ledger }: Asking): string[] {
  const chosen = answers.get('block')?.map(({ text }) => text) ?? []
  if (chosen.length > 0) return chosen
  return blocks.length > 0 ? [...blocks] : ledger.blocks.size === 1 ? [...ledger.blocks.keys()] : []
}

/** @param block the id of the block asked about, where each has its own entry */
function asksOf(option: string, asking: Asking, block?: string): Question[] {
  const { kind, given, ledger, standing } = asking
  const { units } = ledger.vineyard
  const covered = option === 'part' ? PART_OPTIONS : [option]
  if (covered.some((one) => given.has(one))) return []
  if (option === 'product')
    return [...productQuestions({ ...productsSoFar(asking), ledger }), ...waterAfterAll(asking)]
  if (option === 'part') return [partQuestion(standing ? partText(standing) : asking.part)]
  if (option === 'weather') return [weatherQuestion(units, weatherText(standing?.weather))]
  if (option === 'block') return [blockQuestion(asking)]
  const before = withoutWhole(newestOf(asking, block), asking)
  if (option === 'sprayer') return [sprayerQuestion(ledger, before)]
  if (option === 'stage') return [stageQuestion(valueText(standing?.stage))]
  if (option === 'looked-at') return [lookedQuestion(before, asking)]
  if (option === 'found') return [foundQuestion(asking, block)]
  const ids = blocksOf(asking)
  if (option === 'hours' && kind === 'work' && ids.length > 1)
    return [hoursQuestion(ids.map((id) => ledger.blocks.get(id)!))]
  const field = fieldsOf(kind).find((one) => one.option === option)!
  const wording = wordingOf(kind, option)
  const question = fieldQuestion(field, { ...asking, wording, before: before[field.path[0]!] })
  // A spot spray has no area, so only the litres show how much was sprayed.
  return [option === 'water' && isSpot(asking) ? spotWater(question, units) : question]
}

/** Asks once more for the water that was left out, where a dose is for a volume of spray. */
function waterAfterAll(asking: Asking): Question[] {
  if (asking.given.has('water') || !isWaterOpen(asking.answers)) return []
  const field = fieldsOf('sprays').find(({ option }) => option === 'water')!
  const wording = { ...wordingOf('sprays', 'water')!, ask: 'How much water after all?' }
  return [{ ...fieldQuestion(field, { ...asking, wording }), key: 'water-after-all', optional: false }]
}

/** Whether single vines or places were sprayed. */
const isSpot = ({ answers, typed, standing }: Asking): boolean =>
  answers.has('part')
    ? answers.get('part')!.some(({ option, text }) => option === 'method' && text === 'spot')
    : (typed.get('method')?.at(-1) ?? standing?.method) === 'spot'

/** The entry to change; else what carries over from the newest entry of this kind, for the block where one is given. */
function newestOf(asking: Asking, block?: string): PlainEntry {
  const { ledger, kind, asOf } = asking
  if (asking.standing) return asking.standing
  const newest = likeEntries(ledger, kind, { asOf, blocks: block === undefined ? [] : [block] }).at(-1)
  return newest ? carried(kind, newest) : {}
}

/** Drops water and products where only a part is sprayed: the last spray was mostly of the whole block. */
function withoutWhole(
  { water, products, ...rest }: PlainEntry,
  { kind, answers, given, standing }: Asking,
): PlainEntry {
  if (standing) return standing
  const isPart = (answers.get('part') ?? []).length > 0 || PART_OPTIONS.some((one) => given.has(one))
  const kept = kind === 'sprays' && isPart ? {} : { water, products }
  return { ...rest, ...kept } as PlainEntry
}

function productsSoFar(asking: Asking) {
  const { products } = withoutWhole(newestOf(asking), asking)
  const chosen = asking.answers.get('product')?.map(({ text }) => text) ?? []
  const before = (Array.isArray(products) ? products : []) as PlainEntry[]
  return { before, chosen, hasTargets: asking.given.has('for') }
}

function blockQuestion(asking: Asking): Question {
  const blocks = blocksInOrder(asking.ledger)
  if (blocks.length === 0)
    throw new UsageError('no block is recorded yet', 'record the first one: `rowbook note block`')
  const before = newestOf(asking)
  const last = (
    (before.blocks as string[] | undefined) ?? (before.block ? [String(before.block)] : [])
  ).flatMap((id) => asking.ledger.blocks.get(id)?.name ?? [])
  const several = asking.kind === 'sprays' || !asking.standing
  return {
    key: 'block',
    ask: several ? 'Which blocks? Several with commas, or all.' : 'Which block?',
    why: BLOCK_BY_BLOCK.has(asking.kind)
      ? 'Several blocks are asked about in turn, and each is written to a file of its own.'
      : 'The blocks where it was done or seen.',
    ...choosing('block', blocks, { several }),
    preset: last.join(', '),
  }
}

function sprayerQuestion({ sprayers }: Ledger, before: PlainEntry): Question {
  const all = [...sprayers.values()]
  return {
    key: 'sprayer',
    ask: 'Which sprayer?',
    why: 'Its tank and calibration are used to check the entry.',
    ...choosing('sprayer', all),
    optional: true,
    preset: sprayers.get(String(before.sprayer))?.name ?? '',
  }
}

export function stageQuestion(preset: string, required = true): Question {
  return {
    key: 'stage',
    ask: 'Which growth stage? A number of the list, or words: 50 % veraison, 6 leaves, E-L 25.',
    why: 'The numbers are those of the BBCH scale; any other number of that scale will do too.',
    choices: STAGE_WORDS.map(({ stage, word }) => ({ word: String(stage), shown: word })),
    optional: !required,
    preset,
    read: (text) => {
      const stage = readStage(text)
      const field = fieldsOf('stages').find((one) => one.option === 'stage')!
      if (stage !== null && field.schema.safeParse(stage).success)
        return { parts: [{ option: 'stage', text: text.trim() }] }
      return {
        fault: `\`${text}\` is not a growth stage. Type a number of the list, or words like 50 % veraison.`,
      }
    },
  }
}

function lookedQuestion({ looked_at }: PlainEntry, { answers, standing }: Asking): Question {
  // On one round, people mostly look at the same number of bunches in each block.
  const inRound = [...answers].findLast(([key]) => key.endsWith(':looked-at'))
  const last = (looked_at ?? (inRound ? lookedIn(inRound[1]) : {})) as Looked
  return {
    key: 'looked-at',
    ask: 'What did you look at? For example 50 bunches, 20 leaves.',
    why: 'How many you looked at, sound ones too: a find means little without it. Rows may follow: in rows 3-8.',
    preset: standing ? lookedAtText(standing) : lookedText(last),
    read: readLooked,
  }
}

function foundQuestion({ ledger, answers, typed, like, standing }: Asking, block?: string): Question {
  const answer = answers.get(block === undefined ? 'looked-at' : `${block}:looked-at`)
  const texts = typed.get('looked-at')
  // From the answer, the option, or the entry that this one begins with.
  const looked = answer
    ? lookedIn(answer)
    : texts
      ? lookedTyped(texts)
      : (like?.looked_at as Looked | undefined)
  const diseases = judgedDiseases(ledger)
  return {
    key: 'found',
    ask: `What did you find? For example clean, or powdery 3 of ${Object.values(looked ?? {})[0] ?? 50} in rows 8-9, rest clean.`,
    why: `Clean means that you looked for ${listed(diseases)} and found none. A disease that you don't name stays unknown, unless you type: rest clean.`,
    preset: foundText(standing?.found),
    none: 'clean',
    read: (text) => readFound(text, looked ?? {}, diseases),
  }
}

/** The counts in an answer that `readLooked` has read. */
const lookedIn = (parts: readonly Part[]): Looked | undefined =>
  lookedTyped(parts.filter(({ option }) => option === 'looked-at').map(({ text }) => text))
