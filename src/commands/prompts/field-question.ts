import { asSentences } from '../../facts/sentences.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import type { PlainValue } from '../../ledger/write/entry-text.ts'
import { dayNumber, type IsoDate } from '../../records/date.ts'
import type { Fault } from '../../records/fault.ts'
import { isNumeric } from '../../records/fields/shape.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { inSiteUnits } from '../../records/typed/site-way.ts'
import type { Style } from '../../render/style.ts'
import { whenOf } from '../../reports/note/draft.ts'
import type { NoteField } from '../../reports/note/fields.ts'
import { readValue } from '../../reports/note/read-value.ts'
import { numbered, readChosen } from './choices.ts'
import type { Question } from './question.ts'
import { asked, exampleIn, type Wording } from './wording.ts'

interface About {
  ledger: Ledger
  asOf: IsoDate
  /** How to ask for it; where left out, by the name of its option. */
  wording: Wording | undefined
  /** What the last such entry has here. */
  before?: PlainValue | undefined
}

/** A question for a field that holds a value or readings. */
export function fieldQuestion(field: NoteField, about: About): Question {
  const { ledger, asOf, before } = about
  const { option } = field
  const { units } = ledger.vineyard
  const wording = about.wording ?? { ask: `${option}?`, why: '' }
  const words = field.about.enum?.map((word) => ({ id: String(word), name: String(word) }))
  const isDate = option === 'date'
  return {
    key: option,
    ask: asked(wording, units),
    why: wording.why,
    optional: !field.required,
    none: wording.none,
    choices: words && numbered(words),
    preset: isDate ? dateText(before ?? 'today') : valueText(before),
    read(text) {
      if (option === 'note' && /^y(?:es)?$/i.test(text.trim()))
        return { fault: 'Type the note itself, or Enter to go on.' }
      const chosen = words && readChosen(text, words, { several: false })
      if (chosen?.fault !== undefined) return { fault: chosen.fault }
      const typed = chosen
        ? chosen.chosen[0]!.id
        : asTyped(isNumeric(field.about) ? asBareNumber(text) : text, field, wording, units)
      const { fault, value } = readValue(field, [typed], whenOf({ ledger, asOf }))
      if (!fault) return { parts: [{ option, text: isDate ? String(value) : typed }] }
      const like = exampleIn(wording.like, units)
      const isSeveral = field.form === 'list' && (text.match(/[a-z]+/gi) ?? []).length > 1
      return { fault: isSeveral && like ? `Type each reading by itself, like ${like}.` : saidFault(fault) }
    },
  }
}

/** The same question for one of several blocks that are asked about in turn. */
export const inBlock = (question: Question, { id, name }: { id: string; name: string }): Question => ({
  ...question,
  key: `${id}:${question.key}`,
  ask: `${name}: ${question.ask}`,
  read: (text) => {
    const { parts, fault } = question.read(text)
    return parts ? { parts: parts.map((part) => ({ ...part, block: id })) } : { fault }
  },
})

/** What is wrong and what to type, on one line. */
export const saidFault = ({ message, help }: Fault): string =>
  asSentences(help === '' ? [message] : [message, help])

/** A value of an earlier entry, as a grower would type it. */
export function valueText(value: PlainValue | undefined): string {
  if (Array.isArray(value)) return value.map(String).join(', ')
  if (value === undefined || typeof value === 'object') return ''
  const lines = String(value).split('\n')
  return lines
    .map((line) => line.trim())
    .filter((line) => line !== '')
    .join(' ')
}

/** `Tue 29 Sep 2026`. */
const dateText = (date: PlainValue): string =>
  dayNumber(String(date)) === null ? String(date) : `${spokenDate(String(date))} ${String(date).slice(0, 4)}`

const SPELLED: Readonly<Record<string, string>> = {
  litre: 'L',
  liter: 'L',
  millilitre: 'mL',
  milliliter: 'mL',
  kilo: 'kg',
  kilogram: 'kg',
  gram: 'g',
  metre: 'm',
  meter: 'm',
}

/** Turns `2 litres` into `2 L`, and leaves all else as it is. */
const inSymbols = (text: string): string =>
  text.replace(/^(\d[\d.]*)\s*([a-z]+?)s?$/i, (whole, number: string, unit: string) => {
    const symbol = SPELLED[unit.toLowerCase()]
    return symbol === undefined ? whole : `${number} ${symbol}`
  })

/** `4 h`, `3 people`, `19.4 Brix`: a number followed by what it counts; in a file it stands without a unit. */
const COUNTED =
  /^(-?\d+(?:\.\d+)?)\s{0,3}(?:h|hrs?|hours?|people|persons?|pickers?|berries|vines?|\u00b0?\s?(?:bx|brix))$/i

/** The number of such an answer. */
const asBareNumber = (text: string): string => COUNTED.exec(text.trim())?.[1] ?? text

/**
 * An answer in the form of its option: a bare number gets the unit that the question named, and the time that it named
 * (`0.5 US gal` becomes `0.5 US gal/min`). Readings may have spaces between them and one unit after the last.
 */
function asTyped(
  text: string,
  { form }: NoteField,
  { unit: units, per = '' }: Wording,
  system: Style['units'],
): string {
  const unit = units?.[system]
  const own = inSymbols(inSiteUnits(text.trim(), system))
  const series = /^(\d[\d.]*(?:(?:\s*,\s+|\s+|;\s*)\d[\d.]*)+)\s*([^\d\s.,;].*)?$/.exec(own)
  if (form === 'list' && series) {
    const behind = series[2] ?? unit
    const numbers = series[1]!.split(/[\s,;]+/)
    return numbers.map((number) => (behind === undefined ? number : `${number} ${behind}`)).join(', ')
  }
  const typed = unit !== undefined && /^-?(?:\d+(?:\.\d+)?|\.\d+)$/.test(own) ? `${own} ${unit}` : own
  return per === '' || typed.includes('/') ? typed : typed.replace(/\s(?:a|per) min(?:ute)?$/i, '') + per
}
