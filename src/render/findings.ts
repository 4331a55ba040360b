import { inGround, inLedgerUnits } from '../facts/ledger-units.ts'
import type { Finding, Level } from '../ledger/read/finding.ts'
import { inUnitsOf } from '../records/quantity.ts'
import type { Paint } from './colours.ts'
import { daysInWords } from './days-in-words.ts'
import { safe, safeLine } from './safe.ts'
import type { Style } from './style.ts'
import { wrap } from './text.ts'

/** Each finding with its line, a marker under the offending text, what is wrong and what to do. */
export function renderFindings(
  findings: readonly Finding[],
  lineOf: (finding: Finding) => string | null,
  style: Style,
): string {
  return findings.map((finding) => renderFinding(finding, lineOf(finding), style)).join('\n')
}

function renderFinding(finding: Finding, line: string | null, style: Style): string {
  const { paint } = style
  const place = `${safeLine(finding.file)}:${finding.line}:${finding.column}`
  const fits = place.length + finding.level.length + finding.name.length + 4 <= style.columns
  const head = `${wrap(place, style.columns)}${fits ? '' : '\n'}  ${levelPaint(paint, finding.level)(finding.level)}  ${paint.strong(finding.name)}`
  const year = /\b\d{4}\b/.exec(finding.file)?.[0] ?? 'any'
  const body = [daysInWords(finding.message, year), inUnitsOf(finding.help, style.units)]
    .map((part) =>
      wrap(
        inLedgerUnits(inGround(safe(part), style.units), style.units, aboutOf(finding)),
        style.columns,
        '      ',
      ),
    )
    .join('\n')
  const shown = line === null ? '' : `${excerpt(finding, line, style)}\n`
  return `${head}\n${shown}${body}\n`
}

/** Only findings about sprays and labels contain doses. */
const aboutOf = ({ file }: Finding) => (/(^|\/)(sprays|products)[/.]/.test(file) ? 'spray' : 'any')

function levelPaint(paint: Paint, level: Level): (text: string) => string {
  return level === 'error' ? paint.bad : level === 'warning' ? paint.doubtful : paint.faint
}

/** The line as typed, cut to the screen around the marker. */
function excerpt(finding: Finding, line: string, { columns, paint }: Style): string {
  const number = String(finding.line).padStart(5)
  const room = columns - 9
  const characters = [...safeLine(line)]
  const shift = safeLine([...line].slice(0, finding.column - 1).join('')).length
  const from = shift + Math.min(finding.length, 20) > room ? Math.max(0, shift - Math.floor(room / 3)) : 0
  const visible = characters.slice(from, from + room).join('')
  const marker = `${' '.repeat(shift - from)}${'^'.repeat(Math.max(1, Math.min(finding.length, room - (shift - from))))}`
  return `${paint.faint(`${number} |`)} ${visible}\n${paint.faint('      |')} ${paint.bad(marker)}`
}
