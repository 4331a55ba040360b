import type { Ledger } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import { SINGULAR, type StandingKind } from '../../records/kinds.ts'
import { whenOf } from '../../reports/note/draft.ts'
import { fieldsOf } from '../../reports/note/fields.ts'
import { readValue } from '../../reports/note/read-value.ts'
import { sizeQuestion, spacingQuestion, varietyQuestion } from './block-questions.ts'
import { choosing } from './choices.ts'
import { fieldQuestion, saidFault } from './field-question.ts'
import { activeQuestion, useQuestions } from './label-questions.ts'
import type { Answers, Part, Question } from './question.ts'
import { wordingOf } from './wording.ts'

/** What is asked for each kind: in the order that comes to mind, and for a product in the order of its label. */
const ASKED: Readonly<Record<StandingKind, readonly string[]>> = {
  blocks: ['name', 'variety', 'size', 'spacing', 'missing', 'planted'],
  varieties: ['name', 'colour', 'powdery', 'downy', 'botrytis'],
  products: [
    ...['name', 'active', 'form', 'kind', 'number', 'use', 'before-harvest', 're-entry'],
    ...['max-per-season', 'water', 'label'],
  ],
  sprayers: ['name', 'tank', 'flow'],
}

/** Options that a question covers, where its name is another. It is not asked where one of them was typed. */
const STANDS_FOR: Readonly<Record<string, readonly string[]>> = {
  size: ['rows', 'row-length', 'vines', 'area'],
  spacing: ['row-spacing', 'vine-spacing'],
}

const KINDS = ['fungicide', 'insecticide', 'herbicide', 'oil', 'adjuvant', 'biological'].map((word) => ({
  id: word,
  name: word,
}))

interface RecordAsking {
  ledger: Ledger
  kind: StandingKind
  asOf: IsoDate
  /** Options that were typed. */
  typed: ReadonlyMap<string, readonly string[]>
}

/** The questions for a new record that follow from the answers so far. */
export function recordQuestionsOf(asking: RecordAsking, answers: Answers): Question[] {
  return ASKED[asking.kind].flatMap((name) => {
    const options = STANDS_FOR[name] ?? [name]
    return options.some((option) => asking.typed.has(option)) ? [] : asksOf(name, asking, answers)
  })
}

function asksOf(name: string, asking: RecordAsking, answers: Answers): Question[] {
  const { units } = asking.ledger.vineyard
  if (name === 'variety') {
    const isNew = answers.get('variety')?.[0]?.option === 'new-variety'
    return [varietyQuestion(asking.ledger), ...(isNew ? [colourQuestion(asking)] : [])]
  }
  if (name === 'size') return [heldToFields(sizeQuestion(units), asking)]
  if (name === 'spacing') return [heldToFields(spacingQuestion(units), asking)]
  if (name === 'active') return [activeQuestion(units)]
  if (name === 'use') return useQuestions(answers.get('targets')?.map(({ text }) => text) ?? [], units)
  const question = ofField(name, asking)
  if (name === 'kind')
    return [{ ...question, ...choosing('kind', KINDS), preset: 'fungicide', optional: false }]
  return [name === 'name' ? withNewName(question, asking) : question]
}

/** The question, with each part of its answer read as its field will be: a wrong unit or a zero is reported at once. */
function heldToFields(question: Question, { kind, ledger, asOf }: RecordAsking): Question {
  const fields = fieldsOf(kind)
  const faultOf = ({ option, text }: Part) =>
    readValue(fields.find((field) => field.option === option)!, [text], whenOf({ ledger, asOf })).fault
  return {
    ...question,
    read: (text) => {
      const answer = question.read(text)
      const fault = answer.parts?.map(faultOf).find((one) => one !== undefined)
      return fault ? { fault: saidFault(fault) } : answer
    },
  }
}

function ofField(name: string, { kind, ledger, asOf }: RecordAsking): Question {
  const field = fieldsOf(kind).find(({ option }) => option === name)!
  return fieldQuestion(field, { ledger, asOf, wording: wordingOf(kind, name) })
}

/** The colour of a variety that is new with this block. */
function colourQuestion(asking: RecordAsking): Question {
  const question = ofField('colour', { ...asking, kind: 'varieties' })
  return {
    ...question,
    key: 'new-colour',
    ask: 'What colour are the berries of this new variety?',
    read: (text) => {
      const { parts, fault } = question.read(text)
      return parts ? { parts: parts.map((part) => ({ ...part, option: 'new-colour' })) } : { fault }
    },
  }
}

const withNewName = (question: Question, { kind, ledger }: RecordAsking): Question => ({
  ...question,
  read: (text) => {
    const id = idOf(text)
    if (id === null) return { fault: NO_NAME }
    if (ledger[kind].has(id))
      return { fault: `There is a ${SINGULAR[kind]} \`${id}\` already. Type another name.` }
    return question.read(text)
  },
})

export const NO_NAME = 'Type a name with letters, like the one that you use.'

const LONGEST = 60

/** An id made from a name: its letters and digits in lower case, joined by hyphens; null where it has none. */
export function idOf(name: string): string | null {
  const plain = name
    .toLowerCase()
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .replace(/\u00df/g, 'ss')
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, LONGEST)
    .replace(/^-|-$/g, '')
  return plain === '' ? null : plain
}
