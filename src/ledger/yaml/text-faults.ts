import type { Finding } from '../read/finding.ts'
import { type FileText, placeAt } from '../read/source.ts'

type Find = (start: number, end: number, name: string, message: string, help: string) => void

/** Faults of the text that a parser would misread or drown in. */
export function textFaults(at: FileText, deepest: number): Finding[] {
  const findings: Finding[] = []
  const find: Find = (start, end, name, message, help) =>
    findings.push({ ...placeAt(at, start, end), name, level: 'error', message, help })
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
  if (directive && !/^(?!%)\s*[^#\s]/m.test(text.slice(0, directive.index))) {
    find(
      directive.index,
      directive.index + directive[0].length,
      'directive',
      'YAML directives are not used here',
      'delete the line',
    )
  }
  tooDeep(text, deepest, find)
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

/** Brackets or indentation so deep that parsing them would take long; strings and comments count too, harmlessly. */
function tooDeep(text: string, deepest: number, find: Find): void {
  let depth = 0
  for (let index = 0; index < text.length; index += 1) {
    const character = text[index]
    if (character === '[' || character === '{') depth += 1
    else if (character === ']' || character === '}') depth = Math.max(0, depth - 1)
    else if (
      character === '\n' &&
      depth > 0 &&
      depth < deepest &&
      /^[^\s,\]}]/.test(text.slice(index + 1, index + 2))
    )
      depth = 0
    if (depth <= deepest) continue
    find(
      index,
      index + 1,
      'too-deep',
      `more than ${deepest} brackets stand one in another`,
      'close the brackets',
    )
    return
  }
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
