import type { PlainEntry } from '../../ledger/entry-text.ts'
import { openLedger } from '../../ledger/open.ts'
import { seasonOf } from '../../ledger/seasons.ts'
import { createFile } from '../../ledger/write.ts'
import type { IsoDate } from '../../records/date.ts'
import { type SeasonKind, SINGULAR } from '../../records/kinds.ts'
import { renderNote } from '../../render/note.ts'
import { type Draft, type DraftInput, makeDraft } from '../../reports/note/draft.ts'
import { fieldsOf } from '../../reports/note/fields.ts'
import { type Missing, missingOf } from '../../reports/note/missing.ts'
import { folderOf, type Noted, note, stemOf, writtenAs } from '../../reports/note.ts'
import type { ReportInput } from '../../reports/report.ts'
import { BrokenLedger, type Call, toJson, UsageError } from '../call.ts'
import { NOTE_FIELDS } from '../note-options.ts'
import { uninterrupted } from '../uninterrupted.ts'
import { resumeLine } from './resume.ts'

/** Takes an entry from options and questions, shows it, and writes it. @returns the exit status. */
export async function noteEntry(call: Call, kind: SeasonKind): Promise<number> {
  const input = await openBook(call, kind)
  const asks = !call.json && !call.flag('yes') && call.env.inIsTerminal && call.env.outIsTerminal
  const job = { ...typedOf(call, kind, input), ledger: input.ledger, kind, asOf: input.asOf }
  const entry = asks ? await askWhatIsMissing(call, job) : complete(job, makeDraft(job))
  if (!entry) return 1
  const noted = judged(call, { kind, input, entry })
  const refused = noted.all.some((finding) => finding.level === 'error') && !call.flag('anyway')
  const resume = resumed(call, job)
  if (!noted.readable || refused || call.flag('dry-run')) {
    // On a terminal the entry goes out before the reason why it was not written, not after it.
    if (asks && (refused || !noted.readable)) call.env.err(renderNote(noted, await call.style()))
    else await show(call, noted)
    if (noted.readable && !refused) return 0
    call.env.err(refusal(noted, asks ? resume : null))
    return noted.readable ? 1 : 2
  }
  if (asks) {
    call.env.err(`${renderNote(noted, await call.style())}\n`)
    const { askToWrite } = await import('./ask-entry.ts')
    if (!(await askToWrite(noted.all.length > 0))) {
      call.env.err(`Nothing written. To go on:\n  ${resume}\n`)
      return 1
    }
  }
  const season = noted.report.season!
  const file = uninterrupted(() =>
    createFile({
      root: input.ledger.root,
      folder: folderOf(kind, season),
      stem: stemOf(entry, input.ledger),
      text: noted.report.data.text,
    }),
  )
  if (asks) call.env.out(`Written: ${file}\n`)
  else await show(call, writtenAs(noted, file))
  return 0
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
  if (site.length > 0) throw new BrokenLedger(site, input.ledger)
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
  if (ids.length > 1 && kind !== 'sprays')
    throw new UsageError(`a ${SINGULAR[kind]} entry is of one block`, 'write one note for each block')
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
    call.env.err(`Something is still missing. ${told(missing)}\n`)
  }
}

/** What the entry would cause, in the season that its date belongs to. */
function judged(call: Call, about: { kind: SeasonKind; input: ReportInput; entry: PlainEntry }): Noted {
  const { kind, input, entry } = about
  const season = seasonOf(input.ledger.vineyard, entry.date as IsoDate)
  const named = call.number('season', 1900, 2200)
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

async function show(call: Call, noted: Noted): Promise<void> {
  if (call.json) call.env.out(await toJson(noted.report))
  else call.env.out(renderNote(noted, await call.style()))
}

function refusal({ readable }: Noted, resume: string | null): string {
  const way = readable
    ? 'Nothing written. Correct the entry, or write it with --anyway if it is what happened.'
    : 'Nothing written: the entry could not be read as it stands.'
  return `${way}\n${resume === null ? '' : `  ${resume}\n`}`
}
