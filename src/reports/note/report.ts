import { type FindAdvice, findAdvice } from '../../facts/danger/advice.ts'
import { dangerJudge } from '../../facts/danger/danger.ts'
import { followUps } from '../../facts/danger/follow-up.ts'
import { CAUTION, makeReport, type Report } from '../../facts/report.ts'
import { readSample } from '../../facts/ripeness/sample.ts'
import { stationDayOf } from '../../facts/weather/in-short.ts'
import { windowOf } from '../../facts/window/block-window.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import type { Ledger, SampleEntry, Seasonal, SprayEntry } from '../../ledger/read/ledger.ts'
import { type Added, type AnyEntry, withEntry, withoutEntry } from '../../ledger/write/add.ts'
import { freeFile } from '../../ledger/write/entry-file.ts'
import { entryText, type PlainEntry } from '../../ledger/write/entry-text.ts'
import { dayOf, type IsoDate } from '../../records/date.ts'
import { type RecordOf, SEASONAL, type SeasonKind, SINGULAR } from '../../records/kinds.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { judge } from '../../rules/index.ts'
import { type Twin, twinOf } from '../../rules/slips/entered-twice.ts'
import { contractForm } from './contract-form.ts'
import { type Follows, followsFrom } from './follows.ts'

interface NoteData {
  /** The file, relative to the ledger; before it is written, the name that looks free. */
  file: string
  /** The entry by the JSON contract. */
  entry: unknown
  /** The file's text. */
  text: string
  /** Whether the file was written. */
  written: boolean
  /** What follows from a spray; null for other kinds. */
  follows: Follows | null
  /** What to do about the finds of a scouting round; null where nothing, and for other kinds. */
  finds: FindAdvice | null
  /** The uncertainty of a sample's temperature correction; null where it gives one figure, and for other kinds. */
  open: string | null
  /** What the station also recorded for a day of weather; null where nothing, and for other kinds. */
  beside: string | null
}

interface NoteInput {
  /** The ledger with the season of the entry and earlier sprays. */
  ledger: Ledger
  kind: SeasonKind
  season: number
  asOf: IsoDate
  entry: PlainEntry
}

/** The report of a note, with what the writer and the screen need beside it. */
export interface Noted {
  report: Report<NoteData>
  /** The findings with the length of what they are about. */
  all: Finding[]
  /** Whether the entry can be read back at all; one that can't is never written. */
  readable: boolean
  /** The entry that it is likely the same as; null where none is. */
  twin: Twin | null
}

/**
 * An entry as its file will be, every finding that it would cause, and what follows from it. The findings are
 * those of the entry itself, and those of the rules with the entry that they don't raise without it.
 */
export function note(input: NoteInput): Noted {
  const { ledger, kind, season, entry } = input
  const file = freeFile(entry, input)
  const text = entryText(entry, `../../../.rowbook/schema/${SINGULAR[kind]}.json`)
  return noted(input, { file, text, added: withEntry(ledger, { kind, season, file, text }) })
}

/** The same of an entry that stands in the ledger and gets another text. */
export function amend(
  input: NoteInput,
  { old, text, path }: { old: AnyEntry; text: string; path: readonly number[] },
): Noted {
  const { ledger, kind, season } = input
  const { file } = old.source.at
  const without = withoutEntry(ledger, kind, old)
  const added = withEntry(without, { kind, season, file, text }, path)
  return noted({ ...input, ledger: without }, { file, text, added })
}

function noted(
  { ledger, kind, season, asOf, entry }: NoteInput,
  { file, text, added }: { file: string; text: string; added: Added },
): Noted {
  const seasons = new Set([season])
  const caused = added.ledger
    ? difference(judge({ ledger: added.ledger, asOf, seasons }), judge({ ledger, asOf, seasons }))
    : []
  const all = [...added.findings, ...caused]
  const spray = kind === 'sprays' ? (added.record as SprayEntry | null) : null
  const data: NoteData = {
    file,
    entry: contractForm(SEASONAL[kind], entry, ledger.vineyard.harvest),
    text,
    written: false,
    // By the ledger with the spray in it, whose doses and numbers count.
    follows: spray && followsFrom(spray, added.ledger ?? ledger),
    open: kind === 'samples' && added.record ? readSample(added.record as SampleEntry).open : null,
    beside:
      kind === 'weather' && added.record
        ? besideStation(added.record as Seasonal<RecordOf<'weather'>>, { ledger, season })
        : null,
    finds: kind === 'scouting' && added.ledger ? findsAfter(added.ledger, { season, asOf, entry }) : null,
  }
  const cautions = kind === 'sprays' || data.finds !== null ? [CAUTION.dose, CAUTION.clearance] : []
  const report = makeReport('note', { asOf, season }, { data, findings: all, cautions })
  const isTwice = added.record !== null && all.some(({ name }) => name === 'entered-twice')
  const twin = isTwice ? twinOf(kind, added.record!, ledger[kind] as AnyEntry[]) : null
  return { report, all, readable: added.record !== null, twin }
}

/**
 * What the round asks for, where it is the newest of its block and found something over the threshold or in the
 * critical period.
 */
function findsAfter(
  ledger: Ledger,
  { season, asOf, entry }: Pick<NoteInput, 'season' | 'asOf' | 'entry'>,
): FindAdvice | null {
  const block = ledger.blocks.get(String(entry.block))
  if (!block) return null
  const input = { ledger, season, asOf, blocks: [block] }
  const danger = dangerJudge(input)
  const ones = followUps(input, danger).filter(({ act, newest }) => act && newest.date === entry.date)
  const picking = windowOf(block, input).earliest
  return ones.length === 0 ? null : findAdvice(ones, { input, judge: danger, picking })
}

const READ = [
  { key: 'low', of: 'min', name: 'the lowest', unit: '°C' },
  { key: 'high', of: 'max', name: 'the highest', unit: '°C' },
  { key: 'rain', of: 'rain', name: 'the rain', unit: 'mm' },
] as const

/** Of a day read by hand: what the station has read too, and whose figures are used. Null where it has none of them. */
function besideStation(
  { date, ...read }: RecordOf<'weather'>,
  { ledger, season }: { ledger: Ledger; season: number },
): string | null {
  const station = stationDayOf(ledger, season, dayOf(date))
  if (!station) return null
  const has = READ.filter(({ key, of }) => read[key] !== undefined && station[of] !== null).map(
    ({ of, name, unit }) => `${name}, ${Number(station[of]!.toFixed(1))} ${unit}`,
  )
  if (has.length === 0) return null
  return `the station has read ${has.join('; ')} on ${spokenDate(date)}; its readings are used, and yours where it has none`
}

/** The same once it is written, under the name that was free: the findings then stand in that file. */
export function writtenAs(noted: Noted, file: string): Noted {
  const { data, findings } = noted.report
  const moved = <T extends { file: string }>(finding: T): T =>
    finding.file === data.file ? { ...finding, file } : finding
  return {
    ...noted,
    report: { ...noted.report, data: { ...data, file, written: true }, findings: findings.map(moved) },
    all: noted.all.map(moved),
  }
}

function difference(after: readonly Finding[], before: readonly Finding[]): Finding[] {
  const key = ({ name, file, line, column, message }: Finding) =>
    JSON.stringify([name, file, line, column, message])
  const known = new Set(before.map(key))
  return after.filter((finding) => !known.has(key(finding)))
}
