import type { ReportInput } from '../../facts/report.ts'
import { openLedger } from '../../ledger/read/open.ts'
import { seasonOf } from '../../ledger/read/seasons.ts'
import { folderOf, stemOf } from '../../ledger/write/entry-file.ts'
import type { PlainEntry } from '../../ledger/write/entry-text.ts'
import { createFile } from '../../ledger/write/write.ts'
import { createFiles } from '../../ledger/write/write-batch.ts'
import { FIRST_YEAR, type IsoDate, LAST_YEAR } from '../../records/date.ts'
import { type SeasonKind, SINGULAR } from '../../records/kinds.ts'
import { wrap } from '../../render/text.ts'
import { type Draft, type DraftInput, makeDraft, whenOf } from '../../reports/note/draft.ts'
import { fieldsOf } from '../../reports/note/fields.ts'
import { type Missing, missingOf } from '../../reports/note/missing.ts'
import { readWeatherDays } from '../../reports/note/read-weather-days.ts'
import { type Noted, note, writtenAs } from '../../reports/note/report.ts'
import { renderNote } from '../../reports/note/terminal.ts'
import type { Call } from '../plumbing/call.ts'
import { BrokenLedger, UsageError } from '../plumbing/errors.ts'
import { toJson } from '../plumbing/json.ts'
import { NOTE_FIELDS } from '../plumbing/note-options.ts'
import { uninterrupted } from '../plumbing/uninterrupted.ts'
import { resumeLine } from './resume.ts'

/** Takes an entry from options and questions, shows it, and writes it. @returns the exit status. */
export async function noteEntry(call: Call, kind: SeasonKind): Promise<number> {
  const input = await openBook(call, kind)
  const asks = !call.json && !call.flag('yes') && call.env.inIsTerminal && call.env.outIsTerminal
  const job = { ...typedOf(call, kind, input), ledger: input.ledger, kind, asOf: input.asOf }
  const days = weatherDays(call, job)
  const entry = days ? days[0]! : asks ? await askWhatIsMissing(call, job) : complete(job, makeDraft(job))
  if (!entry) return 1
  const entries = days ?? eachBlock(entry, job)
  const all = entries.map((one) => judged(call, { kind, input, entry: one }))
  const noted = all[0]!
  const readable = all.every((one) => one.readable)
  const doubts = all.flatMap((one) => one.all)
  const refused = doubts.some((finding) => finding.level === 'error') && !call.flag('anyway')
  const resume = resumed(call, job)
  if (!readable || refused || call.flag('dry-run')) {
    // On a terminal the entry goes out before the reason why it was not written, not after it.
    if (asks && (refused || !readable)) call.env.err(await shown(call, all))
    else await show(call, all)
    if (readable && !refused) return 0
    call.env.err(refusal(readable, { resume: asks ? resume : null, columns: call.env.columns }))
    return readable ? 1 : 2
  }
  if (asks) {
    call.env.err(`${await shown(call, all)}\n`)
    const { askToWrite } = await import('./ask-entry.ts')
    if (!(await askToWrite(doubts.length > 0))) {
      call.env.err(`Nothing written. To go on:\n  ${resume}\n`)
      return 1
    }
  }
  const season = noted.report.season!
  const wanted = all.map(({ report }, index) => ({
    root: input.ledger.root,
    folder: folderOf(kind, season),
    stem: stemOf(entries[index]!, input.ledger),
    text: report.data.text,
  }))
  const files = uninterrupted(() => (wanted.length === 1 ? [createFile(wanted[0]!)] : createFiles(wanted)))
  if (asks) call.env.out(files.map((file) => `Written: ${file}\n`).join(''))
  else
    await show(
      call,
      all.map((one, index) => writtenAs(one, files[index]!)),
    )
  return 0
}

/** The days of weather typed with `--day`, or null where none was. @throws UsageError where one can't be read. */
function weatherDays(call: Call, job: Job): PlainEntry[] | null {
  const texts = call.texts('day')
  if (texts.length === 0) return null
  if (job.kind !== 'weather') throw new UsageError('--day is of weather', 'write --date DAY')
  const { units } = job.ledger.vineyard
  const { entries, fault } = readWeatherDays(texts, { ...whenOf(job), units })
  if (fault) throw new UsageError(`--day: ${fault.message}`, fault.help)
  return entries
}

/** Kinds whose entry can be the same on several blocks: a spray has them all in it, the others one file each. */
const SHARED: readonly SeasonKind[] = ['sprays', 'stages', 'work']

/** The entry, once for each block that was named where it holds one only. */
function eachBlock(entry: PlainEntry, { kind, blocks }: Job): PlainEntry[] {
  if (kind === 'sprays' || blocks.length < 2) return [entry]
  return blocks.map((block) => ({ ...entry, block }))
}

/** The first entry in full, the others by what differs: their file, and what they would cause. */
async function shown(call: Call, all: readonly Noted[]): Promise<string> {
  const style = await call.style()
  const first = renderNote(all[0]!, style)
  if (all.length === 1) return first
  const rest = all.slice(1).map((one) => {
    const { file, written } = one.report.data
    return one.all.length === 0 && one.readable
      ? `${'block' in (one.report.data.entry as object) ? 'The same on another block' : 'Another day'}: ${written ? 'written' : 'not written yet'}: ${file}\n`
      : `\n${renderNote(one, style)}`
  })
  return `${first}\n${rest.join('')}`
}

interface Job extends DraftInput {
  typed: Map<string, readonly string[]>
}

function resumed(call: Call, { kind, typed, blocks, like }: Job): string {
  const common = { ledger: call.text('ledger'), 'as-of': call.text('as-of') }
  return resumeLine({ word: SINGULAR[kind], typed, blocks, like, common })
}

async function openBook(call: Call, kind: SeasonKind): Promise<ReportInput> {
  const input = await call.openAnyway({ history: ['sprays', kind] })
  const errors = input.ledger.findings.filter((finding) => finding.level === 'error')
  const site = errors.filter((finding) => finding.file === 'vineyard.yaml')
  if (site.length > 0) throw new BrokenLedger(input, site)
  if (errors.length > 0) {
    call.env.err(
      `The book has ${errors.length === 1 ? 'an error' : `${errors.length} errors`} already, so what is said of this entry may not be all: see \`rowbook check\`.\n`,
    )
  }
  return input
}

/** The options typed, those of other kinds refused. */
function typedOf(call: Call, kind: SeasonKind, { blocks }: ReportInput) {
  const own = new Set(fieldsOf(kind).map((field) => field.option))
  if (kind === 'sprays') own.add('weather')
  const typed = new Map<string, readonly string[]>()
  for (const { flags } of NOTE_FIELDS) {
    const option = /--([a-z-]+)/.exec(flags)![1]!
    const texts = call.texts(option)
    if (texts.length === 0) continue
    if (!own.has(option)) {
      const takes = [...own].map((name) => `--${name}`).join(' ')
      throw new UsageError(`--${option} is no field of a ${SINGULAR[kind]} entry`, `its fields: ${takes}`)
    }
    typed.set(option, texts)
  }
  const ids = call.texts('block').length > 0 ? blocks.map((block) => block.id) : []
  if (ids.length > 1 && !SHARED.includes(kind))
    throw new UsageError(
      `a ${SINGULAR[kind]} entry is of one block, since what was counted or measured is`,
      `write one for each; the next can begin with \`rowbook note ${SINGULAR[kind]} --like last --block ${ids[1]}\``,
    )
  const summed = ['hours', 'prunings'].find((option) => kind === 'work' && typed.has(option))
  if (ids.length > 1 && summed)
    throw new UsageError(
      `--${summed} of several blocks can't be told apart`,
      `write one note for each block, or leave --${summed} out`,
    )
  return { typed, blocks: ids, like: call.text('like') }
}

/** The entry of a draft that nothing is missing in. @throws UsageError where something is. */
function complete(job: Job, draft: Draft): PlainEntry {
  const [first] = draft.faults
  if (first) throw new UsageError(`--${first.option}: ${first.fault.message}`, first.fault.help)
  const missing = missingOf(job.kind, draft.entry)
  if (missing.length > 0)
    throw new UsageError(`this ${SINGULAR[job.kind]} entry is not complete`, told(missing))
  return draft.entry
}

function told(missing: readonly Missing[]): string {
  return missing
    .map(({ option, what }) => (option === null ? what : `--${option} is missing: ${what}`))
    .join('\n  ')
}

/** Asks until the entry is complete. @returns null where the grower left. */
async function askWhatIsMissing(call: Call, job: Job): Promise<PlainEntry | null> {
  const first = makeDraft(job)
  if (first.faults.length > 0 || missingOf(job.kind, first.entry).length === 0) return complete(job, first)
  const { askEntry } = await import('./ask-entry.ts')
  const like = job.like === undefined ? null : first.entry
  for (;;) {
    const { typed, blocks, left } = await askEntry(job, like)
    job.typed = typed
    job.blocks = blocks
    if (left) {
      call.env.err(`Nothing written. To go on where you left:\n  ${resumed(call, job)}\n`)
      return null
    }
    const draft = makeDraft(job)
    const missing = missingOf(job.kind, draft.entry)
    if (draft.faults.length > 0 || missing.length === 0) return complete(job, draft)
    call.env.err(`${wrap(`Something is still missing: ${told(missing)}`, call.env.columns)}\n`)
  }
}

/** What the entry would cause, in the season that its date belongs to. */
function judged(call: Call, about: { kind: SeasonKind; input: ReportInput; entry: PlainEntry }): Noted {
  const { kind, input, entry } = about
  const season = seasonOf(input.ledger.vineyard, entry.date as IsoDate)
  const named = call.number('season', FIRST_YEAR, LAST_YEAR)
  if (named !== undefined && named !== season)
    throw new UsageError(
      `${entry.date} is in season ${season}, not ${named}`,
      'leave --season out, or correct the date',
    )
  const ledger =
    season === input.season
      ? input.ledger
      : openLedger(input.ledger.root, { seasons: [season], history: ['sprays', kind] })
  return note({ ledger, kind, season, asOf: input.asOf, entry })
}

/** Prints what was noted; as JSON the first entry, with all of them under `entries` where there are several. */
async function show(call: Call, all: readonly Noted[]): Promise<void> {
  if (!call.json) return call.env.out(await shown(call, all))
  const { report } = all[0]!
  if (all.length === 1) return call.env.out(await toJson(report))
  const entries = all.map((one) => ({ file: one.report.data.file, entry: one.report.data.entry }))
  const findings = all.flatMap((one) => one.report.findings)
  call.env.out(await toJson({ ...report, data: { ...report.data, entries }, findings }))
}

function refusal(readable: boolean, { resume, columns }: { resume: string | null; columns: number }): string {
  const way = readable
    ? 'Nothing written. Correct the entry, or write it with --anyway if it is what happened.'
    : 'Nothing written: the entry could not be read as it stands.'
  return `${wrap(way, columns)}\n${resume === null ? '' : `  ${resume}\n`}`
}
