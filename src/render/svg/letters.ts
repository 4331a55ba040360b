/** Widths of letters at 12 px in a common sans-serif, in px, on the wide side. */
const BROAD = 10.5
const CAPITAL = 8.5
const OTHER = 6.5

/** Estimated width of a text at the letter size of drawings, in px. */
export function textWidth(text: string): number {
  let width = 0
  for (const letter of text) {
    if (/[MWmw@%\u2014]/.test(letter) || letter.codePointAt(0)! > 0x2e80) width += BROAD
    else if (/\p{Lu}/u.test(letter)) width += CAPITAL
    else width += OTHER
  }
  return width
}

/** The text, cut to fit a width in px, with dots after it where it was cut. */
export function shorten(text: string, room: number): string {
  if (textWidth(text) <= room) return text
  const letters = [...text]
  while (letters.length > 1 && textWidth(`${letters.join('')}...`) > room) letters.pop()
  return `${letters.join('').trimEnd()}...`
}
