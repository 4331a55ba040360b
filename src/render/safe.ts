/** Control and direction characters, and invisible letters, which could make different names look alike. */
const UNSAFE =
  /[\0-\x08\x0b-\x1f\x7f-\x9f\xad\u061c\u115f\u1160\u17b4\u17b5\u200b-\u200f\u2028-\u202e\u2060-\u206f\u2800\u3164\ufeff\uffa0\ufff0-\ufffb]|\u034f|[\u180b-\u180f]|\udb40[\udc00-\udfff]/g

/** Text from a ledger made fit for a terminal: control and direction characters shown as escapes, tabs as spaces. */
export function safe(text: string): string {
  return text.replace(/\t/g, ' ').replace(UNSAFE, shown)
}

const shown = (character: string) => {
  const code = character.codePointAt(0)!.toString(16)
  return character.length > 1 ? `\\u{${code}}` : `\\u${code.padStart(4, '0')}`
}

/** Our own colours (`style.ts`), and a line end with a carriage return, which move nothing on a screen. */
const HARMLESS = /(\x1b\[(?:1|2|22|31|32|33|39)m|\r\n)/

/** A last pass over everything printed: keeps our own colours and removes all other terminal control. */
export function safeScreen(text: string): string {
  if (text.search(UNSAFE) === -1) return text
  return text
    .split(HARMLESS)
    .map((piece, index) => (index % 2 === 1 ? piece : piece.replace(UNSAFE, shown)))
    .join('')
}

/** The same on one line: line breaks become spaces. */
export function safeLine(text: string): string {
  return safe(text.replace(/\r?\n/g, ' '))
}
