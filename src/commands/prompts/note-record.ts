import type { ReportInput } from '../../facts/report.ts'
import { rememberNew } from '../../ledger/write/kept.ts'
import { createFiles } from '../../ledger/write/new-files.ts'
import { SINGULAR, type StandingKind } from '../../records/kinds.ts'
import { findNamed } from '../../records/typed/named.ts'
import { wrap } from '../../render/text.ts'
import { whenOf } from '../../reports/note/draft.ts'
import { missingOfRecord } from '../../reports/note/missing.ts'
import { makeRecord } from '../../reports/note/record-draft.ts'
import { type NewRecord, type NotedRecords, noteRecords } from '../../reports/note/record-report.ts'
import { renderRecords } from '../../reports/note/terminal.ts'
import type { Call } from '../plumbing/call.ts'
import { optionName } from '../plumbing/command.ts'
import { BrokenLedger, UsageError } from '../plumbing/errors.ts'
import { toJson } from '../plumbing/json.ts'
import { RECORD_FIELDS } from '../plumbing/record-options.ts'
import { uninterrupted } from '../plumbing/uninterrupted.ts'
import { usesOf } from './label-questions.ts'
import { resumed } from './note-shown.ts'
import { askAll, type Part, type Screen, screenOf } from './question.ts'
import { idOf, recordQuestionsOf } from './record-questions.ts'
import { complete, typedOptions } from './typed-fields.ts'

type Typed = ReadonlyMap<string, readonly string[]>

/** A record to be made, with what was typed for it. */
export interface RecordJob {
  kind: StandingKind
  typed: Typed
}

/**
 * Makes a new block, variety, product or sprayer from options and questions, shows its file, and writes it.
 * @param opened the terminal, where it is already open
 */
export async function noteRecord(call: Call, kind: StandingKind, opened?: Screen): Promise<number> {
  const input = await call.openAnyway({ kinds: [] })
  const site = input.ledger.findings.filter(
    ({ level, file }) => level === 'error' && file === 'vineyard.yaml',
  )
  if (site.length > 0) throw new BrokenLedger(input, site)
  const typed = typedOf(call, kind)
  const asks = call.mayAsk
  if (!asks) return write(call, input, { jobs: [{ kind, typed }], screen: null })
  const screen = opened ?? screenOf(call)
  try {
    const { jobs, left } = await askRecord(input, { kind, typed }, screen)
    if (!left) return await write(call, input, { jobs, screen })
    call.env.err(`Nothing written. To go on where you left:\n${resumed(call, jobs)}\n`)
    return 1
  } finally {
    if (!opened) screen.input.close()
  }
}

/** Asks for what was not typed. @returns the record, after the variety where a block names a new one. */
async function askRecord(
  { ledger, asOf }: Pick<ReportInput, 'ledger' | 'asOf'>,
  { kind, typed }: RecordJob,
  screen: Screen,
): Promise<{ jobs: RecordJob[]; left: boolean }> {
  const asking = { ledger, asOf, kind, typed }
  const questionsOf = (answers: Parameters<typeof recordQuestionsOf>[1]) => recordQuestionsOf(asking, answers)
  const { answers, left } = await askAll(questionsOf, screen)
  const parts = questionsOf(answers).flatMap(({ key }) => answers.get(key) ?? [])
  return { jobs: jobsOf({ kind, typed }, parts), left }
}

/** The answers as options of the record, and of the new variety where one was named, which comes first. */
export function jobsOf({ kind, typed }: RecordJob, parts: readonly Part[]): RecordJob[] {
  const all = new Map(typed)
  const variety = new Map<string, readonly string[]>()
  const own = ownFields(kind)
  for (const { option, text } of [...parts, ...usesOf(parts)]) {
    if (option === 'new-colour') variety.set('colour', [text])
    else if (option === 'new-variety') {
      variety.set('name', [text])
      all.set('variety', [idOf(text) ?? text])
    } else if (own.has(option)) all.set(option, [...(all.get(option) ?? []), text])
  }
  const job = { kind, typed: all }
  return variety.size === 0 ? [job] : [{ kind: 'varieties', typed: variety }, job]
}

const ownFields = (kind: StandingKind): ReadonlySet<string> =>
  new Set(RECORD_FIELDS.filter(({ of }) => of?.includes(SINGULAR[kind])).map(optionName))

/** The options typed. @throws UsageError where one belongs to another kind of record */
function typedOf(call: Call, kind: StandingKind): Typed {
  const word = SINGULAR[kind]
  const own = ownFields(kind)
  const help = `see \`rowbook help note ${word}\``
  const typed = typedOptions(call, (option) => own.has(option), { what: word, help })
  for (const option of ['block', 'like', 'day'])
    if (call.texts(option).length > 0)
      throw new UsageError(
        `--${option} is no field of a ${word}`,
        option === 'block' ? 'write --name NAME' : 'leave it out',
      )
  return typed
}

async function write(
  call: Call,
  input: ReportInput,
  { jobs, screen }: { jobs: readonly RecordJob[]; screen: Screen | null },
): Promise<number> {
  const records = jobs.map((job) => recordOf(job, input))
  const noted = noteRecords(input, records)
  const isSound = noted.readable && (noted.errors === 0 || call.flag('anyway'))
  if (!isSound || call.flag('dry-run')) {
    await show(call, noted)
    if (isSound) return 0
    const resume = screen ? `${resumed(call, jobs)}\n` : ''
    call.env.err(`Nothing written. Correct it and run it again.\n${resume}`)
    return noted.readable ? 1 : 2
  }
  if (screen) {
    call.env.err(`\n${renderRecords(noted, await call.style())}\n`)
    const { askYes } = await import('./question.ts')
    if (!(await askYes('Write it?', screen))) {
      call.env.err(`Nothing written. To go on:\n${resumed(call, jobs)}\n`)
      return 1
    }
  }
  const { root } = input.ledger
  const wanted = noted.records.map(({ kind, id, text }) => ({
    root,
    folder: kind,
    stem: id,
    text,
    only: true,
  }))
  rememberNew(root, wanted)
  const files = uninterrupted(() => createFiles(wanted))
  if (screen) call.env.out(files.map((file) => `${wrap(`Written: ${file}`, call.env.columns)}\n`).join(''))
  else await show(call, { ...noted, written: true })
  return 0
}

async function show(call: Call, noted: NotedRecords): Promise<void> {
  call.env.out(
    call.json ? await toJson(noted.report(noted.written)) : renderRecords(noted, await call.style()),
  )
}

/** Makes the record from what was typed. @throws UsageError where something can't be read or is missing. */
export function recordOf({ kind, typed }: RecordJob, input: Pick<ReportInput, 'ledger' | 'asOf'>): NewRecord {
  const word = SINGULAR[kind]
  const { ledger } = input
  const draft = makeRecord(kind, withVariety(typed, input), whenOf(input))
  const entry = complete(draft, word, (made) => missingOfRecord(kind, made))
  const id = idOf(String(entry.name))
  if (id === null)
    throw new UsageError('the name has no letter to make a file name of', 'write it with --name NAME')
  if (ledger[kind].has(id))
    throw new UsageError(
      `there is a ${word} \`${id}\` already`,
      `choose another name, or edit ${kind}/${id}.yaml`,
    )
  return { kind, id, entry }
}

/** The same with the id of the variety: the only one that the name or part of a name fits, else an id made from the name. */
function withVariety(typed: Typed, { ledger }: Pick<ReportInput, 'ledger'>): Typed {
  const said = typed.get('variety')?.at(-1)
  if (said === undefined) return typed
  const id = findNamed(said, ledger.varieties.values()).found?.id ?? idOf(said) ?? said
  return new Map(typed).set('variety', [id])
}
