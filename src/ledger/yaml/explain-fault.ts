import type { Document, YAMLError } from 'yaml'
import { indentSlip } from './indent-slip.ts'
import { yaml } from './library.ts'
import { lineAt, lineSlip, openBracket, type Slip } from './line-slip.ts'
import type { TextFault } from './text-faults.ts'

/** Most faults reported for one file; after the first, most follow from it. */
const MOST_TOLD = 5
/** Most faults examined in one file, since a file can consist of nothing else. */
const MOST_LOOKED_AT = 50

/**
 * Explains parser faults by the typing mistake behind them: a colon inside a note, an open quote at its opening.
 * One mistake causes several parser faults, so further ones are reported only if the rest is still readable.
 */
export function explainFaults(text: string, document: Document): TextFault[] {
  const explained: TextFault[] = []
  const quotes = quotesOf(document)
  for (const fault of [...document.errors, ...document.warnings].slice(0, MOST_LOOKED_AT)) {
    const slip = slipOf(text, quotes, fault)
    const isFirst = explained.length === 0
    if (!isFirst && (slip === null || explained.some(({ start }) => start >= slip.start))) continue
    const { goesOn, ...told } = slip ?? unreadable(text, fault)
    explained.push(told)
    if (!goesOn || explained.length >= MOST_TOLD) break
  }
  return explained
}

function slipOf(text: string, quotes: readonly Span[], fault: YAMLError): Slip | null {
  const [start, end] = fault.pos
  if (fault.code === 'MULTIPLE_DOCS')
    return {
      start,
      end,
      name: 'several-documents',
      message: 'the file holds more than one document',
      help: 'delete the line with `---`, or make two files',
    }
  return (
    tabSlip(text, start) ??
    openQuote(text, quotes, fault) ??
    lineSlips(text, fault) ??
    indentSlip(text, start)
  )
}

/** A tab in the indentation of the faulty line. */
function tabSlip(text: string, offset: number): Slip | null {
  const { start, line } = lineAt(text, offset)
  const tab = /^ *\t/.exec(line)
  if (!tab) return null
  const end = start + tab[0].length
  const message = 'a tab is used to indent'
  return { start: end - 1, end, name: 'tab-indent', message, help: 'use spaces in place of the tab' }
}

type Span = readonly [start: number, end: number]

/** The quoted texts. */
function quotesOf(document: Document): Span[] {
  const quotes: Span[] = []
  yaml().visit(document, {
    Scalar: (_, { range, type }) => {
      if (range && type?.startsWith('QUOTE')) quotes.push([range[0], range[1]])
    },
  })
  return quotes
}

/** The last quote opened before a fault, if its text spans lines: it was left open. */
function openQuote(text: string, quotes: readonly Span[], { code, message, pos }: YAMLError): Slip | null {
  const isOpen = code === 'MISSING_CHAR' && message.includes('quote')
  const last = quotes.findLast(
    ([start, end]) => start < pos[0] && (isOpen || text.slice(start, end).includes('\n')),
  )
  if (!last) return null
  const [start] = last
  return {
    start,
    end: start + 1,
    name: 'syntax',
    message: 'a quote is opened here and not closed',
    help: `write a second \`${text[start]}\` at the end of the text`,
  }
}

/** The mistake in the lines of a fault; where something is open there, the bracket that opens it further up. */
function lineSlips(text: string, { code, message, pos: [from, to] }: YAMLError): Slip | null {
  let offset = from
  for (let step = 0; step < 3 && offset <= to; step += 1) {
    const at = lineAt(text, offset)
    const slip = lineSlip(at)
    if (slip) return slip
    offset = at.start + at.line.length + 1
  }
  if (code !== 'MISSING_CHAR' && !message.includes('end with a')) return null
  let at = lineAt(text, from)
  for (let step = 0; step < 10; step += 1) {
    const slip = openBracket(at)
    if (slip || at.start === 0) return slip
    at = lineAt(text, at.start - 1)
  }
  return null
}

function unreadable(text: string, { pos }: YAMLError): Slip {
  const start = Math.min(pos[0], Math.max(0, text.length - 1))
  return {
    start,
    end: Math.max(start + 1, pos[1]),
    name: 'syntax',
    message: "this can't be read",
    help: 'check colons, quotes, brackets and indentation, on this line and the one above',
  }
}
