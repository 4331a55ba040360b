import { groupedBy } from '../../facts/judged.ts'
import { inLedgerUnits, ownQuantity, type Units } from '../../facts/ledger-units.ts'
import type { Report, ReportFinding } from '../../facts/report.ts'
import { listed, upperFirst } from '../../facts/sentences.ts'
import { longDate } from '../../records/spoken-date.ts'
import { daysInWords } from '../../render/days-in-words.ts'
import { figure } from '../../render/figure.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { counted, sentences, underAnswer, wrap } from '../../render/text.ts'
import type { FigureChange } from './effects.ts'
import type { ChangesData, Correction, EntryChange, FieldChange, LedgerState } from './report.ts'

/** What was added, corrected and removed, and the effect on figures and findings. */
export function renderChanges({ data, cautions }: Report<ChangesData>, style: Style): string {
  const { added, removed, corrected, unread, effects, why } = data
  const span = `between ${stateText(data.from)} and ${stateText(data.to)}`
  const { appeared = [], gone = [] } = effects?.findings ?? {}
  const sections: [title: string, lines: string[]][] = [
    ['Added', added.map((entry) => entryText(entry, style))],
    ['Corrected', corrected.map((entry) => correctionText(entry, style))],
    ['Removed', removed.map((entry) => entryText(entry, style))],
    [
      'What follows',
      effectLines(effects?.figures ?? [], style.units).map((line) => wrap(line, style.columns, '  ')),
    ],
    ['New findings', appeared.map((one) => findingText(one, style))],
    ['Findings gone', gone.map((one) => findingText(one, style))],
    [
      'Errors (their records may be left out above)',
      unread.map(({ in: side, finding }) => findingText(finding, style, stateText(data[side]))),
    ],
  ]
  const parts = sentences(
    wrap(`${sumOf(data)} ${span}.`, style.columns),
    sections.flatMap(([title, lines]) =>
      lines.length === 0 ? [] : `${style.paint.strong(title)}\n${lines.join('\n')}`,
    ),
    [...added, ...corrected, ...removed].some(({ late }) => late) &&
      wrap(
        'Say why in the commit message where a spray is marked LATE: an inspector may ask.',
        style.columns,
      ),
    why !== null && data.from.commit !== null && wrap(`No figures: ${why}.`, style.columns),
  )
  const text = `${parts.join('\n\n')}\n`
  return effects ? underAnswer(text, cautions, style.columns) : text
}

function stateText({ name, commit, date, subject }: LedgerState): string {
  if (commit === null) return name
  const said = [date && longDate(date), subject && `"${safeLine(subject)}"`].filter(Boolean).join(', ')
  return `${safeLine(name === commit ? commit.slice(0, 10) : name)} (${said})`
}

const NO_CHANGE = 'No change in the records'

/** `2 sprays and 1 sample added; 1 spray corrected`. */
function sumOf({ added, corrected, removed }: ChangesData): string {
  const said = Object.entries({ added, corrected, removed }).flatMap(([verb, list]) =>
    list.length > 0 ? [`${kindsOf(list)} ${verb}`] : [],
  )
  return said.join('; ') || NO_CHANGE
}

/** Kinds that are called otherwise than their folders. */
const NAMES: Record<string, string> = { scouting: 'scouting round', crop: 'crop count', work: 'work entry' }

function kindsOf(entries: readonly EntryChange[]): string {
  const kinds = groupedBy(entries, ({ kind }) => NAMES[kind] ?? kind)
  return listed(
    [...kinds].map(([kind, own]) => counted(own.length, kind, `${kind}s`.replace(/(?<![aeiou])ys$/, 'ies'))),
  )
}

/** `spray 14 Jun 2026 top-terrace`, `product sulphur-80`. */
function nameOf({ kind, id, date, blocks }: EntryChange): string {
  return [NAMES[kind] ?? kind, id, date && longDate(date), listed(blocks)].filter(Boolean).join(' ')
}

/** The same with its content: `sample 14 Sep 2026 top-terrace: brix 19.6`. */
const toldOf = (entry: EntryChange) => `${nameOf(entry)}${entry.gist ? `: ${entry.gist}` : ''}`

function entryText(entry: EntryChange, style: Style): string {
  const lines = [wrap(safeLine(toldOf(entry)), style.columns - 4, '  ').replaceAll('\n', '\n  ')]
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

const FIGURES: Record<FigureChange['figure'], [name: string, decimals: number]> = {
  sprays: ['sprays', 0],
  copper: ['copper', 2],
  treatmentFrequency: ['treatment frequency', 2],
  legalFrom: ['pick from', 0],
  picked: ['picked', 0],
  verdict: ['harvest decision', 0],
}

/** One line for each block and season, with the figures that came out differently. */
function effectLines(figures: readonly FigureChange[], units: Units): string[] {
  const blocks = groupedBy(figures, ({ block, season }) => `${block} ${season}`)
  return [...blocks.values()].map(
    (changes) =>
      `${changes[0]!.name} ${changes[0]!.season}: ${changes.map((change) => effectText(change, units)).join(', ')}`,
  )
}

function effectText({ figure: of, unit, from, to }: FigureChange, units: Units): string {
  const [name, decimals] = FIGURES[of]
  const shown = (value: FigureChange['from']) => {
    if (value === null) return of === 'legalFrom' ? 'no date' : 'unknown'
    if (typeof value === 'string') return of === 'legalFrom' ? longDate(value) : value
    return figure(unit ? ownQuantity({ value, unit }, units).value : value, decimals)
  }
  const own = unit && ` ${ownQuantity({ value: 0, unit }, units).unit}`
  return `${name} ${shown(from)} -> ${shown(to)}${own}`
}

function findingText({ name, level, file, line, message }: ReportFinding, style: Style, where = ''): string {
  const year = /\b\d{4}\b/.exec(file)?.[0] ?? 'any'
  const said = daysInWords(safeLine(message), year)
  const text = `${level} ${name} in ${safeLine(file)}:${line}${where ? ` of ${where}` : ''}: ${inLedgerUnits(said, style.units, 'spray')}`
  return wrap(text, style.columns, '  ')
}

const SUBJECT = 72
const MOST_LINES = 24

/** The changes as a commit message: a subject line, then one line for each entry and each figure. */
export function changesMessage({ data }: Report<ChangesData>, { units }: Pick<Style, 'units'>): string {
  const { added, corrected, removed, effects } = data
  const lines = [
    ...added.map((entry) => `add ${toldOf(entry)}${lateMark(entry)}`),
    ...corrected.map(
      (entry) =>
        `correct ${nameOf(entry)}: ${entry.fields.filter(isTold).map(fieldText).join(', ')}${lateMark(entry)}`,
    ),
    ...removed.map((entry) => `remove ${toldOf(entry)}${lateMark(entry)}`),
  ]
  const names = (list: readonly ReportFinding[]) => listed([...new Set(list.map(({ name }) => name))])
  const { appeared = [], gone = [] } = effects?.findings ?? {}
  const after = sentences(
    effectLines(effects?.figures ?? [], units),
    appeared.length > 0 && `new findings: ${names(appeared)}`,
    gone.length > 0 && `findings gone: ${names(gone)}`,
  )
  const body = [shortened(lines), shortened(after)].filter((part) => part.length > 0)
  return `${[subjectOf(data), ...body.map((part) => part.map((line) => wrapped(safeLine(line))).join('\n'))].join('\n\n')}\n`
}

const lateMark = ({ late, daysAfter }: EntryChange) => (late ? ` (${daysAfter} days after its date)` : '')

function shortened(lines: readonly string[]): string[] {
  if (lines.length <= MOST_LINES) return [...lines]
  return [...lines.slice(0, MOST_LINES), `and ${lines.length - MOST_LINES} more`]
}

const wrapped = (line: string) => wrap(`- ${line}`, SUBJECT - 2).replaceAll('\n', '\n  ')

function subjectOf({ added, corrected, removed }: ChangesData): string {
  const said = (names: (list: readonly EntryChange[]) => string) =>
    upperFirst(
      Object.entries({ add: added, correct: corrected, remove: removed })
        .flatMap(([verb, list]) => (list.length > 0 ? [`${verb} ${names(list)}`] : []))
        .join('; '),
    )
  const all = [...added, ...corrected, ...removed]
  if (all.length === 0) return NO_CHANGE
  const one = all.length === 1 ? safeLine(said(([only]) => nameOf(only!))) : ''
  if (one !== '' && one.length <= SUBJECT) return one
  const full = said(kindsOf)
  return full.length <= SUBJECT ? full : said((list) => counted(list.length, 'entry', 'entries'))
}
