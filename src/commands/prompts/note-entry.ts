import { judgedDiseases } from '../../facts/danger/known.ts'
import type { ReportInput } from '../../facts/report.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { openLedger } from '../../ledger/read/open.ts'
import { seasonOf } from '../../ledger/read/seasons.ts'
import { folderOf, stemOf } from '../../ledger/write/entry-file.ts'
import type { PlainEntry } from '../../ledger/write/entry-text.ts'
import { FIRST_YEAR, type IsoDate, LAST_YEAR } from '../../records/date.ts'
import { type SeasonKind, SINGULAR } from '../../records/kinds.ts'
import { safe } from '../../render/safe.ts'
import { type DraftInput, makeDraft, whenOf } from '../../reports/note/draft.ts'
import { missingOf } from '../../reports/note/missing.ts'
import { readWeatherDays } from '../../reports/note/read-weather.ts'
import { type Noted, note, writtenAs } from '../../reports/note/report.ts'
import { Call } from '../plumbing/call.ts'
import { UsageError } from '../plumbing/errors.ts'
import { amendInstead } from './amend-entry.ts'
import { askEntry } from './ask-entry.ts'
import { reportOf, resumed, shown } from './note-shown.ts'
import { lines, offered, openToWrite, print, refusal, writeNew, writtenLines } from './offer.ts'
import { askYes, type Screen, screenOf } from './question.ts'
import { inPairs } from './scouting-answers.ts'
import { BLOCK_BY_BLOCK, complete, missingLines, typedOptions } from './typed-fields.ts'

/**
 * Makes an entry from options and questions, shows it, and writes it.
 * @param after where another entry leads to this one: its open terminal, and the part of the block to spray
 * @returns the exit status
 */
export async function noteEntry(call: Call, kind: SeasonKind, after?: After): Promise<number> {
  const input = openForEntry(call, kind)
  const typed = typedOf(call, kind, input)
  const job = { ...typed, ledger: input.ledger, kind, asOf: input.asOf, part: after?.part }
  const days = weatherDays(call, job)
  const screen = call.mayAsk ? (after?.screen ?? screenOf(call)) : null
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
  { ledger, season, asOf }: ReportInput,
  { entries, jobs, kind, screen }: Made & { kind: SeasonKind; screen: Screen | null },
): Promise<number> {
  const all = entries.map((entry) => judged(call, { kind, input: { ledger, season, asOf }, entry }))
  const readable = all.every((one) => one.readable)
  const resume = resumed(call, jobs)
  const { twin } = all[0]!
  const status = await offered(call, {
    text: shown(call, all),
    data: reportOf(all),
    readable,
    errors: all.flatMap((one) => one.all).filter(({ level }) => level === 'error').length,
    screen,
    refusal: refusal(readable, call) + (screen ? resume : ''),
    ask: 'Write it?',
    declined: `Nothing written. To go on:\n${resume}`,
    async instead() {
      if (!twin || all.length > 1) return null
      const { typed, blocks } = jobs[0]!
      return amendInstead(call, { twin, kind, typed, blocks, screen: screen! })
    },
  })
  if (status !== null) return status
  const files = writeNew(
    call,
    all.map(({ report }, index) => ({
      root: ledger.root,
      folder: folderOf(kind, report.season!),
      stem: stemOf(entries[index]!, ledger),
      text: report.data.text,
    })),
  )
  if (screen) return offerSprays(call, { files, all, ledger, screen })
  const written = all.map((one, index) => writtenAs(one, files[index]!))
  print(call, shown(call, written), reportOf(written))
  return 0
}

/** Options that the next entry takes over from this one. */
const KEPT = ['ledger', 'asOf', 'units', 'color']

/** Names the files written, and asks for each block with a find whether to record its spray now. */
async function offerSprays(
  call: Call,
  written: { files: readonly string[]; all: readonly Noted[]; ledger: Ledger; screen: Screen },
): Promise<number> {
  const { files, all, ledger, screen } = written
  const finds = all.flatMap(({ report }) => report.data.finds ?? []).filter(({ spray }) => spray)
  // `out` prints at the end of a command: before questions, the files are named at once.
  if (finds.length > 0) call.env.err(`${writtenLines(call, files)}\n`)
  else call.env.out(writtenLines(call, files))
  for (const { block, spray } of finds) {
    const name = safe(ledger.blocks.get(block)?.name ?? block)
    const { from, to } = spray?.rows ?? {}
    const rows = from === undefined ? undefined : from === to ? `row ${from}` : `rows ${from}-${to}`
    const ask =
      rows === undefined
        ? `No rows are noted. Record a spray of all of ${name} now?`
        : `Record a spray of ${rows} of ${name} now?`
    if (!(await askYes(ask, screen, 'n'))) continue
    const kept = Object.fromEntries(KEPT.map((key) => [key, call.values[key]]))
    const next = new Call(call.command, ['spray'], { ...kept, block: [block] }, call.env)
    next.paint = call.paint
    await noteEntry(next, 'sprays', { screen, part: rows && `spot ${rows}` })
  }
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

function openForEntry(call: Call, kind: SeasonKind): ReportInput {
  const input = openToWrite(call, { history: ['sprays', kind] })
  const { length } = input.ledger.findings.filter(({ level }) => level === 'error')
  if (length > 0)
    call.env.err(
      `The ledger has ${length === 1 ? 'an error' : `${length} errors`} already, so this entry may not be checked in full: see \`rowbook check\`.\n`,
    )
  return input
}

/** The options typed. @throws UsageError where one belongs to another kind of entry */
function typedOf(call: Call, kind: SeasonKind, { blocks, ledger }: ReportInput) {
  const ids = call.texts('block').length > 0 ? blocks.map((block) => block.id) : []
  const typed = typedOptions(call, kind)
  const word = SINGULAR[kind]
  const isOwn = BLOCK_BY_BLOCK.has(kind) && [...typed.keys()].some((option) => option !== 'date')
  if (ids.length > 1 && (isOwn || (BLOCK_BY_BLOCK.has(kind) && !call.mayAsk)))
    throw new UsageError(
      `a ${word} entry is of one block, since what was counted or measured is`,
      `write one for each; the next can begin with \`rowbook note ${word} --like last --block ${ids[1]}\``,
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

/** The entries of a job: one for each block named, where an entry can hold one block only. */
function entriesIn(job: Job): PlainEntry[] {
  const { kind, blocks } = job
  const entry = complete(makeDraft(job), kind)
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
  if (isWhole || !screen) return { entries: entriesIn(job), jobs: [job] }
  const like = job.like === undefined ? null : first.entry
  let jobs = [job]
  let open = job
  for (;;) {
    const { jobs: answered, left } = await askEntry(open, like, screen)
    const asked = answered.map((answers) => ({ ...open, ...answers }))
    jobs = jobs.toSpliced(jobs.indexOf(open), 1, ...asked)
    if (left) {
      call.env.err(`Nothing written. To go on where you left:\n${resumed(call, jobs)}`)
      return null
    }
    const days = weatherDays(call, jobs[0]!)
    if (days) return { entries: days, jobs }
    const lacking = jobs.find((one) => lackingIn(one).length > 0)
    if (!lacking) return { entries: jobs.flatMap(entriesIn), jobs }
    open = lacking
    const of = jobs.length > 1 ? ` for ${job.ledger.blocks.get(open.blocks[0]!)!.name}` : ''
    call.env.err(lines(call.env, [`Something is still missing${of}: ${missingLines(lackingIn(open))}`]))
  }
}

/** Judges the entry in the season that its date belongs to. */
function judged(
  call: Call,
  about: { kind: SeasonKind; input: Omit<ReportInput, 'blocks'>; entry: PlainEntry },
): Noted {
  const { kind, entry } = about
  const { ledger, asOf, season } = about.input
  const own = seasonOf(ledger.vineyard, entry.date as IsoDate)
  const named = call.number('season', FIRST_YEAR, LAST_YEAR)
  if (named !== undefined && named !== own)
    throw new UsageError(
      `${entry.date} is in season ${own}, not ${named}`,
      'leave --season out, or correct the date',
    )
  const read =
    own === season ? ledger : openLedger(ledger.root, { seasons: [own], history: ['sprays', kind] })
  return note({ ledger: read, kind, season: own, asOf, entry })
}
