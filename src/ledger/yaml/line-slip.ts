/** A typing mistake, and where to fix it. */
export interface Slip {
  start: number
  end: number
  message: string
  help: string
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

/** The mistake that an unreadable line shows by itself, or null. */
export function lineSlip(at: Line): Slip | null {
  for (const look of [
    curlyQuote,
    equalsSign,
    noSpace,
    noSpaceBehindDash,
    colonInside,
    colonInBraces,
    reserved,
    behindQuote,
  ]) {
    const slip = look(at)
    if (slip) return slip
  }
  return noColon(at)
}

function curlyQuote({ start, line }: Line): Slip | null {
  const index = line.search(/[\u2018-\u201f]/)
  if (index < 0) return null
  return {
    start: start + index,
    end: start + index + 1,
    message: 'these are curly quotes, from a word processor',
    help: 'type straight quotes: "text"',
    goesOn: true,
  }
}

function equalsSign({ start, line }: Line): Slip | null {
  const found = /^( *(?:- )?)([a-z_]+) ?= ?(?=\S)/.exec(line)
  if (!found || line.includes(': ')) return null
  return {
    start: start + found[1]!.length,
    end: start + found[0].trimEnd().length,
    message: `a colon is missing after \`${found[2]}\``,
    help: `write \`${found[2]}: ${line.slice(found[0].length).trimEnd()}\``,
  }
}

function noSpace({ start, line }: Line): Slip | null {
  const found = /^( *(?:- )?)([a-z_]+):(?=[^\s:])/.exec(line)
  if (!found) return null
  const behind = found[0].length
  return {
    start: start + found[1]!.length,
    end: start + behind + 1,
    message: `a space is missing after \`${found[2]}:\``,
    help: `write \`${found[2]}: ${line.slice(behind).trimEnd()}\``,
  }
}

function noSpaceBehindDash({ start, line }: Line): Slip | null {
  const found = /^( *)-(?=[^\s-])/.exec(line)
  if (!found) return null
  const dash = start + found[1]!.length
  return {
    start: dash,
    end: dash + 2,
    message: 'a space is missing after the dash',
    help: `write \`- ${line.slice(found[0].length).trimEnd()}\``,
  }
}

const quoted = (text: string): string =>
  text.includes('"') ? `'${text.replaceAll("'", "''")}'` : `"${text}"`

function colonSlip(at: number, key: string, value: string): Slip {
  const said = value.trimEnd()
  return {
    start: at,
    end: at + said.length,
    message: `a colon inside ${key === 'note' ? 'a note' : `\`${key}\``}: put the ${key === 'note' ? 'note' : 'text'} in quotes`,
    help: `write \`${key}: ${quoted(said)}\``,
    goesOn: true,
  }
}

function colonInside({ start, line }: Line): Slip | null {
  const found = /^ *(?:- )?([a-z_]+): (?=[^\s"'[{|>#])/.exec(line)
  if (!found) return null
  const value = line.slice(found[0].length).split(' #')[0]!
  return /:(?:\s|$)/.test(value) ? colonSlip(start + found[0].length, found[1]!, value) : null
}

function colonInBraces({ start, line }: Line): Slip | null {
  for (const found of line.matchAll(/[{,] ?([a-z_]+): (?=[^\s"'[{])/g)) {
    const from = found.index + found[0].length
    const value = line.slice(from).split(/[,{}[\]]/)[0]!
    const next = /(?<= )([a-z_]+): /.exec(value)
    if (next && IN_BRACES.has(next[1]!)) {
      const before = value.slice(0, next.index).trimEnd().replace(/;$/, '').trimEnd()
      const help = `write \`${found[1]}: ${before}, ${next[1]}: ...\``
      const place = { start: start + from + before.length, end: start + from + next.index + next[1]!.length }
      return { ...place, message: `a comma is missing before \`${next[1]}\``, help }
    }
    if (/: /.test(value)) return colonSlip(start + from, found[1]!, value)
  }
  return null
}

/** Keys that records write in braces, where a comma may have been forgotten. */
const IN_BRACES = new Set(
  'blocks product rate amount concentration for name content group against interval stages until bunches leaves shoots severity rows date block stage share brix ph ta low high rain from temperature humidity picking crate bucket juice height width on by pick_from enter_from'.split(
    ' ',
  ),
)

function reserved({ start, line }: Line): Slip | null {
  const found = /(^ *(?:- )?|[{,] ?)([a-z_]+): (?=[@`%]|- )/.exec(line)
  if (!found) return null
  const [whole, before, key] = found
  const from = found.index + whole.length
  const value = /[{,]/.test(before!) ? line.slice(from).split(/[,}]/)[0]! : line.slice(from)
  const share = /^% ?(\d+(?:\.\d+)?)\s*$/.exec(value)
  const isList = key === 'blocks' || key === 'products'
  return {
    start: start + from,
    end: start + from + 1,
    message: share
      ? 'the percent sign goes behind its number'
      : `a text can not begin with \`${line[from]}\``,
    help: isList
      ? 'begin the list on the next line, each with a dash and a space'
      : `write \`${key}: ${share ? `${share[1]} %` : quoted(value.trimEnd())}\``,
    goesOn: true,
  }
}

function behindQuote({ start, line }: Line): Slip | null {
  const found = /^ *(?:- )?([a-z_]+): (["'])/.exec(line)
  if (!found) return null
  const from = found[0].length
  const close = line.indexOf(found[2]!, from)
  const rest =
    close < 0
      ? ''
      : line
          .slice(close + 1)
          .split(' #')[0]!
          .trimEnd()
  if (rest.trim() === '') return null
  // A quote between two letters is an apostrophe.
  const isApostrophe = found[2] === "'" && /\w'\w/.test(line.slice(close - 1, close + 2))
  const whole = `${line.slice(from, close)}${isApostrophe ? "'" : ''}${rest.replaceAll(found[2]!, '')}`
  return {
    start: start + close + 1,
    end: start + close + 1 + rest.length,
    message: 'a text goes on after its closing quote',
    help: `put the whole text in one pair of quotes: \`${found[1]}: ${quoted(whole)}\``,
  }
}

const CLOSES: Readonly<Record<string, string>> = { '[': ']', '{': '}' }

/** The bracket that a line opens and doesn't close, ignoring quoted text. */
export function openBracket({ start, line }: Line): Slip | null {
  const open: number[] = []
  let quote = ''
  for (let index = 0; index < line.length; index += 1) {
    const letter = line[index]!
    if (quote !== '') quote = letter === quote ? '' : quote
    else if ((letter === '"' || letter === "'") && /[\s[{,]/.test(line[index - 1] ?? ' ')) quote = letter
    else if (letter in CLOSES) open.push(index)
    else if (letter === ']' || letter === '}') open.pop()
  }
  const last = open.at(-1)
  if (last === undefined) return null
  const bracket = line[last]!
  return {
    start: start + last,
    end: start + last + 1,
    message: `a \`${bracket}\` is opened here and not closed`,
    help: `write \`${CLOSES[bracket]}\` where the list ends`,
  }
}

function noColon({ start, line }: Line): Slip | null {
  if (/^[\w.-]+$/.test(line) && !/^-+$/.test(line))
    return {
      start,
      end: start + line.length,
      message: 'this line has no key, like `date:`',
      help: 'put it behind the key above, on the same line',
    }
  const found = /^( *(?:- )?)([a-z_]+) (?=\S)/.exec(line)
  if (!found || line.includes(':')) return null
  return {
    start: start + found[1]!.length,
    end: start + found[1]!.length + found[2]!.length,
    message: `a colon is missing after \`${found[2]}\``,
    help: `write \`${found[2]}: ${line.slice(found[0].length).trimEnd()}\``,
  }
}
