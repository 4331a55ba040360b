import { CST, Lexer } from 'yaml'
import type { Finding } from '../read/finding.ts'
import { type FileText, placeAt } from '../read/source.ts'

type Find = (
  start: number,
  end: number,
  ...fault: readonly [name: string, message: string, help: string]
) => void

/** Faults in the text that a parser would misread or take too long over. */
export function textFaults(at: FileText, deepest: number): Finding[] {
  const findings: Finding[] = []
  const find: Find = (start, end, name, message, help) => {
    findings.push({ ...placeAt(at, start, end), name, level: 'error', message, help })
  }
  const { text } = at
  const conflict = /^(?:<{7}|>{7}|\|{7})(?= |$)/m.exec(text)
  if (conflict) {
    find(
      conflict.index,
      conflict.index + 7,
      'merge-conflict',
      'git left a merge conflict here',
      'keep the right lines, delete the marks, and commit',
    )
    return findings
  }
  const control = /[\0-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ufeff]|\r(?!\n)/.exec(text)
  if (control) controlCharacter(control.index, control[0], find)
  const directive = /^%[A-Z].*$/m.exec(text)
  if (directive && !hasContent(text.slice(0, directive.index))) {
    find(
      directive.index,
      directive.index + directive[0].length,
      'directive',
      'YAML directives are not used here',
      'delete the line',
    )
  }
  tooDeep(text, find)
  if (findings.length === 0) pieces(text, deepest, find)
  return findings
}

function controlCharacter(index: number, character: string, find: Find): void {
  if (character === '\r') {
    find(
      index,
      index + 1,
      'line-ends',
      'a line ends in a lone carriage return',
      'save the file with Unix or Windows line ends',
    )
    return
  }
  const code = character.charCodeAt(0).toString(16).padStart(4, '0')
  find(
    index,
    index + 1,
    'control-character',
    `an invisible control character, \\u${code}, stands here`,
    'delete it, or type the line again',
  )
}

/** Reports indentation so deep, or a line with so many levels, that parsing would take long or overflow. */
function tooDeep(text: string, find: Find): void {
  const steps = /^(?:[ ]*(?:- |\? )){20,}/m.exec(text) ?? /^ {400,}\S/m.exec(text)
  if (steps)
    find(
      steps.index,
      steps.index + 1,
      'too-deep',
      'the line is indented far too deep',
      'an entry needs three or four levels at most',
    )
}

/** Whether a line has content: not blank, not a comment, not a directive. */
const hasContent = (text: string): boolean =>
  text.split('\n').some((line) => {
    const said = line.trimStart()
    return said !== '' && !said.startsWith('#') && !line.startsWith('%')
  })

const QUOTES = 'put the text in quotes'
const UNUSED: Record<'alias' | 'anchor' | 'tag', readonly [string, string, string]> = {
  alias: [
    'alias',
    'a line or value can not begin with `*`',
    `${QUOTES}; begin an entry of a list with a dash and a space`,
  ],
  anchor: ['alias', 'a value can not begin with `&`', QUOTES],
  tag: ['tag', 'a value can not begin with `!`', QUOTES],
}
/** Most faults of one kind reported; a file can have hundreds of thousands. */
const MOST_TOLD = 5
/** Most tokens in a file: far more than a season needs, and few enough to parse within seconds. */
const MOST_PIECES = 400_000
const STEP = { 'flow-seq-start': 1, 'flow-map-start': 1, 'flow-seq-end': -1, 'flow-map-end': -1 } as Record<
  string,
  number
>

/**
 * Checks the tokens before parsing: brackets nested too deeply would overflow the
 * parser, and it would resolve all anchors, aliases and tags.
 */
function pieces(text: string, deepest: number, find: Find): void {
  let [offset, depth, told, count, isScalar] = [0, 0, 0, 0, false]
  for (const piece of new Lexer().lex(text)) {
    const type = isScalar ? null : CST.tokenType(piece)
    isScalar = type === 'scalar'
    if (type === 'flow-error-end') depth = 0
    // These tokens have no text of their own.
    if (isScalar || type === 'flow-error-end' || type === 'doc-mode') continue
    count += 1
    depth += STEP[type ?? ''] ?? 0
    if (count > MOST_PIECES) {
      const message = `the file holds more than ${MOST_PIECES} words and marks`
      find(offset, offset + 1, 'file-too-large', message, 'split it')
      return
    }
    if (depth > deepest) {
      const message = `more than ${deepest} brackets stand one in another`
      find(offset, offset + 1, 'too-deep', message, 'close the brackets')
      return
    }
    if (type === 'alias' || type === 'anchor' || type === 'tag') {
      find(offset, offset + piece.length, ...UNUSED[type])
      told += 1
      if (told >= MOST_TOLD) return
    }
    offset += piece.length
  }
}
