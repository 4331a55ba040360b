import type { Typed } from '../../reports/note/draft.ts'
import type { TypedFields } from './typed-fields.ts'

/** What a command line of `note` is made of again. */
interface Resumed {
  /** The kind of entry, as typed. */
  word: string
  typed: Typed
  blocks: readonly string[]
  like?: string | undefined
  /** Options of every command, by name. */
  common: Readonly<Record<string, string | undefined>>
}

/** The command line that holds what was typed so far, so that leaving a question loses nothing. */
export function resumeLine({ word, typed, blocks, like, common }: Resumed): string {
  const parts = ['rowbook', 'note', word]
  for (const [name, value] of Object.entries(common)) if (value !== undefined) parts.push(`--${name}`, value)
  if (like !== undefined) parts.push('--like', like)
  for (const id of blocks) parts.push('--block', id)
  for (const [option, texts] of typed) for (const text of texts) parts.push(`--${option}`, text)
  return shellLine(parts)
}

/** The command line that makes the changes told so far; null where there are none. */
export function amendLine(
  place: string,
  { typed, blocks }: TypedFields,
  common: Readonly<Record<string, string | undefined>>,
): string | null {
  if (typed.size === 0 && blocks.length === 0) return null
  const parts = ['rowbook', 'note', '--amend', place]
  for (const [name, value] of Object.entries(common)) if (value !== undefined) parts.push(`--${name}`, value)
  for (const id of blocks) parts.push('--block', id)
  for (const [option, texts] of typed) for (const text of texts) parts.push(`--${option}`, text)
  return shellLine(parts)
}

/** Words as one line that a POSIX shell takes apart again. */
export const shellLine = (words: readonly string[]): string => words.map(shellWord).join(' ')

/** A word that a POSIX shell reads back as it is. */
function shellWord(text: string): string {
  return /^[\w@%+=:,./-]+$/.test(text) ? text : `'${text.replace(/'/g, `'\\''`)}'`
}
