const UNSAFE = /[\0-\x08\x0b-\x1f\x7f-\x9f\u200b-\u200f\u2028\u2029\u202a-\u202e\u2060-\u2069\ufeff]/g

/** Text from a ledger made fit for a terminal: control and direction characters shown as escapes, tabs as spaces. */
export function safe(text: string): string {
  return text
    .replace(/\t/g, ' ')
    .replace(UNSAFE, (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`)
}

/** The same on one line: line breaks become spaces. */
export function safeLine(text: string): string {
  return safe(text.replace(/\r?\n/g, ' '))
}
