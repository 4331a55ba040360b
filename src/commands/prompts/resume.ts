import type { Typed } from '../../reports/note/draft.ts'

/** The command line that holds what was typed so far, so that leaving a question loses nothing. */
export function resumeLine(word: string, typed: Typed, blocks: readonly string[], like?: string): string {
  const parts = ['rowbook', 'note', word]
  if (like !== undefined) parts.push('--like', like)
  for (const id of blocks) parts.push('--block', id)
  for (const [option, texts] of typed) for (const text of texts) parts.push(`--${option}`, text)
  return parts.map(shellWord).join(' ')
}

/** A word that a POSIX shell reads back as it is. */
export function shellWord(text: string): string {
  return /^[\w@%+=:,./-]+$/.test(text) ? text : `'${text.replace(/'/g, `'\\''`)}'`
}
