import { inBookUnits, ownQuantity, type Units } from '../../facts/book-units.ts'
import type { Report, ReportFinding } from '../../facts/report.ts'
import { listed } from '../../facts/say.ts'
import { longDate } from '../../records/spoken-date.ts'
import { daysInWords } from '../../render/days-in-words.ts'
import { figure } from '../../render/figure.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { counted, underAnswer, wrap } from '../../render/text.ts'
import type { FigureChange } from './effects.ts'
import type { ChangesData, Correction, EntryChange, FieldChange, LedgerState } from './report.ts'

/** What was added, corrected and removed, and the effect on figures and findings. */
export function renderChanges({ data, cautions }: Report<ChangesData>, style: Style): string {
  const { added, removed, corrected, unread, effects, why } = data
  const span = `between ${stateText(data.from)} and ${stateText(data.to)}`
  const parts = [
    wrap(`${sumOf(data)} ${span}.`, style.columns),
    section(
      'Added',
      added.map((entry) => entryText(entry, style)),
      style,
    ),
    section(
      'Corrected',
      corrected.map((entry) => correctionText(entry, style)),
      style,
    ),
    section(
      'Removed',
      removed.map((entry) => entryText(entry, style)),
      style,
    ),
    section(
      'What follows',
      effects ? effectLines(effects.figures, style.units).map((line) => wrap(line, style.columns, '  ')) : [],
      style,
    ),
    section(
      'New findings',
      (effects?.findings.appeared ?? []).map((one) => findingText(one, style)),
      style,
    ),
    section(
      'Findings gone',
      (effects?.findings.gone ?? []).map((one) => findingText(one, style)),
      style,
    ),
    section(
      'Errors (their records may be left out above)',
      unread.map(({ in: side, finding }) =>
        findingText(finding, style, side === 'from' ? stateText(data.from) : stateText(data.to)),
      ),
      style,
    ),
    [...added, ...corrected, ...removed].some(({ late }) => late)
      ? wrap(
          'Say why in the commit message where a spray is marked LATE: an inspector may ask.',
          style.columns,
        )
      : '',
    why === null || data.from.commit === null ? '' : wrap(`No figures: ${why}.`, style.columns),
  ]
  const text = `${parts.filter((part) => part !== '').join('\n\n')}\n`
  return effects ? underAnswer(text, cautions, style.columns) : text
}

function section(title: string, lines: readonly string[], { paint }: Style): string {
  return lines.length === 0 ? '' : `${paint.strong(title)}\n${lines.join('\n')}`
}

function stateText({ name, commit, date, subject }: LedgerState): string {
  if (commit === null) return name
  const said = [date && longDate(date), subject && `"${safeLine(subject)}"`].filter(Boolean).join(', ')
  return `${safeLine(name === commit ? commit.slice(0, 10) : name)} (${said})`
}

/** `2 sprays and 1 sample added; 1 spray corrected`. */
function sumOf({ added, corrected, removed }: ChangesData): string {
  const parts = [
    [added, 'added'],
    [corrected, 'corrected'],
    [removed, 'removed'],
  ] as const
  const said = parts.flatMap(([list, verb]) => (list.length > 0 ? [`${kindsOf(list)} ${verb}`] : []))
  if (said.length === 0) return 'No change in the records'
  return said.join('; ')
}

const PLURALS: Record<string, string> = {
  scouting: 'scouting rounds',
  crop: 'crop counts',
  work: 'work entries',
  variety: 'varieties',
  spray: 'sprays',
}
const SINGLE: Record<string, string> = {
  scouting: 'scouting round',
  crop: 'crop count',
  work: 'work entry',
}

function kindsOf(entries: readonly EntryChange[]): string {
  const counts = new Map<string, number>()
  for (const { kind } of entries) counts.set(kind, (counts.get(kind) ?? 0) + 1)
  return listed(
    [...counts].map(([kind, count]) => counted(count, SINGLE[kind] ?? kind, PLURALS[kind] ?? `${kind}s`)),
  )
}

/** `spray 14 Jun 2026 top-terrace`, `product sulphur-80`. */
function nameOf({ kind, id, date, blocks }: EntryChange): string {
  return [SINGLE[kind] ?? kind, id, date && longDate(date), listed(blocks)].filter(Boolean).join(' ')
}

function entryText(entry: EntryChange, style: Style): string {
  const text = `${nameOf(entry)}${entry.gist ? `: ${entry.gist}` : ''}`
  const lines = [wrap(safeLine(text), style.columns - 4, '  ').replaceAll('\n', '\n  ')]
  if (entry.late) lines.push(lateText(entry, style))
  return lines.join('\n')
}

function lateText({ daysAfter }: EntryChange, { columns, paint }: Style): string {
  return paint.doubtful(wrap(`LATE: recorded or changed ${daysAfter} days after its date`, columns, '      '))
}

function correctionText(entry: Correction, style: Style): string {
  const lines = entry.fields
    .filter(isTold)
    .map((field) => wrap(safeLine(fieldText(field)), style.columns, '      '))
  const head = wrap(safeLine(nameOf(entry)), style.columns, '  ')
  return [head, ...lines, ...(entry.late ? [lateText(entry, style)] : [])].join('\n')
}

/** The name of an item is reported by its other fields already. */
const isTold = ({ field }: FieldChange) => !/^products\..+\.product$/.test(field)

function fieldText({ field, from, to }: FieldChange): string {
  const name = fieldName(field)
  if (from === null) return `${name}: ${to} (new)`
  if (to === null) return `${name}: ${from} (taken out)`
  return `${name}: ${from} -> ${to}`
}

/** `products.sulphur-80.rate` in everyday words: `rate of sulphur-80`. */
function fieldName(field: string): string {
  const item = /^(products|actives|uses|keep_apart)\.(.+)\.([^.]+)$/.exec(field)
  if (!item) return field.replaceAll('_', ' ').replaceAll('.', ' ')
  const key = item[3] === 'for' ? 'target' : item[3]!.replaceAll('_', ' ')
  return `${key} ${item[1] === 'uses' ? 'against' : 'of'} ${item[2]}`
}

const FIGURES: Record<FigureChange['figure'], { name: string; decimals: number }> = {
  sprays: { name: 'sprays', decimals: 0 },
  copper: { name: 'copper', decimals: 2 },
  treatmentFrequency: { name: 'treatment frequency', decimals: 2 },
  legalFrom: { name: 'pick from', decimals: 0 },
  picked: { name: 'picked', decimals: 0 },
  verdict: { name: 'harvest decision', decimals: 0 },
}

/** One line for each block and season, with the figures that came out differently. */
function effectLines(figures: readonly FigureChange[], units: Units): string[] {
  const lines = new Map<string, string[]>()
  for (const change of figures) {
    const key = `${change.block} ${change.season}`
    const { name, decimals } = FIGURES[change.figure]
    const shown = (value: FigureChange['from']) =>
      value === null
        ? change.figure === 'legalFrom'
          ? 'no date'
          : 'unknown'
        : typeof value === 'number'
          ? figure(change.unit ? ownQuantity({ value, unit: change.unit }, units).value : value, decimals)
          : change.figure === 'legalFrom'
            ? longDate(value)
            : value
    const unit = change.unit ? ` ${ownQuantity({ value: 0, unit: change.unit }, units).unit}` : ''
    const list = lines.get(key) ?? []
    lines.set(key, [...list, `${name} ${shown(change.from)} -> ${shown(change.to)}${unit}`])
  }
  return [...lines].map(([key, parts]) => `${key}: ${parts.join(', ')}`)
}

function findingText({ name, level, file, line, message }: ReportFinding, style: Style, where = ''): string {
  const year = /\b\d{4}\b/.exec(file)?.[0] ?? 'any'
  const said = daysInWords(safeLine(message), year)
  const text = `${level} ${name} in ${safeLine(file)}:${line}${where ? ` of ${where}` : ''}: ${inBookUnits(said, style.units, 'spray')}`
  return wrap(text, style.columns, '  ')
}

const SUBJECT = 72
const MOST_LINES = 24

/** The changes as a commit message: a subject line, then one line for each entry and each figure. */
export function changesMessage({ data }: Report<ChangesData>, { units }: Pick<Style, 'units'>): string {
  const { added, corrected, removed, effects } = data
  const lines = [
    ...added.map((entry) => `add ${nameOf(entry)}${entry.gist ? `: ${entry.gist}` : ''}${lateMark(entry)}`),
    ...corrected.map(
      (entry) =>
        `correct ${nameOf(entry)}: ${entry.fields.filter(isTold).map(fieldText).join(', ')}${lateMark(entry)}`,
    ),
    ...removed.map(
      (entry) => `remove ${nameOf(entry)}${entry.gist ? `: ${entry.gist}` : ''}${lateMark(entry)}`,
    ),
  ]
  const names = (list: readonly ReportFinding[]) => listed([...new Set(list.map(({ name }) => name))])
  const { appeared = [], gone = [] } = effects?.findings ?? {}
  const after = [
    ...effectLines(effects?.figures ?? [], units),
    ...(appeared.length > 0 ? [`new findings: ${names(appeared)}`] : []),
    ...(gone.length > 0 ? [`findings gone: ${names(gone)}`] : []),
  ]
  const body = [shortened(lines), shortened(after)].filter((part) => part.length > 0)
  return `${[subjectOf(data), ...body.map((part) => part.map((line) => wrapped(safeLine(line))).join('\n'))].join('\n\n')}\n`
}

const lateMark = ({ late, daysAfter }: EntryChange) => (late ? ` (${daysAfter} days after its date)` : '')

function shortened(lines: readonly string[]): string[] {
  if (lines.length <= MOST_LINES) return [...lines]
  return [...lines.slice(0, MOST_LINES), `and ${lines.length - MOST_LINES} more`]
}

const wrapped = (line: string) => wrap(`- ${line}`, SUBJECT - 2).replaceAll('\n', '\n  ')

function subjectOf(data: ChangesData): string {
  const { added, corrected, removed } = data
  const verbs = [
    ['Add', added],
    ['Correct', corrected],
    ['Remove', removed],
  ] as const
  const said = (names: (list: readonly EntryChange[]) => string) => {
    const parts = verbs.flatMap(([verb, list]) => (list.length > 0 ? [`${verb} ${names(list)}`] : []))
    return parts
      .map((part, index) => (index === 0 ? part : part[0]!.toLowerCase() + part.slice(1)))
      .join('; ')
  }
  if (added.length + corrected.length + removed.length === 0) return 'No change in the records'
  const only = [...added, ...corrected, ...removed]
  if (only.length === 1) {
    const one = safeLine(said((list) => nameOf(list[0]!)))
    if (one.length <= SUBJECT) return one
  }
  const full = said(kindsOf)
  return full.length <= SUBJECT ? full : said((list) => counted(list.length, 'entry', 'entries'))
}
