import type { PlainEntry, PlainValue } from '../../ledger/write/entry-text.ts'
import type { IsoDate } from '../../records/date.ts'
import { safe } from '../../render/safe.ts'
import { listed, wrap } from '../../render/text.ts'
import { makeDraft } from '../../reports/note/draft.ts'
import { fieldsOf, type NoteField } from '../../reports/note/fields.ts'
import { wholeEntry } from '../../reports/note/like.ts'
import type { Screen } from './ask-all.ts'
import { readChosen, renderChoices } from './choices.ts'
import type { Chosen } from './choose-entry.ts'
import { askQuestion, type Question } from './question.ts'
import type { TypedFields } from './typed-fields.ts'
import { wordingOf } from './wording.ts'

/**
 * Asks what of an entry is to be changed: its fields with their values, then a new value for each that is named.
 * @returns null where the grower left, or changed nothing
 */
export async function askChanges(
  chosen: Chosen,
  { screen, asOf }: { screen: Screen; asOf: IsoDate },
): Promise<TypedFields | null> {
  const { ledger, kind, old } = chosen
  const base = wholeEntry(kind, old)
  const answered: TypedFields = { typed: new Map(), blocks: [] }
  const fields = fieldsOf(kind).filter(({ form }) => form !== 'targets')
  for (;;) {
    const { entry } = makeDraft({ ledger, kind, asOf, ...answered, base })
    const set = fields.filter((field) => valueText(standing(entry, field)) !== '')
    const others = fields.filter((field) => !set.includes(field))
    screen.say('\n')
    screen.say(
      renderChoices(
        set.map((field, at) => ({
          word: String(at + 1),
          shown: `${field.option}: ${valueText(standing(entry, field))}`,
        })),
        40,
      ),
    )
    screen.say(
      `${wrap(safe(`Not written: ${listed(others.map(({ option }) => option))}.`), screen.columns)}\n`,
    )
    const which = await askQuestion(whichField(set, others), screen)
    if (which.came !== 'answer') return null
    const field = fields.find(({ option }) => option === which.parts[0]?.option)
    if (!field) break
    const value = await askQuestion(newValue(field, { chosen, base, asOf, entry }), screen)
    if (value.came === 'left') return null
    if (value.came === 'back') continue
    const texts = value.parts.map(({ text }) => text)
    if (field.form === 'blocks') answered.blocks = texts
    else answered.typed.set(field.option, texts.length > 0 ? texts : [''])
  }
  return answered.typed.size > 0 || answered.blocks.length > 0 ? answered : null
}

function whichField(set: readonly NoteField[], others: readonly NoteField[]): Question {
  const named = (some: readonly NoteField[]) => some.map(({ option }) => ({ id: option, name: option }))
  return {
    key: 'which',
    ask: 'What do you want to change? A number, or the name of a field.',
    why: 'Each value is asked for with what stands there. Enter alone ends, and shows the change before it is written.',
    required: false,
    preset: '',
    read(text) {
      const byNumber = /^\d{1,3}$/.test(text) ? set[Number(text) - 1] : undefined
      if (byNumber) return { parts: [{ option: byNumber.option, text }] }
      const { chosen, fault } = readChosen(text, named([...set, ...others]), { several: false })
      return fault === undefined ? { parts: [{ option: chosen[0]!.id, text }] } : { fault }
    },
  }
}

function newValue(
  field: NoteField,
  { chosen, base, asOf, entry }: { chosen: Chosen; base: PlainEntry; asOf: IsoDate; entry: PlainEntry },
): Question {
  const { ledger, kind } = chosen
  const { option, form } = field
  const blocks = [...ledger.blocks.values()]
  return {
    key: option,
    ask: wordingOf(kind, option)?.ask ?? `New value of ${option}?`,
    why: field.required ? '' : 'Type - to take it out of the entry.',
    required: field.required,
    preset: valueText(standing(entry, field)),
    read(text) {
      if (form === 'blocks') {
        const { chosen: some, fault } = readChosen(text, blocks, { several: field.path[0] === 'blocks' })
        return fault === undefined ? { parts: some.map(({ id }) => ({ option, text: id })) } : { fault }
      }
      const texts = form === 'products' ? text.split(/,\s{0,9}(?=[\w -]{1,90}=)/) : [text]
      const { faults } = makeDraft({
        ledger,
        kind,
        asOf,
        blocks: [],
        typed: new Map([[option, texts]]),
        base,
      })
      const [wrong] = faults
      if (wrong) return { fault: `${wrong.fault.message}: ${wrong.fault.help}` }
      return { parts: texts.map((one) => ({ option, text: one })) }
    },
  }
}

function standing(entry: PlainEntry, { path: [first, second] }: NoteField): PlainValue | undefined {
  const value = entry[first!]
  if (second === undefined) return value
  return typeof value === 'object' && !Array.isArray(value) ? value[second] : undefined
}

/** A value as it would be typed as an option. */
function valueText(value: PlainValue | undefined): string {
  if (value === undefined) return ''
  if (Array.isArray(value))
    return value.map((one) => (typeof one === 'object' ? doseText(one) : String(one))).join(', ')
  if (typeof value !== 'object') return String(value)
  return pairs(value)
    .map(([key, inner]) => `${key}=${inner}`)
    .join(', ')
}

const doseText = (part: PlainValue): string => {
  const { product, rate, amount, concentration } = part as PlainEntry
  return `${product}=${rate ?? amount ?? concentration ?? ''}`
}

const pairs = (map: PlainEntry): [string, PlainValue][] =>
  Object.entries(map).flatMap(([key, value]): [string, PlainValue][] =>
    typeof value === 'object' && !Array.isArray(value)
      ? pairs(value).map(([inner, one]) => [`${key}.${inner}`, one])
      : [[key, value]],
  )
