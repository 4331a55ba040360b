import type { Document, YAMLError } from 'yaml'
import { isScalar, visit } from 'yaml'
import { indentSlip } from './indent-slip.ts'
import { lineAt, lineSlip, openBracket, type Slip } from './line-slip.ts'

/** A fault as its finding reports it, at the place to fix it. */
type Explained = Slip & { name: string }

/** Most faults reported for one file; after the first, most follow from it. */
const MOST_TOLD = 5
/** Most faults examined in one file, since a file can consist of nothing else. */
const MOST_LOOKED_AT = 50

/**
 * Explains parser faults by the typing mistake behind them: a colon inside a note, an open quote at its opening.
 * One mistake causes several parser faults, so further ones are reported only if the rest is still readable.
 */
export function explainFaults(text: string, document: Document): Explained[] {
  const explained: Explained[] = []
  const quotes = quotesOf(text, document)
  for (const fault of [...document.errors, ...document.warnings].slice(0, MOST_LOOKED_AT)) {
    const slip = slipOf(text, quotes, fault)
    const isFirst = explained.length === 0
    if (!isFirst && (slip === null || explained.some(({ start }) => start >= slip.start))) continue
    explained.push(slip ?? unreadable(text, fault))
    if (!slip?.goesOn || explained.length >= MOST_TOLD) break
  }
  return explained
}

function slipOf(text: string, quotes: readonly Quote[], fault: YAMLError): Explained | null {
  if (fault.code === 'MULTIPLE_DOCS') return severalDocuments(fault.pos)
  const tab = tabSlip(text, fault.pos[0])
  if (tab) return { name: 'tab-indent', ...tab }
  const slip = openQuote(text, quotes, fault) ?? lineSlips(text, fault) ?? indentSlip(text, fault.pos[0])
  return slip && { name: 'syntax', ...slip }
}

const severalDocuments = ([start, end]: [number, number]): Explained => ({
  start,
  end,
  name: 'several-documents',
  message: 'the file holds more than one document',
  help: 'delete the line with `---`, or make two files',
})

/** A tab in the indentation of the faulty line. */
function tabSlip(text: string, offset: number): Slip | null {
  const { start, line } = lineAt(text, offset)
  const tab = /^ *\t/.exec(line)
  if (!tab) return null
  const at = start + tab[0].length - 1
  return {
    start: at,
    end: at + 1,
    message: 'a tab is used to indent',
    help: 'use spaces in place of the tab',
  }
}

/** A quoted text: where it opens, and whether it spans lines. */
interface Quote {
  start: number
  isLong: boolean
}

function quotesOf(text: string, document: Document): Quote[] {
  const quotes: Quote[] = []
  visit(document, {
    Scalar: (_, node) => {
      if (!isScalar(node) || !node.range || !/^QUOTE/.test(node.type ?? '')) return
      const [start, end] = node.range
      quotes.push({ start, isLong: text.slice(start, end).includes('\n') })
    },
  })
  return quotes
}

/** The last quote opened before a fault, if its text spans lines: it was left open. */
function openQuote(text: string, quotes: readonly Quote[], fault: YAMLError): Slip | null {
  const isOpen = fault.code === 'MISSING_CHAR' && fault.message.includes('quote')
  const last = quotes.findLast(({ start, isLong }) => start < fault.pos[0] && (isOpen || isLong))
  const opening = last?.start ?? null
  if (opening === null) return null
  const quote = text[opening]!
  return {
    start: opening,
    end: opening + 1,
    message: 'a quote is opened here and not closed',
    help: `write a second \`${quote}\` at the end of the text`,
  }
}

function lineSlips(text: string, { code, message, pos: [from, to] }: YAMLError): Slip | null {
  let offset = from
  for (let step = 0; step < 3 && offset <= to; step += 1) {
    const at = lineAt(text, offset)
    const slip = lineSlip(at)
    if (slip) return slip
    offset = at.start + at.line.length + 1
  }
  return code === 'MISSING_CHAR' || message.includes('end with a') ? bracketBefore(text, from) : null
}

/** An open bracket or brace on an earlier line, since it may only cause a fault some lines later. */
function bracketBefore(text: string, offset: number): Slip | null {
  let at = lineAt(text, offset)
  for (let step = 0; step < 10; step += 1) {
    const slip = openBracket(at)
    if (slip || at.start === 0) return slip
    at = lineAt(text, at.start - 1)
  }
  return null
}

function unreadable(text: string, { pos }: YAMLError): Explained {
  const start = Math.min(pos[0], Math.max(0, text.length - 1))
  return {
    start,
    end: Math.max(start + 1, pos[1]),
    name: 'syntax',
    message: "this can't be read",
    help: 'check colons, quotes, brackets and indentation, on this line and the one above',
  }
}
