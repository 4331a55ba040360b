import { renderEntry } from '../../render/entry.ts'
import { renderFindings } from '../../render/findings.ts'
import type { Style } from '../../render/style.ts'
import { renderCautions } from '../../render/text.ts'
import type { NotedRecords } from './record-report.ts'

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
