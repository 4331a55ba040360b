import type { Report } from '../../facts/report.ts'
import { asSentences } from '../../facts/sentences.ts'
import { safe, safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { counted, sentences, wrap } from '../../render/text.ts'
import type { ImportData } from './report.ts'

/** Most entries that are shown whole, and most findings told before only their number is. */
const MOST_SHOWN = 3
const MOST_TOLD = 20

/** What rows of a spreadsheet come to: how many entries, the first of them as their files will be, and what is wrong. */
export function renderImport(report: Report<ImportData>, style: Style): string {
  const { entries, from, unused, written, kind } = report.data
  const errors = report.findings.filter(({ level }) => level === 'error').length
  const file = safeLine(from)
  const number = counted(entries.length, kind.slice(0, -1))
  const first = written
    ? `${number} written from ${file}.`
    : errors > 0
      ? `Nothing written: ${counted(errors, 'error')} in ${file}.`
      : `${number} in ${file}, nothing written yet.`
  const parts = sentences(
    wrap(first, style.columns),
    report.findings.length > 0 && findings(report, style),
    written
      ? entries.map((entry) => safeLine(entry.file)).join('\n')
      : errors === 0 && preview(report.data, style),
    unused.length > 0 && wrap(`Columns not read: ${unused.map(safeLine).join(', ')}.`, style.columns),
    !written &&
      report.findings.length === 0 &&
      entries.length > 0 &&
      'Run it again with --yes to write all of them.',
  )
  return `${parts.join('\n\n')}\n`
}

function preview({ entries }: ImportData, { paint }: Style): string {
  const shown = entries.slice(0, MOST_SHOWN).map((entry) => {
    const lines =
      entry.lines.length === 1 ? `line ${entry.lines[0]}` : `lines ${entry.lines[0]} to ${entry.lines.at(-1)}`
    return `${paint.strong(safeLine(entry.file))}  (${lines})\n${safe(entry.text.replace(/^#.*\n/, ''))
      .replace(/^/gm, '  ')
      .trimEnd()}`
  })
  const rest = entries.length - shown.length
  return [...shown, ...(rest > 0 ? [`and ${counted(rest, 'more', 'more')}`] : [])].join('\n\n')
}

function findings({ findings }: Report<ImportData>, { columns, paint }: Style): string {
  const told = findings.slice(0, MOST_TOLD).map(({ file, line, column, level, name, message, help }) => {
    const head = `${safeLine(file)}:${line}:${column}  ${level === 'error' ? paint.bad(level) : level}  ${name}`
    return `${head}\n${wrap(safe(asSentences([message, help])), columns, '      ')}`
  })
  const rest = findings.length - told.length
  return [...told, ...(rest > 0 ? [`and ${counted(rest, 'more finding')}; --json lists them`] : [])].join(
    '\n',
  )
}
