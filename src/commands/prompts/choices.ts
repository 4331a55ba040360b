import { listed } from '../../facts/sentences.ts'
import { findAllNamed, findNamed } from '../../records/typed/named.ts'
import type { Read } from './question.ts'

interface Named {
  id: string
  name: string
}

/** A numbered list of records. */
export const numbered = (records: readonly Named[]) =>
  records.map(({ name }, index) => ({ word: String(index + 1), shown: name }))

/** The parts of a question that asks for records: the list, and how an answer that names one or several is read. */
export const choosing = (
  option: string,
  records: readonly Named[],
  { several = false, before = '' }: { several?: boolean; before?: string } = {},
) => ({
  choices: numbered(records),
  read(text: string): Read {
    const { chosen, fault } = readChosen(text, records, { several })
    return fault === undefined
      ? { parts: chosen.map(({ id }) => ({ option, text: before + id })) }
      : { fault }
  },
})

/** The records that an answer names: by number, id, name or a part of it; several with commas, `all`, or `all except` one. */
export function readChosen<T extends Named>(
  text: string,
  records: readonly T[],
  { several }: { several: boolean },
): { chosen: T[]; fault?: undefined } | { chosen?: undefined; fault: string } {
  // Several numbers may also be typed with spaces between them.
  const said = /^[\d\s]+$/.test(text) ? text.trim().replace(/\s+/g, ',') : text
  const { found: chosen, unclear } = findAllNamed(said, records, (word) => {
    const byNumber = /^\d{1,4}$/.test(word) ? records[Number(word) - 1] : undefined
    return byNumber ? { found: byNumber, several: [byNumber] } : findNamed(word, records)
  })
  if (unclear) return { fault: notFound(unclear, records) }
  if (chosen.length === 0) return { fault: notFound({ word: text, several: [] }, records) }
  if (!several && chosen.length > 1) return { fault: 'One only: type its number or its name.' }
  return { chosen }
}

function notFound({ word, several }: { word: string; several: readonly Named[] }, all: readonly Named[]) {
  const names = (some: readonly Named[]) => listed(some.slice(0, 6).map(({ name }) => name.split(': ')[0]!))
  if (several.length > 1) return `\`${word}\` fits ${names(several)}. Type more of the name, or its number.`
  const numbers = all.length === 1 ? '1' : `a number from 1 to ${all.length}`
  return `\`${word}\` is not in the list. Type ${numbers}, or a name: ${names(all)}.`
}
