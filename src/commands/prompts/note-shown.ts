import type { ReportInput } from '../../facts/report.ts'
import { rememberNew } from '../../ledger/write/kept.ts'
import { createFiles } from '../../ledger/write/new-files.ts'
import { type SeasonKind, SINGULAR, type StandingKind } from '../../records/kind-names.ts'
import { safe } from '../../render/safe.ts'
import { wrapAll, wrapCommand } from '../../render/text.ts'
import type { Typed } from '../../reports/note/draft.ts'
import type { Noted } from '../../reports/note/report.ts'
import { renderNote } from '../../reports/note/terminal.ts'
import type { Call, Reads } from '../plumbing/call.ts'
import { BrokenLedger } from '../plumbing/errors.ts'
import { toJson } from '../plumbing/json.ts'
import { uninterrupted } from '../plumbing/uninterrupted.ts'
import { askYes, type Screen } from './question.ts'

/** Opens the ledger to write into it. @throws BrokenLedger where its site can't be read */
export async function openToWrite(call: Call, reads: Reads): Promise<ReportInput> {
  const input = await call.openAnyway(reads)
  const site = input.ledger.findings.filter(
    ({ level, file }) => level === 'error' && file === 'vineyard.yaml',
  )
  if (site.length > 0) throw new BrokenLedger(input, site)
  return input
}

/** What is to be written, and how it is offered. */
interface Offered {
  text: string
  /** The same by the JSON contract. */
  data: object
  /** Whether it can be read back; what can't is never written. */
  readable: boolean
  errors: number
  screen: Screen | null
  /** What was not done, and how to put it right. */
  refusal: string
  ask: string
  /** Printed where the answer is no. */
  declined: string
  /** Asks first whether something else is to be done. @returns its exit status, or null to go on */
  instead?: () => Promise<number | null>
}

/**
 * Shows what is to be written, and asks on a terminal whether to write it.
 * @returns null for yes, else the exit status
 */
export async function offered(call: Call, offer: Offered): Promise<number | null> {
  const { text, readable, screen } = offer
  const refused = !readable || (offer.errors > 0 && !call.flag('anyway'))
  if (refused || call.flag('dry-run')) {
    // On a terminal it is printed before the reason why it was not written.
    if (screen && refused) call.env.err(text)
    else await print(call, text, offer.data)
    if (!refused) return 0
    call.env.err(offer.refusal)
    return readable ? 1 : 2
  }
  if (!screen) return null
  call.env.err(`\n${text}\n`)
  const status = offer.instead ? await offer.instead() : null
  if (status !== null || (await askYes(offer.ask, screen))) return status
  call.env.err(offer.declined)
  return 1
}

export async function print(call: Call, text: string, data: object): Promise<void> {
  call.env.out(call.json ? await toJson(data) : text)
}

/** Writes new files, which `--undo` then knows. @returns their names, relative to the ledger */
export function writeNew(call: Call, files: Parameters<typeof createFiles>[0]): string[] {
  if (!rememberNew(files[0]!.root, files))
    call.env.err('The ledger keeps no note of this entry, so `note --undo` will not know it.\n')
  return uninterrupted(() => createFiles(files))
}

export const writtenLines = (call: Call, files: readonly string[]): string =>
  lines(
    call.env,
    files.map((file) => `Written: ${file}`),
  )

/** Why an entry was not written. */
export const refusal = (readable: boolean, { env }: Call): string =>
  lines(env, [
    readable
      ? 'Nothing written. Correct the entry, or write it with --anyway if it is what happened.'
      : 'Nothing written: the entry could not be read as it stands.',
  ])

export const lines = ({ columns }: Call['env'], all: readonly string[]): string =>
  `${wrapAll(all, columns)}\n`

/** The first entry in full. Further ones are short where they differ by block only, or are days of weather. */
export async function shown(call: Call, all: readonly Noted[]): Promise<string> {
  const style = await call.style()
  const first = renderNote(all[0]!, style)
  if (all.length === 1) return first
  const rest = all.slice(1).map((one, at) => {
    const { file, written, finds, beside, entry } = one.report.data
    const said = `${written ? 'written' : 'not written yet'}: ${safe(file)}`
    const isPlain = one.all.length === 0 && one.readable && !finds && !beside
    if (isPlain && linesOf(one).join() === linesOf(all[0]!).join())
      return `The same on another block: ${said}\n`
    if (isPlain && !('block' in (entry as object)))
      return `Another day: ${said}\n  ${safe(linesOf(one).join(', '))}\n`
    return `${at > 0 ? '\n' : ''}${renderNote(one, style)}`
  })
  return `${first}\n${rest.join('')}`
}

/** The lines of an entry without its block. */
const linesOf = ({ report }: Noted) =>
  report.data.text.split('\n').filter((line) => line !== '' && !/^(?:#|block:)/.test(line))

/** The report of what was noted; of several the first, with all of them under `entries`. */
export function reportOf(all: readonly Noted[]): object {
  const { report } = all[0]!
  if (all.length === 1) return report
  const entries = all.map((one) => ({ file: one.report.data.file, entry: one.report.data.entry }))
  const findings = all.flatMap((one) => one.report.findings)
  return { ...report, data: { ...report.data, entries }, findings }
}

/** What was typed for an entry or a record. */
interface Said {
  kind: SeasonKind | StandingKind
  typed: Typed
  blocks?: readonly string[]
  like?: string | undefined
}

/** Command lines with all that was typed so far, so that leaving loses nothing. */
export const resumed = (call: Call, all: readonly Said[]): string =>
  all
    .map((said) => noteLine([SINGULAR[said.kind]], said, ofEvery(call)))
    .map((line) => `${wrapCommand(line, call.env.columns)}\n`)
    .join('')

/** Options of every command that a printed command line has to repeat. */
export const ofEvery = (call: Call) => ({ ledger: call.text('ledger'), 'as-of': call.text('as-of') })

/**
 * The command line of `note`: its first words, then what was typed.
 * @param common options of every command, by name
 */
export function noteLine(
  first: readonly string[],
  { typed, blocks = [], like }: Omit<Said, 'kind'>,
  common: Readonly<Record<string, string | undefined>>,
): string {
  const options = Object.entries({ ...common, like, block: blocks, ...Object.fromEntries(typed) })
  const words = options.flatMap(([option, texts]) =>
    [texts ?? []].flat().flatMap((text) => [`--${option}`, text]),
  )
  return shellLine(['rowbook', 'note', ...first, ...words])
}

/** Words as one line that a POSIX shell splits into the same words. */
export const shellLine = (words: readonly string[]): string =>
  words.map((text) => (/^[\w@%+=:,./-]+$/.test(text) ? text : `'${text.replace(/'/g, `'\\''`)}'`)).join(' ')
