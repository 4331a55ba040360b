import type { FindAdvice } from '../../facts/danger/advice.ts'
import { inLedgerUnits } from '../../facts/ledger-units.ts'
import { listed, upperFirst } from '../../facts/sentences.ts'
import { clearedText } from '../../facts/spraying/clearance.ts'
import { overLabelSentence } from '../../facts/spraying/over-label.ts'
import { inBrackets, untilText } from '../../facts/spraying/re-entry.ts'
import { spokenDate, spokenTime } from '../../records/spoken-date.ts'
import { renderEntry } from '../../render/entry.ts'
import { renderFindings } from '../../render/findings.ts'
import { safe } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { counted, renderCautions, wrap, wrapCommand } from '../../render/text.ts'
import type { Follows } from './follows.ts'
import type { NotedRecords } from './record-report.ts'
import type { Noted } from './report.ts'

/** The entry as its file will be or is, the findings that it causes, what follows, and the caution. */
export function renderNote({ report, all }: Noted, style: Style): string {
  const { file, text, written, follows, finds, open, beside } = report.data
  const errors = all.filter((finding) => finding.level === 'error').length
  const entry = renderEntry({ said: written ? 'Written' : 'Not written yet', file, text }, style.columns)
  const lines = text.split('\n')
  const findings = renderFindings(
    all,
    (finding) => (finding.file === file ? (lines[finding.line - 1] ?? null) : null),
    style,
  )
  const sum = errors > 0 ? `${counted(errors, 'error')} would be added.\n` : ''
  const parts = [entry, findings + (findings && sum ? `\n${sum}` : sum)]
  if (finds) parts.push(renderFinds(finds, style))
  for (const said of [open, beside])
    if (said) parts.push(`${wrap(inLedgerUnits(`${upperFirst(said)}.`, style.units), style.columns)}\n`)
  if (follows) parts.push(`${wrap(renderFollows(follows), style.columns)}\n`)
  return `${parts.filter((part) => part !== '').join('\n')}${renderCautions(report.cautions, style.columns)}`
}

/** What finds ask for, and the command for it; that of a whole block is told apart from that of its rows. */
function renderFinds({ said, next, also, spray }: FindAdvice, { columns }: Style): string {
  const whole = spray && !spray.rows ? ['No rows are noted for it, so this is for the whole block:'] : []
  const todo = [next, ...also].map((one) => `${wrapCommand(safe(one), columns)}\n`).join('')
  return `${wrap(safe(upperFirst([...said, ...whole].join(' '))), columns)}\n${todo}`
}

/** When people may enter, and when picking and the next spray are allowed. */
export function renderFollows({ reEntry, pick, next, timed, missing, overLabel, cleared }: Follows): string {
  const said: string[] = []
  if (overLabel.length > 0) said.push(overLabelSentence(overLabel))
  if (cleared) said.push(`Over the label, ${clearedText(cleared)}.`)
  if (reEntry)
    said.push(
      cleared
        ? `Keep out until ${spokenTime(reEntry.date, reEntry.minutes)}.`
        : `Keep out until ${untilText(reEntry)} ${inBrackets(reEntry)}.`,
    )
  if (pick) {
    const other =
      pick.calendar === pick.cautious
        ? ''
        : `, or ${spokenDate(pick.calendar)} if the day of spraying counts as day 0`
    said.push(
      `Pick from ${spokenDate(pick.cautious)}${other}${cleared ? '.' : ` (pre-harvest interval, PHI: ${pick.days} d).`}`,
    )
  }
  for (const { name, date } of overLabel.length > 0 ? [] : next)
    if (date) said.push(`${next.length > 1 ? `${name} again` : 'Again'} from ${spokenDate(date)}.`)
  if (!timed) said.push('Counted from the end of the day: no end time is recorded.')
  if (missing.length > 0) said.push(`Not known: ${listed([...new Set(missing)])}. See the label.`)
  return safe(said.join(' '))
}

/** New records as their files will be or are, what is wrong with them, and the caution. */
export function renderRecords(noted: NotedRecords, style: Style): string {
  const { records, all, written } = noted
  const said = written ? 'Written' : 'Not written yet'
  const parts = records.map(({ file, text }) => renderEntry({ said, file, text }, style.columns))
  const lineOf = (finding: { file: string; line: number }) =>
    records.find(({ file }) => file === finding.file)?.text.split('\n')[finding.line - 1] ?? null
  parts.push(renderFindings(all, lineOf, style))
  const shown = parts.filter((part) => part !== '').join('\n')
  return shown + renderCautions(noted.report(written).cautions, style.columns)
}
