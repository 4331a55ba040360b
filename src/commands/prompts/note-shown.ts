import { type SeasonKind, SINGULAR, type StandingKind } from '../../records/kind-names.ts'
import { safe } from '../../render/safe.ts'
import { wrapCommand } from '../../render/text.ts'
import type { Typed } from '../../reports/note/draft.ts'
import type { Noted } from '../../reports/note/report.ts'
import { renderNote } from '../../reports/note/terminal.ts'
import type { Call } from '../plumbing/call.ts'

/** The first entry in full. Further ones are short where they differ by block only, or are days of weather. */
export function shown(call: Call, all: readonly Noted[]): string {
  const style = call.style()
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
