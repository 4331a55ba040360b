import { renderYamlLine } from '../../render/entry.ts'
import { renderFindings } from '../../render/findings.ts'
import { safe } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { renderCautions, wrap } from '../../render/text.ts'
import type { Noted } from './report.ts'
import { renderFollows } from './terminal.ts'

/** What was changed in a file: the lines that go, the lines that come, the findings and what follows. */
export function renderAmend(
  { report, all }: Noted,
  { before, kept, style }: { before: string; kept: string | null; style: Style },
): string {
  const { file, text, follows } = report.data
  const { gone, come } = changedLines(before, text)
  const body = [
    ...gone.map((line) => style.paint.bad(renderYamlLine(line, '  - ', style.columns))),
    ...come.map((line) => style.paint.good(renderYamlLine(line, '  + ', style.columns))),
  ]
  const head = wrap(`${kept === null ? 'Not changed yet' : 'Changed'}: ${safe(file)}`, style.columns)
  const lines = text.split('\n')
  const findings = renderFindings(
    all,
    (finding) => (finding.file === file ? (lines[finding.line - 1] ?? null) : null),
    style,
  )
  const parts = [`${head}\n\n${body.join('')}`, findings]
  if (follows) parts.push(`${wrap(renderFollows(follows), style.columns)}\n`)
  if (kept !== null)
    parts.push(
      `${wrap(`The old version is kept in ${safe(kept)}. Run \`rowbook note --undo\` to restore it.`, style.columns)}\n`,
    )
  return `${parts.filter((part) => part !== '').join('\n')}${renderCautions(report.cautions, style.columns)}`
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
