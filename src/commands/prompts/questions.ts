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
import { fieldQuestion, ofBlock, valueText } from './field-question.ts'
import { hoursQuestion } from './hours-question.ts'
import type { Part, Question, Read } from './question.ts'
import { type Looked, lookedOf, lookedText, lookedTyped, readFound, readLooked } from './scouting-answers.ts'
import { isWaterOpen, partQuestion, productQuestions, spotWater, weatherQuestion } from './spray-questions.ts'
import { foundText, lookedAtText, partText, weatherText } from './standing-text.ts'
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
  const options = FIELD_ORDER[asking.kind]
  const ids = blocksOf(asking)
  if (!BLOCK_BY_BLOCK.has(asking.kind) || ids.length < 2) {
    const plain = options.flatMap((option) => asksOf(option, asking, undefined))
    return asking.kind === 'weather' && !asking.standing ? withWeek(plain, asking) : plain
  }
  const cut = options.indexOf('block') + 1
  const common = options.slice(0, cut).flatMap((option) => asksOf(option, asking, undefined))
  const own = ids.flatMap((id) =>
    options.slice(cut).flatMap((option) => asksOf(option, asking, asking.ledger.blocks.get(id))),
  )
  return [...common, ...own]
}

/** The blocks that the entry is about, as far as known. */
export function blocksOf({ answers, blocks, ledger }: Asking): string[] {
  const chosen = answers.get('block')?.map(({ text }) => text) ?? []
  if (chosen.length > 0) return chosen
  return blocks.length > 0 ? [...blocks] : ledger.blocks.size === 1 ? [...ledger.blocks.keys()] : []
}

type NamedBlock = { id: string; name: string }

function asksOf(option: string, asking: Asking, block: NamedBlock | undefined): Question[] {
  const { kind, given, ledger, standing } = asking
  if (option === 'product')
    return given.has('product')
      ? []
      : [...productQuestions({ ...productsSoFar(asking), ledger }), ...waterAfterAll(asking)]
  if (option === 'part')
    return PART_OPTIONS.some((one) => given.has(one))
      ? []
      : [partQuestion(standing ? partText(standing) : asking.part)]
  if (given.has(option)) return []
  if (option === 'weather') return [weatherQuestion(ledger.vineyard.units, weatherText(standing?.weather))]
  if (option === 'block') return [blockQuestion(asking)]
  const before = withoutWhole(newestOf(asking, block), asking)
  if (option === 'sprayer') return [sprayerQuestion(ledger, before)]
  if (option === 'stage') return [stageQuestion(valueText(standing?.stage))]
  if (option === 'looked-at') return [lookedQuestion(before, asking, block)]
  if (option === 'found') return [foundQuestion(asking, block)]
  if (option === 'hours' && kind === 'work' && blocksOf(asking).length > 1)
    return [hoursQuestion(blocksOf(asking).map((id) => ledger.blocks.get(id)!))]
  const field = fieldsOf(kind).find((one) => one.option === option)
  const wording = wordingOf(kind, option)
  if (!field) return []
  const question = fieldQuestion(field, { ...asking, wording, before: before[field.path[0]!], block })
  // A spot spray has no area, so only the litres show how much was sprayed.
  return [option === 'water' && isSpot(asking) ? spotWater(question, ledger.vineyard.units) : question]
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
function newestOf(asking: Asking, block: NamedBlock | undefined): PlainEntry {
  const { ledger, kind, asOf } = asking
  if (asking.standing) return asking.standing
  const newest = likeEntries(ledger, kind, { asOf, blocks: block ? [block.id] : [] }).at(-1)
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
  const { products } = withoutWhole(newestOf(asking, undefined), asking)
  const chosen = asking.answers.get('product')?.map(({ text }) => text) ?? []
  const before = (Array.isArray(products) ? products : []) as PlainEntry[]
  return { before, chosen, hasTargets: asking.given.has('for') }
}

function blockQuestion(asking: Asking): Question {
  const blocks = blocksInOrder(asking.ledger)
  if (blocks.length === 0)
    throw new UsageError('no block is recorded yet', 'record the first one: `rowbook note block`')
  const before = newestOf(asking, undefined)
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

function lookedQuestion(
  { looked_at }: PlainEntry,
  { answers, standing }: Asking,
  block: NamedBlock | undefined,
): Question {
  const key = block ? `${block.id}:looked-at` : 'looked-at'
  // On one round, people mostly look at the same number of bunches in each block.
  const inRound = [...answers].findLast(([other]) => other !== key && other.endsWith(':looked-at'))
  const last = (looked_at ?? (inRound ? lookedOf(inRound[1]) : {})) as Looked
  return {
    key,
    ask: ofBlock('What did you look at? For example 50 bunches, 20 leaves.', block),
    why: 'How many you looked at, sound ones too: a find means little without it. Rows may follow: in rows 3-8.',
    preset: standing ? lookedAtText(standing) : lookedText(last),
    read: (text) => placed(readLooked(text), block),
  }
}

function foundQuestion(asking: Asking, block: NamedBlock | undefined): Question {
  const { ledger } = asking
  const looked = lookedSoFar(asking, block)
  const count = Object.values(looked)[0] ?? 50
  const diseases = judgedDiseases(ledger)
  return {
    key: block ? `${block.id}:found` : 'found',
    ask: ofBlock(
      `What did you find? For example clean, or powdery 3 of ${count} in rows 8-9, rest clean.`,
      block,
    ),
    why: `Clean means that you looked for ${listed(diseases)} and found none. A disease that you don't name stays unknown, unless you type: rest clean.`,
    preset: foundText(asking.standing?.found),
    none: 'clean',
    read: (text) => placed(readFound(text, looked, diseases), block),
  }
}

/** What was looked at: from the answer, the option, or the entry that this one begins with. */
function lookedSoFar({ answers, typed, like }: Asking, block: NamedBlock | undefined): Looked {
  const answer = answers.get(block ? `${block.id}:looked-at` : 'looked-at')
  if (answer) return lookedOf(answer)
  const texts = typed.get('looked-at')
  return (texts ? lookedTyped(texts) : (like?.looked_at as Looked | undefined)) ?? {}
}

function placed(read: Read, block: NamedBlock | undefined): Read {
  if (read.fault !== undefined || !block) return read
  return { parts: read.parts.map((part) => ({ ...part, block: block.id })) }
}
