import { diseaseMeant, misspeltDisease, severalTargets } from '../disease.ts'
import type { Range } from '../quantity.ts'
import { asText, field, shown } from './field.ts'
import { asLine, measureIn, rangeIn } from './fields.ts'
import { formulationCode, normalGroup } from './label-codes.ts'

/** A dose as printed on a label: the range, and the most applications a season if given with it. */
export interface LabelDose extends Range {
  perSeason?: number
}

/** `2.5-5 kg/ha, at most 6 a season`: the dose, and what follows it. */
const WITH_COUNT =
  /^(.*?)[\s,;(]\s{0,9}(?:at most|max(?:imum|\.)?|up to|no more than)\s{1,9}(\d{1,3})(?:\s{0,9}(?:applications?|sprays?|treatments?|times|x))?(?:\s{0,9}(?:a|an|per|each|in a)\s{0,9}(?:season|year|crop))?\)?$/i

/** `up to 5 kg/ha`: a dose given only as a maximum. */
const ONLY_MOST = /^(?:up to|at most|max(?:imum|\.)?|no more than)\s{1,9}(\d.*)$/i

/**
 * A dose as printed on a label: a range with its unit (`5-20 g/L`, `50 g in 10 L`), and after a comma the most
 * applications a season (`2.5-5 kg/ha, at most 6 a season`); `up to 5 kg/ha` starts from zero.
 */
export const labelDose = (
  units: readonly string[],
  description: string,
  low: number,
  high: number,
  example: string,
) => {
  const plain = rangeIn(units, low, high)
  return field(
    (value, refuse): LabelDose => {
      const written = WITH_COUNT.exec(typeof value === 'string' ? value.trim() : '')
      const said = written ? written[1]! : value
      const most = typeof said === 'string' ? ONLY_MOST.exec(said.trim())?.[1] : undefined
      const read = plain(most ?? said, refuse)
      const dose = most === undefined ? read : { ...read, low: 0 }
      if (!written) return dose
      const perSeason = Number(written[2])
      if (perSeason < 1)
        refuse('impossible-value', '`at most 0 a season` allows no spray', 'write how many the label allows')
      return { ...dose, perSeason }
    },
    { type: ['string', 'number'], description, examples: [example], keeps: units },
  )
}

/** The label's re-entry interval: hours from the end of spraying, or until the spray has dried. */
export type ReEntry = number | 'until dry'

const UNTIL_DRY = /^until\s+(?:the\s+)?(?:sprays?\s+|deposit\s+)?(?:is\s+|has\s+|have\s+)?(?:dry|dried)$/i

/** A re-entry interval (REI): a time, or `until dry`. */
export const reEntry = (description: string) => {
  const hours = measureIn('h', 0, 2400)
  return field(
    (value, refuse): ReEntry => {
      if (typeof value === 'string' && UNTIL_DRY.test(value.trim())) return 'until dry'
      if (typeof value === 'string' && /\bdr(?:y|ied)\b/i.test(value))
        return refuse(
          'unknown-word',
          `\`${value}\` is no re-entry interval`,
          'write `until dry`, or hours: `24 h`',
        )
      return hours(value, refuse)
    },
    {
      type: ['string', 'number'],
      description: `${description} (hours, or \`until dry\`)`,
      examples: ['24 h', 'until dry'],
    },
  )
}

/** A two-letter formulation code; trade letters with one meaning are accepted. */
export const formulation = (description: string) =>
  field(
    (value, refuse) => {
      const read = asText(value, refuse)
      const code = formulationCode(read)
      if (code !== null) return code
      return refuse(
        'unknown-formulation',
        `\`${shown(read)}\` is not a formulation code`,
        'the label prints it, often after the name: WG, SC, EC, SL and so on',
      )
    },
    { type: 'string', description, examples: ['WG', 'SC'] },
  )

/** A mode-of-action group code, in one spelling. */
export const actionGroup = (description: string) =>
  field(
    (value, refuse) => {
      const group = normalGroup(asText(value, refuse))
      if (/^(?:[1-9]\d?[A-Z]?|[A-Z]{1,2}\d{0,2}[A-Z]?)$/.test(group)) return group
      return refuse(
        'not-a-group',
        `\`${shown(String(value))}\` is not a mode-of-action group`,
        'the label prints it: M02, 3, 11, 45, P07, BM02',
      )
    },
    {
      type: ['string', 'integer'],
      description,
      examples: ['M02', '3'],
    },
  )

/** What a spray is against: one of the diseases, by whatever name, or a pest's plain name. */
export const target = (description: string) =>
  field(
    (value, refuse) => {
      const words = asLine(value, refuse)
      const meant = misspeltDisease(words)
      if (meant !== null)
        refuse('unknown-word', `no disease is called \`${words}\``, `did you mean \`${meant}\`?`)
      const several = severalTargets(words)
      if (several)
        refuse('unknown-word', `\`${words}\` names more than one target`, `write \`[${several.join(', ')}]\``)
      if (/^mildews?$/i.test(words.trim()))
        refuse('unknown-word', '`mildew` can be powdery or downy', 'write `powdery` or `downy`')
      return diseaseMeant(words) ?? words
    },
    { type: 'string', description, examples: ['powdery'] },
  )
