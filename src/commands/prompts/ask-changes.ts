import { FIELD_ORDER } from '../../facts/entry-order.ts'
import type { PlainEntry, PlainValue } from '../../ledger/write/entry-text.ts'
import type { IsoDate } from '../../records/date.ts'
import { ORGANS } from '../../records/kinds/scouting.ts'
import { makeDraft } from '../../reports/note/draft.ts'
import { fieldsOf, type NoteField } from '../../reports/note/fields.ts'
import { wholeEntry } from '../../reports/note/like.ts'
import { choosing } from './choices.ts'
import type { Chosen } from './choose-entry.ts'
import { fieldQuestion, saidFault, valueText } from './field-question.ts'
import { type Answers, askAll, type Part, type Question, type Screen } from './question.ts'
import { type Asking, PART_OPTIONS, questionsOf, stageQuestion } from './questions.ts'
import { diseaseOf } from './scouting-answers.ts'
import { type TypedFields, withParts } from './typed-fields.ts'

/** Fields that one question covers. */
const STANDS_FOR: Readonly<Record<string, readonly string[]>> = {
  part: PART_OPTIONS,
  weather: ['wind', 'from', 'temperature', 'humidity', 'sky'],
  product: ['product', 'for'],
  'looked-at': ['looked-at', 'rows'],
}

interface About {
  chosen: Chosen
  asOf: IsoDate
  base: PlainEntry
}

/**
 * Asks all the questions of an entry again, each with its present value: Enter keeps it, and `-` takes it out. Then
 * come fields that the entry has but `note` doesn't ask for, and last the fields that it doesn't have.
 * @returns what differs from the entry, even where the grower left before the end
 */
export async function askChanges(
  chosen: Chosen,
  { screen, asOf }: { screen: Screen; asOf: IsoDate },
): Promise<{ changed: TypedFields; left: boolean }> {
  const about = { chosen, asOf, base: wholeEntry(chosen.kind, chosen.old) }
  const { answers, texts, left } = await askAll((so) => changeQuestions(about, so), screen)
  const changed = changeQuestions(about, answers).filter(({ key, preset = '' }) => {
    const text = texts.get(key)
    return text !== undefined && text !== preset && !key.startsWith('more:')
  })
  const changes = changed.map(({ key }) => changeOf(key, answers.get(key) ?? [], about.base))
  const parts = changes.flatMap((change) => change.parts ?? [])
  return {
    changed: {
      typed: withParts(new Map(), parts),
      blocks: changes.flatMap(({ blocks = [] }) => blocks),
      without: changes.flatMap(({ without = [] }) => without),
    },
    left,
  }
}

function changeQuestions(about: About, answers: Answers): Question[] {
  const { ledger, kind } = about.chosen
  const { base } = about
  const asking: Asking = {
    ledger,
    kind,
    asOf: about.asOf,
    given: new Set([
      ...(ledger.blocks.size === 1 ? ['block'] : []),
      ...(ledger.sprayers.size === 0 ? ['sprayer'] : []),
    ]),
    answers,
    like: null,
    standing: base,
    blocks: [],
    typed: new Map(),
  }
  const asked = new Set(FIELD_ORDER[kind].flatMap((option) => STANDS_FOR[option] ?? [option]))
  const others = fieldsOf(kind).filter(({ option }) => !asked.has(option))
  const isInEntry = (field: NoteField) => valueAt(base, field) !== undefined
  const standing = others.filter(isInEntry)
  const open = others.filter((field) => !isInEntry(field))
  return [
    ...questionsOf(asking).map(keepable),
    ...standing.map((field) => keepable(otherField(field, about))),
    ...moreQuestions(open, about, answers),
  ]
}

/** Lets Enter keep the present value, even one that could not be typed as an answer. */
const keepable = (question: Question): Question => ({
  ...question,
  read: (text) => {
    const read = question.read(text)
    return read.fault !== undefined && text === question.preset ? { parts: [] } : read
  },
})

/** Asks which field to add to the entry, then for its value, until no more field is named. */
function moreQuestions(fields: readonly NoteField[], about: About, answers: Answers): Question[] {
  const left = [...fields]
  const questions: Question[] = []
  for (let at = 0; left.length > 0; at += 1) {
    const key = `more:${at}`
    questions.push(whichField(key, left))
    const named = answers.get(key)?.[0]?.text
    const place = left.findIndex(({ option }) => option === named)
    if (place < 0) break
    questions.push(otherField(left.splice(place, 1)[0]!, about))
  }
  return questions
}

function whichField(key: string, fields: readonly NoteField[]): Question {
  const named = fields.map(({ option }) => ({ id: option, name: option }))
  return {
    key,
    ask: `Anything to add? Name a field: ${named.map(({ name }) => name).join(', ')}.`,
    why: 'Fields that the entry does not have. Enter alone ends, and shows the change before it is written.',
    optional: true,
    read: choosing('more', named).read,
  }
}

/** The question for a field that `note` doesn't ask for, answered in the form of its option. */
function otherField(field: NoteField, { chosen: { ledger, kind }, asOf, base }: About): Question {
  const { option, about } = field
  const before = valueAt(base, field)
  if (option === 'stage') return stageQuestion(valueText(before), field.required)
  const name = `${option[0]!.toUpperCase()}${option.slice(1).replaceAll('-', ' ')}`
  const what = about.description?.replace(/ \(.*/, '')
  const wording = { ask: what === undefined ? `${name}?` : `${name}: ${what}?`, why: '' }
  if (field.form !== 'pairs') return fieldQuestion(field, { ledger, asOf, wording, before })
  return {
    key: option,
    ask: wording.ask,
    why: 'Type KEY=VALUE, several with commas.',
    optional: !field.required,
    preset: pairsText(before),
    read(text) {
      const typed = new Map([[option, [text]]])
      const [wrong] = makeDraft({ ledger, kind, asOf, blocks: [], typed, base }).faults
      return wrong ? { fault: saidFault(wrong.fault) } : { parts: [{ option, text }] }
    },
  }
}

function valueAt(entry: PlainEntry, { path: [first, second] }: NoteField): PlainValue | undefined {
  const value = entry[first!]
  if (second === undefined) return value
  return typeof value === 'object' && !Array.isArray(value) ? value[second] : undefined
}

const pairsText = (value: PlainValue | undefined): string =>
  typeof value === 'object'
    ? Object.entries(value)
        .map(([key, inner]) => `${key}=${inner}`)
        .join(', ')
    : ''

/** What the answer to one question changes: options, where an empty text takes a field out, and what goes before. */
function changeOf(
  key: string,
  parts: readonly Part[],
  base: PlainEntry,
): { parts?: readonly Part[]; blocks?: string[]; without?: string[][] } {
  if (key === 'block') return { blocks: parts.map(({ text }) => text) }
  if (key === 'part') {
    const standing = PART_OPTIONS.filter((option) =>
      option === 'method' ? base.method === 'spot' : base[option] !== undefined,
    )
    const out = standing.filter((option) => !parts.some((part) => part.option === option))
    return { parts: [...out.map((option) => ({ option, text: '' })), ...parts] }
  }
  if (key === 'product') {
    const ids = new Set(parts.map(({ text }) => text))
    const out = ((base.products ?? []) as PlainEntry[]).filter(({ product }) => !ids.has(String(product)))
    return { parts: out.map(({ product }) => ({ option: 'product', text: `${product}=none` })) }
  }
  if (key === 'looked-at') return { parts, without: [['looked_at'], ['rows']] }
  if (parts.length > 0) {
    const diseases = key === 'found' ? new Set(parts.map(diseaseOf)) : []
    const keys = [...ORGANS, 'severity', 'rows']
    return { parts, without: [...diseases].flatMap((disease) => keys.map((one) => ['found', disease, one])) }
  }
  if (key === 'found' || key === 'weather') return { without: [[key]] }
  // Dose and target of a product can't be taken out alone, only the whole product.
  return key.includes(':') ? {} : { parts: [{ option: key, text: '' }] }
}
