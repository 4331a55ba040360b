/** Widths of letters at 12 px in a common sans-serif, in px, rather too broad than too narrow. */
const BROAD = 10.5
const CAPITAL = 8.5
const OTHER = 6.5

/** About how broad a text is at the size of a drawing's letters, in px. */
export function textWidth(text: string): number {
  let width = 0
  for (const letter of text) {
    if (/[MWmw@%\u2014]/.test(letter) || letter.codePointAt(0)! > 0x2e80) width += BROAD
    else if (/\p{Lu}/u.test(letter)) width += CAPITAL
    else width += OTHER
  }
  return width
}

/** The text, or as much of its beginning as the room in px holds, with dots after it. */
export function shorten(text: string, room: number): string {
  if (textWidth(text) <= room) return text
  const letters = [...text]
  while (letters.length > 1 && textWidth(`${letters.join('')}...`) > room) letters.pop()
  return `${letters.join('').trimEnd()}...`
}
