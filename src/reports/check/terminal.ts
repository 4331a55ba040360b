import type { Report } from '../../facts/report.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import { renderFindings } from '../../render/findings.ts'
import type { Style } from '../../render/style.ts'
import { counted, wrap } from '../../render/text.ts'
import type { CheckData } from './report.ts'

/** The findings one by one, then how many there are. */
export function renderCheck(
  report: Report<CheckData> & { all: Finding[] },
  lineOf: (finding: Finding) => string | null,
  style: Style,
): string {
  const { errors, warnings, hints, files } = report.data
  const shown = renderFindings(report.all, lineOf, style)
  const counts = [counted(errors, 'error'), counted(warnings, 'warning')]
  if (hints > 0) counts.push(counted(hints, 'hint'))
  const sum = `${counts.join(', ')} in ${counted(files, 'file')}.`
  const first = report.all[0]
  const next = first ? ` Run \`rowbook explain ${first.name}\` for the rule.` : ''
  return `${shown}${shown ? '\n' : ''}${wrap(`${sum}${next}`, style.columns)}\n`
}
