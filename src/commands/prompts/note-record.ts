import type { ReportInput } from '../../facts/report.ts'
import { SINGULAR, type StandingKind } from '../../records/kinds.ts'
import { findNamed } from '../../records/typed/named.ts'
import { makeRecord, type Typed } from '../../reports/note/draft.ts'
import { type NewRecord, noteRecords, writtenRecords } from '../../reports/note/record-report.ts'
import { renderRecords } from '../../reports/note/terminal.ts'
import type { Call } from '../plumbing/call.ts'
import { UsageError } from '../plumbing/errors.ts'
import { usesOf } from './label-questions.ts'
import { resumed } from './note-shown.ts'
import { offered, openToWrite, print, writeNew, writtenLines } from './offer.ts'
import { type Answers, askAll, type Part, type Screen, screenOf } from './question.ts'
import { idOf, recordQuestionsOf } from './record-questions.ts'
import { complete, optionsOf, typedOptions, withParts } from './typed-fields.ts'

/** A record to be made, with what was typed for it. */
export interface RecordJob {
  kind: StandingKind
  typed: Typed
}

type Input = Pick<ReportInput, 'ledger' | 'asOf'>

/**
 * Makes a new block, variety, product or sprayer from options and questions, shows its file, and writes it.
 * @param opened the terminal, where it is already open
 */
export async function noteRecord(call: Call, kind: StandingKind, opened?: Screen): Promise<number> {
  const input = openToWrite(call, { kinds: [] })
  const job = { kind, typed: typedOf(call, kind) }
  if (!call.mayAsk) return write(call, input, { jobs: [job], screen: null })
  const screen = opened ?? screenOf(call)
  try {
    const questionsOf = (answers: Answers) => recordQuestionsOf({ ...job, ...input }, answers)
    const { answers, left } = await askAll(questionsOf, screen)
    const parts = questionsOf(answers).flatMap(({ key }) => answers.get(key) ?? [])
    const jobs = jobsOf(job, parts)
    if (!left) return await write(call, input, { jobs, screen })
    call.env.err(`Nothing written. To go on where you left:\n${resumed(call, jobs)}`)
    return 1
  } finally {
    if (!opened) screen.input.close()
  }
}

/** The answers as options of the record, and of the new variety where one was named, which comes first. */
export function jobsOf({ kind, typed }: RecordJob, parts: readonly Part[]): RecordJob[] {
  const own = optionsOf(kind)
  const said = [...parts, ...usesOf(parts)].map((part) =>
    part.option === 'new-variety' ? { option: 'variety', text: idOf(part.text) ?? part.text } : part,
  )
  const all = withParts(
    typed,
    said.filter(({ option }) => own.has(option)),
  )
  const ofVariety = parts.flatMap(({ option, text }) =>
    option === 'new-variety' || option === 'new-colour'
      ? [{ option: option === 'new-variety' ? 'name' : 'colour', text }]
      : [],
  )
  const job = { kind, typed: all }
  return ofVariety.length === 0 ? [job] : [{ kind: 'varieties', typed: withParts(new Map(), ofVariety) }, job]
}

/** The options typed. @throws UsageError where one belongs to another kind of record */
function typedOf(call: Call, kind: StandingKind): Typed {
  const typed = typedOptions(call, kind)
  for (const option of ['block', 'like', 'day'])
    if (call.texts(option).length > 0)
      throw new UsageError(
        `--${option} is no field of a ${SINGULAR[kind]}`,
        option === 'block' ? 'write --name NAME' : 'leave it out',
      )
  return typed
}

async function write(
  call: Call,
  input: ReportInput,
  { jobs, screen }: { jobs: readonly RecordJob[]; screen: Screen | null },
): Promise<number> {
  const noted = noteRecords(
    input,
    jobs.map((job) => recordOf(job, input)),
  )
  const resume = resumed(call, jobs)
  const style = call.style()
  const status = await offered(call, {
    text: renderRecords(noted, style),
    data: noted.report,
    readable: noted.readable,
    errors: noted.errors,
    screen,
    refusal: `Nothing written. Correct it and run it again.\n${screen ? resume : ''}`,
    ask: 'Write it?',
    declined: `Nothing written. To go on:\n${resume}`,
  })
  if (status !== null) return status
  const { root } = input.ledger
  const files = writeNew(
    call,
    noted.records.map(({ kind, id, text }) => ({ root, folder: kind, stem: id, text, only: true })),
  )
  if (screen) call.env.out(writtenLines(call, files))
  else {
    const written = writtenRecords(noted)
    print(call, renderRecords(written, style), written.report)
  }
  return 0
}

/** Makes the record from what was typed. @throws UsageError where something can't be read or is missing. */
export function recordOf({ kind, typed }: RecordJob, input: Input): NewRecord {
  const entry = complete(makeRecord({ ...input, kind, typed: withVariety(typed, input) }), kind)
  const id = idOf(String(entry.name))
  if (id === null)
    throw new UsageError('the name has no letter to make a file name of', 'write it with --name NAME')
  if (input.ledger[kind].has(id))
    throw new UsageError(
      `there is a ${SINGULAR[kind]} \`${id}\` already`,
      `choose another name, or edit ${kind}/${id}.yaml`,
    )
  return { kind, id, entry }
}

/** The same with the id of the variety: the only one that the name or part of a name fits, else an id made from the name. */
function withVariety(typed: Typed, { ledger }: Input): Typed {
  const said = typed.get('variety')?.at(-1)
  if (said === undefined) return typed
  const id = findNamed(said, ledger.varieties.values()).found?.id ?? idOf(said) ?? said
  return new Map(typed).set('variety', [id])
}
