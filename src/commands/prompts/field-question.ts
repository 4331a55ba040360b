import type { Ledger } from '../../ledger/read/ledger.ts'
import type { PlainValue } from '../../ledger/write/entry-text.ts'
import type { IsoDate } from '../../records/date.ts'
import { isNumeric } from '../../records/fields/shape.ts'
import { inSiteUnits } from '../../records/typed/site-way.ts'
import type { Fault } from '../../records/typed/typed-date.ts'
import type { Style } from '../../render/style.ts'
import { whenOf } from '../../reports/note/draft.ts'
import type { NoteField } from '../../reports/note/fields.ts'
import { readValue } from '../../reports/note/read-value.ts'
import { numbered, readChosen } from './choices.ts'
import type { Question } from './question.ts'
import { dateText } from './standing-text.ts'
import { asked, exampleIn, type Wording } from './wording.ts'

interface About {
  ledger: Ledger
  asOf: IsoDate
  /** How to ask for it; where left out, by the name of its option. */
  wording: Wording | undefined
  /** The option for it, where its name differs from that of the field. */
  option?: string
  /** What the last such entry has here. */
  before?: PlainValue | undefined
  /** The block asked about, where there are several. */
  block?: { id: string; name: string } | undefined
}

/** A question for a field that holds a value or readings. */
export function fieldQuestion(field: NoteField, about: About): Question {
  const { ledger, asOf, block, before, option = field.option } = about
  const { units } = ledger.vineyard
  const wording = about.wording ?? { ask: `${option}?`, why: '' }
  const words = field.about.enum?.map((word) => ({ id: String(word), name: String(word) }))
  return {
    key: block ? `${block.id}:${option}` : option,
    ask: ofBlock(asked(wording, units), block),
    why: wording.why,
    optional: !field.required,
    ...(wording.none === undefined ? {} : { none: wording.none }),
    ...(words ? { choices: numbered(words) } : {}),
    preset:
      option === 'date' ? (before === undefined ? 'today' : dateText(String(before))) : valueText(before),
    read(text) {
      if (option === 'note' && /^y(?:es)?$/i.test(text.trim()))
        return { fault: 'Type the note itself, or Enter to go on.' }
      const chosen = words && readChosen(text, words, { several: false })
      if (chosen?.fault !== undefined) return { fault: chosen.fault }
      const typed =
        chosen?.chosen[0]?.id ??
        perTime(
          asTyped(isNumeric(field.about) ? asBareNumber(text) : text, {
            unit: wording.unit?.[units],
            isList: field.form === 'list',
            units,
          }),
          wording.per,
        )
      const { fault, value } = readValue(field, [typed], whenOf({ ledger, asOf }))
      const among =
        fault && field.form === 'list' ? readingsFault(text, exampleIn(wording.like, units)) : null
      if (fault) return { fault: among ?? saidFault(fault) }
      const kept = option === 'date' ? String(value) : typed
      return { parts: [{ option, text: kept, ...(block ? { block: block.id } : {}) }] }
    },
  }
}

/** What to type where several words stand among readings; null where it is not so. */
function readingsFault(text: string, like: string | undefined): string | null {
  const words = text.match(/[a-z]+/gi) ?? []
  return like === undefined || words.length < 2 ? null : `Type each reading by itself, like ${like}.`
}

/** Adds the time that the question names already: `0.5 US gal` becomes `0.5 US gal/min`. */
const perTime = (typed: string, per: string | undefined): string =>
  per === undefined || typed.includes('/') ? typed : `${typed.replace(/\s(?:a|per) min(?:ute)?$/i, '')}${per}`

/** The question, naming the block where several are asked about in turn. */
export const ofBlock = (ask: string, block: { name: string } | undefined): string =>
  block ? `${block.name}: ${ask}` : ask

/** What is wrong and what to type, on one line. */
export function saidFault({ message, help }: Fault): string {
  const said = message.charAt(0).toUpperCase() + message.slice(1)
  if (help === '') return `${said}.`
  return `${said}. ${help.charAt(0).toUpperCase()}${help.slice(1)}.`
}

/** A value of an earlier entry, as a grower would type it. */
export function valueText(value: PlainValue | undefined): string {
  if (value === undefined) return ''
  if (Array.isArray(value)) return value.map(String).join(', ')
  return typeof value === 'object'
    ? ''
    : String(value)
        .split('\n')
        .map((line) => line.trim())
        .filter((line) => line !== '')
        .join(' ')
}

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
 * An answer in the form of its option: a bare number gets the unit that the question named. Readings may have spaces
 * between them and one unit after the last.
 */
function asTyped(
  text: string,
  { unit, isList, units }: { unit: string | undefined; isList: boolean; units: Style['units'] },
): string {
  const own = inSymbols(inSiteUnits(text.trim(), units))
  const series = /^(\d[\d.]*(?:(?:\s*,\s+|\s+|;\s*)\d[\d.]*)+)\s*([^\d\s.,;].*)?$/.exec(own)
  if (isList && series) {
    const behind = series[2] ?? unit
    const numbers = series[1]!.split(/[\s,;]+/)
    return numbers.map((number) => (behind === undefined ? number : `${number} ${behind}`)).join(', ')
  }
  return unit !== undefined && /^-?(?:\d+(?:\.\d+)?|\.\d+)$/.test(own) ? `${own} ${unit}` : own
}
