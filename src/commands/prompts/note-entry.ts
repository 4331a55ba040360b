import { judgedDiseases } from '../../facts/danger/known.ts'
import type { ReportInput } from '../../facts/report.ts'
import { openLedger } from '../../ledger/read/open.ts'
import { seasonOf } from '../../ledger/read/seasons.ts'
import { folderOf, stemOf } from '../../ledger/write/entry-file.ts'
import type { PlainEntry } from '../../ledger/write/entry-text.ts'
import { rememberNew } from '../../ledger/write/kept.ts'
import { createFiles } from '../../ledger/write/new-files.ts'
import { FIRST_YEAR, type IsoDate, LAST_YEAR } from '../../records/date.ts'
import { type SeasonKind, SINGULAR } from '../../records/kinds.ts'
import { wrap } from '../../render/text.ts'
import { type Draft, type DraftInput, makeDraft, whenOf } from '../../reports/note/draft.ts'
import { missingOf } from '../../reports/note/missing.ts'
import { readWeatherDays } from '../../reports/note/read-weather-days.ts'
import { type Noted, note, writtenAs } from '../../reports/note/report.ts'
import type { Call } from '../plumbing/call.ts'
import { BrokenLedger, UsageError } from '../plumbing/errors.ts'
import { uninterrupted } from '../plumbing/uninterrupted.ts'
import { refusal, resumed, show, shown } from './note-shown.ts'
import { type Screen, screenOf } from './question.ts'
import { inPairs } from './scouting-answers.ts'
import { BLOCK_BY_BLOCK, complete, missingLines, typedFields } from './typed-fields.ts'

/**
 * Makes an entry from options and questions, shows it, and writes it.
 * @param after where another entry leads to this one: its open terminal, and the part of the block to spray
 * @returns the exit status
 */
export async function noteEntry(call: Call, kind: SeasonKind, after?: After): Promise<number> {
  const input = await openForEntry(call, kind)
  const asks = call.mayAsk
  const typed = typedOf(call, kind, input, asks)
  const job = { ...typed, ledger: input.ledger, kind, asOf: input.asOf, part: after?.part }
  const days = weatherDays(call, job)
  const screen = asks ? (after?.screen ?? screenOf(call)) : null
  try {
    const made = days ? { entries: days, jobs: [job] } : await entriesOf(call, job, screen)
    return made ? await judgeAndWrite(call, input, { ...made, kind, screen }) : 1
  } finally {
    if (!after) screen?.input.close()
  }
}

interface After {
  screen: Screen
  part?: string | undefined
}

interface Made {
  entries: PlainEntry[]
  /** The jobs that the entries were made from; one for all, or one for each. */
  jobs: Job[]
}

async function judgeAndWrite(
  call: Call,
  input: ReportInput,
  { entries, jobs, kind, screen }: Made & { kind: SeasonKind; screen: Screen | null },
): Promise<number> {
  const all = entries.map((one) => judged(call, { kind, input, entry: one }))
  const readable = all.every((one) => one.readable)
  const doubts = all.flatMap((one) => one.all)
  const refused = doubts.some((finding) => finding.level === 'error') && !call.flag('anyway')
  const resume = resumed(call, jobs)
  if (!readable || refused || call.flag('dry-run')) {
    // On a terminal the entry is printed before the reason why it was not written.
    if (screen && (refused || !readable)) call.env.err(await shown(call, all))
    else await show(call, all)
    if (readable && !refused) return 0
    call.env.err(refusal(readable, { resume: screen ? resume : null, columns: call.env.columns }))
    return readable ? 1 : 2
  }
  if (screen) {
    call.env.err(`\n${await shown(call, all)}\n`)
    const { twin } = all[0]!
    if (twin && all.length === 1) {
      const { amendInstead } = await import('./amend-entry.ts')
      const status = await amendInstead(call, {
        twin,
        kind,
        typed: jobs[0]!.typed,
        blocks: jobs[0]!.blocks,
        screen,
      })
      if (status !== null) return status
    }
    const { askYes } = await import('./question.ts')
    if (!(await askYes('Write it?', screen))) {
      call.env.err(`Nothing written. To go on:\n${resume}\n`)
      return 1
    }
  }
  const wanted = all.map(({ report }, index) => ({
    root: input.ledger.root,
    folder: folderOf(kind, report.season!),
    stem: stemOf(entries[index]!, input.ledger),
    text: report.data.text,
  }))
  if (!rememberNew(input.ledger.root, wanted))
    call.env.err('The ledger keeps no note of this entry, so `note --undo` will not know it.\n')
  const files = uninterrupted(() => createFiles(wanted))
  if (!screen) {
    await show(
      call,
      all.map((one, index) => writtenAs(one, files[index]!)),
    )
    return 0
  }
  const { reportWritten } = await import('./after-writing.ts')
  const takeSpray = (next: Call, part: string | undefined) => noteEntry(next, 'sprays', { screen, part })
  await reportWritten(call, { files, all, ledger: input.ledger }, { screen, takeSpray })
  return 0
}

/** The days of weather typed with `--day`; null where there are none. @throws UsageError where one can't be read. */
function weatherDays(call: Call, job: Job): PlainEntry[] | null {
  const texts = job.typed.get('day') ?? call.texts('day')
  if (texts.length === 0) return null
  if (job.kind !== 'weather') throw new UsageError('--day is of weather', 'write --date DAY')
  const { units } = job.ledger.vineyard
  const { entries, fault } = readWeatherDays(texts, { ...whenOf(job), units })
  if (fault) throw new UsageError(`--day: ${fault.message}`, fault.help)
  return entries
}

interface Job extends DraftInput, Pick<After, 'part'> {
  typed: Map<string, readonly string[]>
}

async function openForEntry(call: Call, kind: SeasonKind): Promise<ReportInput> {
  const input = await call.openAnyway({ history: ['sprays', kind] })
  const errors = input.ledger.findings.filter((finding) => finding.level === 'error')
  const site = errors.filter((finding) => finding.file === 'vineyard.yaml')
  if (site.length > 0) throw new BrokenLedger(input, site)
  if (errors.length > 0) {
    call.env.err(
      `The ledger has ${errors.length === 1 ? 'an error' : `${errors.length} errors`} already, so this entry may not be checked in full: see \`rowbook check\`.\n`,
    )
  }
  return input
}

/** The options typed. @throws UsageError where one belongs to another kind of entry */
function typedOf(call: Call, kind: SeasonKind, { blocks, ledger }: ReportInput, asks: boolean) {
  const ids = call.texts('block').length > 0 ? blocks.map((block) => block.id) : []
  const { typed } = typedFields(call, kind, ids)
  const own = BLOCK_BY_BLOCK.has(kind) && [...typed.keys()].some((option) => option !== 'date')
  if (ids.length > 1 && BLOCK_BY_BLOCK.has(kind) && (own || !asks))
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
  return {
    typed: kind === 'scouting' ? inPairs(typed, judgedDiseases(ledger)) : typed,
    blocks: ids,
    like: call.text('like'),
  }
}

/** The entries of a draft: one for each block named, where an entry can hold one block only. */
function entriesIn(draft: Draft, { kind, blocks }: Job): PlainEntry[] {
  const entry = complete(draft, `${SINGULAR[kind]} entry`, (made) => missingOf(kind, made))
  return kind === 'sprays' || blocks.length < 2 ? [entry] : blocks.map((block) => ({ ...entry, block }))
}

/** What an entry still lacks; nothing where what was typed can't be read, since that is reported first. */
function lackingIn(job: Job) {
  const { faults, entry } = makeDraft(job)
  return faults.length > 0 ? [] : missingOf(job.kind, entry)
}

/** Makes the entries from what was typed, and asks for what is missing on a terminal. @returns null where the grower left. */
async function entriesOf(call: Call, job: Job, screen: Screen | null): Promise<Made | null> {
  const first = makeDraft(job)
  // Weather needs nothing but its day, so it would be complete at once: ask where nothing else was typed.
  const isBare = job.like === undefined && [...job.typed.keys()].every((option) => option === 'date')
  const isWhole = first.faults.length > 0 || (!isBare && missingOf(job.kind, first.entry).length === 0)
  if (isWhole || !screen) return { entries: entriesIn(first, job), jobs: [job] }
  const { askEntry } = await import('./ask-entry.ts')
  const like = job.like === undefined ? null : first.entry
  let jobs = [job]
  let lacking: Job | undefined
  for (;;) {
    const asked: Job[] = []
    for (const one of jobs) {
      if (lacking && one !== lacking) {
        asked.push(one)
        continue
      }
      const answered = await askEntry(one, like, screen)
      for (const answers of answered.jobs) asked.push({ ...one, ...answers })
      if (!answered.left) continue
      call.env.err(`Nothing written. To go on where you left:\n${resumed(call, asked)}\n`)
      return null
    }
    jobs = asked
    const days = weatherDays(call, jobs[0]!)
    if (days) return { entries: days, jobs }
    lacking = jobs.find((one) => lackingIn(one).length > 0)
    if (!lacking) return { entries: jobs.flatMap((one) => entriesIn(makeDraft(one), one)), jobs }
    const of = jobs.length > 1 ? ` for ${job.ledger.blocks.get(lacking.blocks[0]!)!.name}` : ''
    call.env.err(
      `${wrap(`Something is still missing${of}: ${missingLines(lackingIn(lacking))}`, call.env.columns)}\n`,
    )
  }
}

/** Judges the entry in the season that its date belongs to. */
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
