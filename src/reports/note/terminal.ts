import type { FindAdvice } from '../../facts/danger/advice.ts'
import { inLedgerUnits } from '../../facts/ledger-units.ts'
import { listed, upperFirst } from '../../facts/sentences.ts'
import { clearedText } from '../../facts/spraying/clearance.ts'
import { overLabelSentence } from '../../facts/spraying/over-label.ts'
import { inBrackets, untilText } from '../../facts/spraying/re-entry.ts'
import { spokenDate, spokenTime } from '../../records/spoken-date.ts'
import { renderEntry, renderYamlLine } from '../../render/entry.ts'
import { renderFindings } from '../../render/findings.ts'
import { safe } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { counted, renderCautions, sentences, wrap, wrapCommand } from '../../render/text.ts'
import type { Follows } from './follows.ts'
import type { NotedRecords } from './record-report.ts'
import type { Noted } from './report.ts'

/** The entry as its file will be or is, the findings that it causes, what follows, and the caution. */
export function renderNote(noted: Noted, style: Style): string {
  const { file, text, written, follows, finds, open, beside } = noted.report.data
  const errors = noted.all.filter((finding) => finding.level === 'error').length
  const findings = renderOwnFindings(noted, style)
  const sum = errors > 0 ? `${counted(errors, 'error')} would be added.\n` : ''
  const parts = sentences(
    renderEntry({ said: written ? 'Written' : 'Not written yet', file, text }, style.columns),
    findings + (findings && sum && '\n') + sum,
    finds && renderFinds(finds, style),
    [open, beside].flatMap((said) =>
      said ? `${wrap(inLedgerUnits(`${upperFirst(said)}.`, style.units), style.columns)}\n` : [],
    ),
    follows && `${wrap(renderFollows(follows), style.columns)}\n`,
  )
  return parts.join('\n') + renderCautions(noted.report.cautions, style.columns)
}

/** What was changed in a file: the lines that go, the lines that come, the findings and what follows. */
export function renderAmend(
  noted: Noted,
  { before, kept, style }: { before: string; kept: string | null; style: Style },
): string {
  const { file, text, follows } = noted.report.data
  const { paint, columns } = style
  const { gone, come } = changedLines(before, text)
  const body = [
    ...gone.map((line) => paint.bad(renderYamlLine(line, '  - ', columns))),
    ...come.map((line) => paint.good(renderYamlLine(line, '  + ', columns))),
  ]
  const head = wrap(`${kept === null ? 'Not changed yet' : 'Changed'}: ${safe(file)}`, columns)
  const parts = sentences(
    `${head}\n\n${body.join('')}`,
    renderOwnFindings(noted, style),
    follows && `${wrap(renderFollows(follows), columns)}\n`,
    kept !== null &&
      `${wrap(`The old version is kept in ${safe(kept)}. Run \`rowbook note --undo\` to restore it.`, columns)}\n`,
  )
  return parts.join('\n') + renderCautions(noted.report.cautions, columns)
}

/** The findings with their lines of the file, which may not be written yet. */
function renderOwnFindings({ report: { data }, all }: Noted, style: Style): string {
  const lines = data.text.split('\n')
  return renderFindings(
    all,
    ({ file, line }) => (file === data.file ? (lines[line - 1] ?? null) : null),
    style,
  )
}

/** The lines that go and those that come. */
function changedLines(before: string, after: string): { gone: string[]; come: string[] } {
  const [old, made] = [before.split(/\r?\n/), after.split(/\r?\n/)]
  let first = 0
  while (first < old.length && old[first] === made[first]) first++
  let last = 0
  const most = Math.min(old.length, made.length) - first
  while (last < most && old.at(-1 - last) === made.at(-1 - last)) last++
  const [gone, come] = [old.slice(first, old.length - last), made.slice(first, made.length - last)]
  return {
    gone: gone.filter((line) => !come.includes(line)),
    come: come.filter((line) => !gone.includes(line)),
  }
}

/** What finds ask for, and the command for it; that of a whole block is told apart from that of its rows. */
function renderFinds({ said, next, also, spray }: FindAdvice, { columns }: Style): string {
  const whole = spray && !spray.rows ? ['No rows are noted for it, so this is for the whole block:'] : []
  const todo = [next, ...also].map((one) => `${wrapCommand(safe(one), columns)}\n`).join('')
  return `${wrap(safe(upperFirst([...said, ...whole].join(' '))), columns)}\n${todo}`
}

/** When people may enter, and when picking and the next spray are allowed. */
function renderFollows({ reEntry, pick, next, timed, missing, overLabel, cleared }: Follows): string {
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
export function renderRecords({ records, all, report }: NotedRecords, style: Style): string {
  const said = report.data.written ? 'Written' : 'Not written yet'
  const lineOf = (finding: { file: string; line: number }) =>
    records.find(({ file }) => file === finding.file)?.text.split('\n')[finding.line - 1] ?? null
  const parts = sentences(
    records.map(({ file, text }) => renderEntry({ said, file, text }, style.columns)),
    renderFindings(all, lineOf, style),
  )
  return parts.join('\n') + renderCautions(report.cautions, style.columns)
}
