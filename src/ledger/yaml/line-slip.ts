import type { TextFault } from './text-faults.ts'

/** A typing mistake, and where to fix it. */
export interface Slip extends TextFault {
  /** Whether the rest of the file can still be judged. */
  goesOn?: true
}

/** A line of a text, and the offset of its first character. */
export interface Line {
  start: number
  line: string
}

/** Longer than any line of a record. */
const LONGEST = 400

/** The line at an offset, without its line end. */
export function lineAt(text: string, offset: number): Line {
  const start = text.lastIndexOf('\n', offset - 1) + 1
  const end = text.indexOf('\n', offset)
  const line = text.slice(start, Math.min(end < 0 ? text.length : end, start + LONGEST))
  return { start, line: line.endsWith('\r') ? line.slice(0, -1) : line }
}

/** What is wrong from one place of a line to another, and whether the rest of the file can still be judged. */
type Told = readonly [from: number, to: number, message: string, help: string, goesOn?: true]

/** Says what a line's mistake is; null where it is none after all. */
type Tell = (found: RegExpExecArray, line: string) => Told | null

const quoted = (text: string): string =>
  text.includes('"') ? `'${text.replaceAll("'", "''")}'` : `"${text}"`

/** A mark is missing after a key; `over` letters after it belong to the mistake. */
const missing =
  (mark: 'colon' | 'space', over = 0): Tell =>
  ([whole, before = '', key], line) => {
    const message = `a ${mark} is missing after \`${key}${mark === 'space' ? ':' : ''}\``
    const help = `write \`${key}: ${line.slice(whole.length).trimEnd()}\``
    return [before.length, whole.trimEnd().length + over, message, help]
  }

/** Keys that records write in braces, where a comma may have been forgotten. */
const IN_BRACES = new Set(
  'blocks product rate amount concentration for name content group against interval stages until bunches leaves shoots severity rows date block stage share brix ph ta low high rain from temperature humidity picking crate bucket juice height width on by pick_from enter_from'.split(
    ' ',
  ),
)

/** Mistakes that a line shows by itself, in the order in which they are looked for. */
const SLIPS: readonly (readonly [like: RegExp, tell: Tell])[] = [
  [/[\u2018-\u201f]/g, curlyQuote],
  [/^(?!.*: )( *(?:- )?)([a-z_]+) ?= ?(?=\S)/g, missing('colon')],
  [/^( *(?:- )?)([a-z_]+):(?=[^\s:])/g, missing('space', 1)],
  [/^ *-(?=[^\s-])/g, noSpaceBehindDash],
  [/^ *(?:- )?([a-z_]+): (?=[^\s"'[{|>#])/g, colonInside],
  [/[{,] ?([a-z_]+): (?=[^\s"'[{])/g, colonInBraces],
  [/(^ *(?:- )?|[{,] ?)([a-z_]+): (?=[@`%]|- )/g, reserved],
  [/^ *(?:- )?([a-z_]+): (["'])/g, behindQuote],
  [/^(?!-+$)[\w.-]+$/g, noKey],
  [/^(?!.*:)( *(?:- )?)([a-z_]+) (?=\S)/g, missing('colon')],
]

/** The mistake that an unreadable line shows by itself, or null. */
export function lineSlip({ start, line }: Line): Slip | null {
  for (const [like, tell] of SLIPS)
    for (const found of line.matchAll(like)) {
      const told = tell(found, line)
      if (told) return slipAt(start, told)
    }
  return null
}

function slipAt(lineStart: number, [from, to, message, help, goesOn]: Told): Slip {
  const slip: Slip = { start: lineStart + from, end: lineStart + to, name: 'syntax', message, help }
  return goesOn ? { ...slip, goesOn } : slip
}

function curlyQuote({ index }: RegExpExecArray): Told {
  const message = 'these are curly quotes, from a word processor'
  return [index, index + 1, message, 'type straight quotes: "text"', true]
}

function noSpaceBehindDash([{ length }]: RegExpExecArray, line: string): Told {
  const help = `write \`- ${line.slice(length).trimEnd()}\``
  return [length - 1, length + 1, 'a space is missing after the dash', help]
}

function colonInside([{ length }, key]: RegExpExecArray, line: string): Told | null {
  const value = line.slice(length).split(' #')[0]!
  return /:(?:\s|$)/.test(value) ? needsQuotes(length, key!, value) : null
}

function needsQuotes(at: number, key: string, value: string): Told {
  const text = value.trimEnd()
  const [what, whole] = key === 'note' ? ['a note', 'note'] : [`\`${key}\``, 'text']
  const message = `a colon inside ${what}: put the ${whole} in quotes`
  return [at, at + text.length, message, `write \`${key}: ${quoted(text)}\``, true]
}

function colonInBraces({ 0: { length }, 1: key, index }: RegExpExecArray, line: string): Told | null {
  const from = index + length
  const value = line.slice(from).split(/[,{}[\]]/)[0]!
  const next = /(?<= )([a-z_]+): /.exec(value)
  if (!next || !IN_BRACES.has(next[1]!)) return value.includes(': ') ? needsQuotes(from, key!, value) : null
  const before = value.slice(0, next.index).trimEnd().replace(/;$/, '').trimEnd()
  const help = `write \`${key}: ${before}, ${next[1]}: ...\``
  const to = from + next.index + next[1]!.length
  return [from + before.length, to, `a comma is missing before \`${next[1]}\``, help]
}

function reserved({ 0: { length }, 1: before, 2: key, index }: RegExpExecArray, line: string): Told {
  const from = index + length
  const value = /[{,]/.test(before!) ? line.slice(from).split(/[,}]/)[0]! : line.slice(from)
  const share = /^% ?(\d+(?:\.\d+)?)\s*$/.exec(value)?.[1]
  const message = share
    ? 'the percent sign goes behind its number'
    : `a text can not begin with \`${line[from]}\``
  const isList = key === 'blocks' || key === 'products'
  const help = isList
    ? 'begin the list on the next line, each with a dash and a space'
    : `write \`${key}: ${share ? `${share} %` : quoted(value.trimEnd())}\``
  return [from, from + 1, message, help, true]
}

function behindQuote([{ length: from }, key, quote]: RegExpExecArray, line: string): Told | null {
  const close = line.indexOf(quote!, from)
  const rest =
    close < 0
      ? ''
      : line
          .slice(close + 1)
          .split(' #')[0]!
          .trimEnd()
  if (rest.trim() === '') return null
  // A quote between two letters is an apostrophe.
  const isApostrophe = quote === "'" && /\w'\w/.test(line.slice(close - 1, close + 2))
  const whole = `${line.slice(from, close)}${isApostrophe ? "'" : ''}${rest.replaceAll(quote!, '')}`
  const help = `put the whole text in one pair of quotes: \`${key}: ${quoted(whole)}\``
  return [close + 1, close + 1 + rest.length, 'a text goes on after its closing quote', help]
}

function noKey([{ length }]: RegExpExecArray): Told {
  return [0, length, 'this line has no key, like `date:`', 'put it behind the key above, on the same line']
}

const CLOSES: Readonly<Record<string, string>> = { '[': ']', '{': '}' }

/** The bracket that a line opens and doesn't close, ignoring quoted text. */
export function openBracket({ start, line }: Line): Slip | null {
  const open: number[] = []
  for (const { 0: piece, index } of line.matchAll(/(?<![^\s[{,])(["']).*?(?:\1|$)|[[{}\]]/g))
    if (piece in CLOSES) open.push(index)
    else if (piece === ']' || piece === '}') open.pop()
  const last = open.at(-1)
  if (last === undefined) return null
  const bracket = line[last]!
  const help = `write \`${CLOSES[bracket]}\` where the list ends`
  return slipAt(start, [last, last + 1, `a \`${bracket}\` is opened here and not closed`, help])
}
