import type { Ledger } from '../../ledger/read/ledger.ts'
import type { PlainEntry, PlainValue } from '../../ledger/write/entry-text.ts'
import type { IsoDate } from '../../records/date.ts'
import type { SeasonKind } from '../../records/kinds.ts'
import type { Fault } from '../../records/said-date.ts'
import { whenOf } from '../../reports/note/draft.ts'
import { fieldsOf, type NoteField } from '../../reports/note/fields.ts'
import { readDose } from '../../reports/note/read-products.ts'
import { readValue } from '../../reports/note/read-value.ts'
import { readWeather } from '../../reports/note/read-weather.ts'

/** Something to be asked. Answers are texts, as an option would take them; none where it is left out. */
export interface Question {
  key: string
  message: string
  /** One of these, several of these, or free text where there are none. */
  choices?: readonly { value: string; label: string }[]
  several?: boolean
  required: boolean
  /** What Enter takes. */
  preset: readonly string[]
  /** What is wrong with a text, or undefined. */
  fault(text: string): string | undefined
}

/** The fields asked for of each kind, in the order in which a grower has them in mind. */
const ASKED: Record<SeasonKind, readonly string[]> = {
  sprays: ['date', 'time', 'block', 'sprayer', 'water', 'product', 'weather', 'note'],
  scouting: ['date', 'block', 'looked-at', 'found', 'note'],
  samples: ['date', 'block', 'berries', 'brix', 'ph', 'ta', 'note'],
  stages: ['date', 'block', 'stage', 'share', 'note'],
  crop: ['date', 'block', 'at', 'bunches-per-vine', 'bunch-weight', 'note'],
  picks: ['date', 'block', 'weight', 'people', 'hours', 'brix', 'note'],
  work: ['date', 'block', 'job', 'hours', 'people', 'note'],
  weather: ['date', 'low', 'high', 'rain', 'note'],
}

export interface Asking {
  ledger: Ledger
  kind: SeasonKind
  asOf: IsoDate
  /** Options that were typed or that an entry like it gives, and that are not asked again. */
  given: ReadonlySet<string>
  /** The newest entry of the kind, which gives the presets. */
  newest: PlainEntry
  answers: ReadonlyMap<string, readonly string[]>
}

/** The questions as they stand after the answers so far: each product chosen adds those for its dose and target. */
export function questionsOf(asking: Asking): Question[] {
  const fields = fieldsOf(asking.kind)
  return ASKED[asking.kind].flatMap((option) => {
    if (option === 'product') return productQuestions(asking)
    if (asking.given.has(option)) return []
    if (option === 'weather') return [weatherQuestion()]
    const field = fields.find((one) => one.option === option)
    return field ? [fieldQuestion(field, asking)] : []
  })
}

const named = (records: ReadonlyMap<string, { id: string; name: string }>) =>
  [...records.values()].map(({ id, name }) => ({ value: id, label: `${name} (${id})` }))

function fieldQuestion(field: NoteField, { ledger, asOf, newest }: Asking): Question {
  const { option, about, required, path } = field
  const example = about.examples?.[0]
  const hint = example === undefined || option === 'date' ? '' : ` (like ${example})`
  const base = {
    key: option,
    required,
    message: `${option === 'date' ? 'Which day' : sentence(about.description ?? PAIRS[option] ?? option)}${hint}`,
    preset: option === 'date' ? [asOf] : texts(newest[path[0]!]),
    fault: (text: string) => said(readValue(field, [text], whenOf({ ledger, asOf })).fault),
  }
  if (field.form === 'blocks') {
    const several = path[0] === 'blocks'
    return {
      ...base,
      message: several ? 'Which blocks' : 'Which block',
      choices: named(ledger.blocks),
      several,
    }
  }
  if (option === 'sprayer') return { ...base, message: 'Which sprayer', choices: named(ledger.sprayers) }
  if (about.enum && option !== 'stage')
    return { ...base, choices: about.enum.map((word) => ({ value: String(word), label: String(word) })) }
  return base
}

const PAIRS: Record<string, string> = {
  'looked-at': 'how many were looked at (like bunches=100, leaves=50)',
  found: 'what was found (like powdery.bunches=4, downy.leaves=0)',
}

const sentence = (text: string) =>
  (text.startsWith('pH') ? text : text.charAt(0).toUpperCase() + text.slice(1)).replace(
    / \(kept in .*\)$/,
    '',
  )

const said = (fault: Fault | undefined) => fault && `${fault.message}${fault.help ? `: ${fault.help}` : ''}`

function weatherQuestion(): Question {
  return {
    key: 'weather',
    message: 'Weather (like 1.8 m/s SW 17 C 70 %)',
    required: false,
    preset: [],
    fault: (text) => said(readWeather(text).fault),
  }
}

function productQuestions({ ledger, given, newest, answers }: Asking): Question[] {
  if (given.has('product')) return []
  const before = (Array.isArray(newest.products) ? newest.products : []) as PlainEntry[]
  const which: Question = {
    key: 'product',
    message: 'Which products',
    choices: named(ledger.products),
    several: true,
    required: true,
    preset: before.map((part) => String(part.product)),
    fault: () => undefined,
  }
  const chosen = answers.get('product') ?? []
  return [
    which,
    ...chosen.flatMap((id) => {
      const like = before.find((part) => part.product === id)
      return [doseQuestion(id, ledger, like), ...targetQuestion(id, ledger, like, given)]
    }),
  ]
}

function doseQuestion(id: string, ledger: Ledger, like: PlainEntry | undefined): Question {
  const use = ledger.products.get(id)?.uses[0]
  const label = use?.rate ?? use?.concentration
  const span = label
    ? `, label ${label.low === label.high ? label.low : `${label.low}-${label.high}`} ${label.unit}`
    : ''
  return {
    key: `dose:${id}`,
    message: `Dose of ${id}${span}`,
    required: true,
    preset: texts(like?.rate ?? like?.concentration ?? like?.amount),
    fault: (text) => said(readDose(text).fault),
  }
}

function targetQuestion(
  id: string,
  ledger: Ledger,
  like: PlainEntry | undefined,
  given: ReadonlySet<string>,
): Question[] {
  const targets = [...new Set(ledger.products.get(id)?.uses.map((use) => use.against) ?? [])]
  if (targets.length < 2 || given.has('for')) return []
  const choices = targets.map((target) => ({ value: target, label: target }))
  const preset = texts(like?.for)
  return [
    {
      key: `for:${id}`,
      message: `${id} against`,
      choices,
      several: true,
      required: false,
      preset,
      fault: () => undefined,
    },
  ]
}

function texts(value: PlainValue | undefined): string[] {
  if (value === undefined) return []
  if (Array.isArray(value)) return value.map(String)
  if (typeof value === 'object')
    return [
      Object.entries(value)
        .map(([key, one]) => `${key}=${one}`)
        .join(', '),
    ]
  return [String(value)]
}
