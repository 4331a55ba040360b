import { yaml } from './library.ts'

/** A fault of a text, at the place to fix it. */
export interface TextFault {
  start: number
  end: number
  name: string
  message: string
  help: string
}

type Told = Omit<TextFault, 'start' | 'end'>

/** What no record holds, and a parser would misread or take long or too much memory over. */
const REFUSED: readonly (Told & { like: RegExp })[] = [
  {
    like: /\r(?!\n)/,
    name: 'line-ends',
    message: 'a line ends in a lone carriage return',
    help: 'save the file with Unix or Windows line ends',
  },
  {
    like: /[\0-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ufeff]/,
    name: 'control-character',
    message: 'an invisible control character, {}, stands here',
    help: 'delete it, or type the line again',
  },
  {
    // Only blank lines, comments and other directives stand above it.
    like: /^(?:[^\S\n]*(?:#[^\n]*)?\n|%[^\n]*\n)*%[A-Z].*/,
    name: 'directive',
    message: 'YAML directives are not used here',
    help: 'delete the line',
  },
  {
    like: /^(?=(?: *(?:- |\? )){20}| {400,}\S)./m,
    name: 'too-deep',
    message: 'the line is indented far too deep',
    help: 'an entry needs three or four levels at most',
  },
]

/** Faults that keep a text from the parser. */
export function textFaults(text: string, deepest: number): TextFault[] {
  const conflict = /^(?:<{7}|>{7}|\|{7})(?= |$)/m.exec(text)
  if (conflict)
    return [
      {
        start: conflict.index,
        end: conflict.index + 7,
        name: 'merge-conflict',
        message: 'git left a merge conflict here',
        help: 'keep the right lines, delete the marks, and commit',
      },
    ]
  const faults = REFUSED.flatMap(({ like, message, ...told }) => {
    const found = like.exec(text)
    if (!found) return []
    const start = found.index + found[0].lastIndexOf('\n') + 1
    const code = `\\u${text.charCodeAt(start).toString(16).padStart(4, '0')}`
    return [{ start, end: found.index + found[0].length, message: message.replace('{}', code), ...told }]
  })
  return faults.length > 0 ? faults : pieceFaults(text, deepest)
}

const QUOTES = 'put the text in quotes'
const UNUSED: Readonly<Record<string, Told>> = {
  alias: {
    name: 'alias',
    message: 'a line or value can not begin with `*`',
    help: `${QUOTES}; begin an entry of a list with a dash and a space`,
  },
  anchor: { name: 'alias', message: 'a value can not begin with `&`', help: QUOTES },
  tag: { name: 'tag', message: 'a value can not begin with `!`', help: QUOTES },
}
/** Most faults of one kind reported; a file can have hundreds of thousands. */
const MOST_TOLD = 5
/** Most tokens in a file: far more than a season needs, and few enough to parse within seconds. */
const MOST_PIECES = 400_000
const STEP: Readonly<Record<string, number>> = {
  'flow-seq-start': 1,
  'flow-map-start': 1,
  'flow-seq-end': -1,
  'flow-map-end': -1,
}

/**
 * Checks the tokens before parsing: brackets nested too deeply would overflow the
 * parser, and it would resolve all anchors, aliases and tags.
 */
function pieceFaults(text: string, deepest: number): TextFault[] {
  const faults: TextFault[] = []
  let [offset, depth, count, isScalar] = [0, 0, 0, false]
  const tooMuch = (name: string, message: string, help: string) => [
    ...faults,
    { start: offset, end: offset + 1, name, message, help },
  ]
  const { CST, Lexer } = yaml()
  for (const piece of new Lexer().lex(text)) {
    const type = isScalar ? '' : (CST.tokenType(piece) ?? '')
    isScalar = type === 'scalar'
    if (type === 'flow-error-end') depth = 0
    // These tokens have no text of their own.
    if (isScalar || type === 'flow-error-end' || type === 'doc-mode') continue
    count += 1
    depth += STEP[type] ?? 0
    if (count > MOST_PIECES)
      return tooMuch('file-too-large', `the file holds more than ${MOST_PIECES} words and marks`, 'split it')
    if (depth > deepest)
      return tooMuch('too-deep', `more than ${deepest} brackets stand one in another`, 'close the brackets')
    const unused = UNUSED[type]
    if (unused) faults.push({ start: offset, end: offset + piece.length, ...unused })
    if (faults.length >= MOST_TOLD) break
    offset += piece.length
  }
  return faults
}
