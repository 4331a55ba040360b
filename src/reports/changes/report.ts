import { CAUTION, makeReport, type ReportFinding } from '../../facts/report.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { daysBetween, type IsoDate } from '../../records/date.ts'
import { effectsOf } from './effects.ts'
import { entriesApart, type Field, fieldsOf, gistOf, type LedgerEntry, lineOf, nounOf } from './entries.ts'
import { matchEntries } from './match.ts'

/** A spray that is changed later than this after its day is marked: an inspector would ask. */
const LATE_DAYS = 30

export interface FieldChange {
  /** Path of the field, like `products.sulphur-80.rate`. */
  field: string
  /** As written; null where it isn't. */
  from: string | null
  to: string | null
}

export type EntryChange = ReturnType<typeof toChange>

export type Correction = EntryChange & { fields: FieldChange[] }

/** A state of the ledger: a revision, or the current files. */
export interface LedgerState {
  name: string
  commit: string | null
  date: IsoDate | null
  subject: string | null
}

export type ChangesData = ReturnType<typeof changes>['data']

interface ChangesQuestion {
  before: { state: LedgerState; ledger: Ledger | null }
  after: { state: LedgerState; ledger: Ledger }
  asOf: IsoDate
  /** The season whose verdicts are compared. */
  season: number
  /** The day on which a file was last changed, as far as known. */
  changedOn: (file: string) => IsoDate
}

/** What changed between two states of the ledger, and the effect on its figures. */
export function changes(question: ChangesQuestion) {
  const { before, after, asOf, season } = question
  const matched = matchEntries(...entriesApart(before.ledger, after.ledger))
  const describe = (entry: LedgerEntry) => toChange(entry, question.changedOn(entry.file))
  const added = matched.added.map(describe)
  const removed = matched.removed.map(describe)
  const corrected = matched.corrected.map((pair) => {
    const now = describe(pair.after)
    const late = now.late || lateOf(pair.before, question.changedOn(pair.after.file))
    return { ...now, late, fields: fieldChanges(fieldsOf(pair.before), fieldsOf(pair.after)) }
  })
  const unread = [...unreadOf('from', before.ledger), ...unreadOf('to', after.ledger)]
  const seasons = seasonsOf(
    [...matched.added, ...matched.removed, ...matched.corrected.map((pair) => pair.after)],
    question,
  )
  const whole = unread.length === 0 ? before.ledger : null
  const effects =
    whole &&
    (added.length + removed.length + corrected.length === 0
      ? { figures: [], findings: { appeared: [], gone: [] } }
      : effectsOf(whole, after.ledger, { asOf, seasons, verdictsOf: season }))
  const data = {
    from: before.state,
    to: after.state,
    added: added.sort(inOrder),
    removed: removed.sort(inOrder),
    corrected: corrected.sort(inOrder),
    /** Errors of either state: a record that can't be read is not compared. */
    unread,
    /** null where `why` gives the reason. */
    effects,
    why:
      before.ledger === null
        ? 'there are no earlier records to compare with'
        : whole === null
          ? 'the records have errors'
          : null,
  }
  return makeReport('changes', { asOf, season: null }, { data, cautions: [CAUTION.clearance] })
}

function toChange(entry: LedgerEntry, changed: IsoDate) {
  const { id, date, blocks, season, file } = entry
  return {
    kind: nounOf(entry),
    id,
    date,
    blocks,
    season,
    /** Its content in a few words. */
    gist: gistOf(entry),
    file,
    line: lineOf(entry),
    /** Days from its date to the change, as far as git knows; null for records without a date. */
    daysAfter: date === null ? null : daysBetween(date, changed),
    /** Whether it is a spray that was changed more than 30 days after its date. */
    late: lateOf(entry, changed),
  }
}

function lateOf({ kind, date }: LedgerEntry, changed: IsoDate): boolean {
  return kind === 'sprays' && date !== null && daysBetween(date, changed) > LATE_DAYS
}

function fieldChanges(before: Map<string, Field>, after: Map<string, Field>): FieldChange[] {
  const labels = new Set([...before.keys(), ...after.keys()])
  return [...labels].flatMap((field) => {
    const [from, to] = [before.get(field), after.get(field)]
    return from?.value === to?.value ? [] : [{ field, from: from?.text ?? null, to: to?.text ?? null }]
  })
}

function unreadOf(
  side: 'from' | 'to',
  ledger: Ledger | null,
): { in: 'from' | 'to'; finding: ReportFinding }[] {
  return (ledger?.findings ?? [])
    .filter(({ level }) => level === 'error')
    .map(({ length: _, ...finding }) => ({ in: side, finding }))
}

/** Seasons whose figures may have changed: those of the entries, and all where a standing record did. */
function seasonsOf(entries: readonly LedgerEntry[], { before, after, season }: ChangesQuestion): number[] {
  const all = entries.some((entry) => entry.season === null)
  const wanted = all
    ? [...(before.ledger?.seasons ?? []), ...after.ledger.seasons]
    : entries.map((entry) => entry.season!)
  return [...new Set([...wanted, season])].sort((a, b) => a - b)
}

function inOrder(a: EntryChange, b: EntryChange): number {
  const key = ({ date, kind, file, line }: EntryChange) =>
    `${date ?? ''} ${kind} ${file} ${String(line).padStart(6, '0')}`
  return key(a) < key(b) ? -1 : 1
}
