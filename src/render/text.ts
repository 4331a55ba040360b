import { highest } from '../agronomy/statistics/extremes.ts'

/** A space inside a number (`1 690`), before its per cent sign or inside a unit (`US fl oz`), where no line may end. */
const INSIDE_NUMBER = /(\d|\b(?:US|imp|fl)) (?=\d{3}(?!\d)|[%\u00b0]|(?:fl|gal|oz|pt|qt|ton)\b)/g
const KEPT = '\u0000'

/** Wraps text to the screen, each line after the indent. Only a word longer than a line is cut. */
export function wrap(text: string, columns: number, indent = ''): string {
  const room = Math.max(20, columns - indent.length)
  const lines: string[] = []
  for (const paragraph of text.split('\n')) {
    let line = ''
    for (const word of kept(paragraph, room).split(' ')) {
      const [first, ...more] = pieces(word, room) as [string, ...string[]]
      if (line !== '' && line.length + 1 + first.length > room) {
        lines.push(line)
        line = first
      } else line = line === '' ? first : `${line} ${first}`
      for (const piece of more) {
        lines.push(line)
        line = piece
      }
    }
    lines.push(line)
  }
  return lines.map((line) => (line === '' ? '' : indent + line.replaceAll(KEPT, ' '))).join('\n')
}

/** A paragraph in which numbers, and commands in backticks that fit on a line, are kept together. */
const kept = (paragraph: string, room: number): string =>
  paragraph
    .replace(INSIDE_NUMBER, `$1${KEPT}`)
    .replace(/`[^`]*`/g, (quoted) => (quoted.length < room ? quoted.replaceAll(' ', KEPT) : quoted))

/** A word cut into pieces that fit on a line, after a slash, hyphen or comma where there is one. */
function pieces(word: string, room: number): string[] {
  if (word.length <= room) return [word]
  const at = highest(['/', '-', ','].map((sign) => word.lastIndexOf(sign, room - 1) + 1)) || room
  return [word.slice(0, at), ...pieces(word.slice(at), room)]
}

/** A word of a shell, with its quotes. */
const SHELL_WORD = /(?:\\.|"(?:\\.|[^"\\])*"|'[^']*'|[^\s"'\\])+/g

/** A command line to paste, on several lines where it is long; each but the last ends in a backslash. */
export function wrapCommand(line: string, columns: number, indent = '  '): string {
  const room = columns - indent.length - 2
  if (line.length <= room + 2) return indent + line
  const words = line.match(SHELL_WORD) ?? []
  // A long name has a line of its own, without an indent.
  if (indent !== '' && highest(words.map((word) => word.length)) > room - 2)
    return wrapCommand(line, columns, '')
  const further = indent === '' ? '' : '  '
  const lines: string[] = []
  let open = ''
  for (const part of words.reduce<string[]>((parts, word) => joined(parts, word, room - 2), []))
    if (open !== '' && open.length + 1 + part.length > room) {
      lines.push(open)
      open = further + part
    } else open = open === '' ? part : `${open} ${part}`
  return [...lines, open].map((one) => indent + one).join(' \\\n')
}

/** Joins a value to the option before it, where both fit on a line. */
function joined(parts: string[], word: string, room: number): string[] {
  const last = parts.at(-1)
  const fits = last !== undefined && !word.startsWith('--') && last.length + 1 + word.length <= room
  return fits ? [...parts.slice(0, -1), `${last} ${word}`] : [...parts, word]
}

/** Lines to type and what each does, in two columns; where the lines are long, what they do goes underneath. */
export function renderLines(
  rows: readonly (readonly [line: string, does: string])[],
  columns: number,
): string {
  const width = highest(rows.map(([line]) => line.length)) + 4
  if (width > columns / 2)
    return rows
      .map(([line, does]) => `${wrapCommand(line, columns)}\n${wrap(does, columns, '      ')}`)
      .join('\n')
  return rows
    .map(([line, does]) => `  ${line}`.padEnd(width) + wrap(does, columns, ' '.repeat(width)).slice(width))
    .join('\n')
}

/** The given sentences in order, without those that are empty or false. */
export const sentences = (...all: (string | readonly string[] | false | 0 | null | undefined)[]): string[] =>
  all.flatMap((one) => one || [])

/** Sentences one below the other, each wrapped to the screen. */
export const wrapAll = (all: readonly string[], columns: number, indent = ''): string =>
  all.map((one) => wrap(one, columns, indent)).join('\n')

/** `1 block`, `2 blocks`. */
export function counted(count: number, noun: string, plural = `${noun}s`): string {
  return `${groupDigits(count)} ${count === 1 ? noun : plural}`
}

/** Numbers from 1000 up with their digits in groups of three. */
export function groupDigits(value: number | string): string {
  const [whole, part] = String(value).split('.')
  const digits = whole!.replace(/^-/, '')
  // A number in scientific notation has no groups.
  if (digits.length < 4 || /\D/.test(digits)) return String(value)
  const groups: string[] = []
  for (let end = digits.length; end > 0; end -= 3) groups.unshift(digits.slice(Math.max(0, end - 3), end))
  const grouped = `${whole!.slice(0, whole!.length - digits.length)}${groups.join(' ')}`
  return part === undefined ? grouped : `${grouped}.${part}`
}

/** A printed report with its cautions under its answer, which is its first paragraph. */
export function underAnswer(printed: string, cautions: readonly string[], columns: number): string {
  if (cautions.length === 0) return printed
  const said = wrap(cautions.join(' '), columns)
  const end = printed.search(/\n\s*\n/)
  if (end < 0) return `${printed.trimEnd()}\n\n${said}\n`
  return `${printed.slice(0, end)}\n\n${said}${printed.slice(end).trimEnd()}\n`
}

/** The cautions of a report without a single answer, as a paragraph. */
export function renderCautions(cautions: readonly string[], columns: number): string {
  return cautions.length === 0 ? '' : `\n${wrap(cautions.join(' '), columns)}\n`
}

/** The first paragraph of a printed report, on one line: in every report this is its answer. */
export function firstParagraph(printed: string): string {
  return printed
    .trim()
    .split(/\n\s*\n/, 1)[0]!
    .split('\n')
    .map((line) => line.trim())
    .join(' ')
}
