import { type SeasonKind, SINGULAR, type StandingKind } from '../../records/kind-names.ts'
import { wrapCommand } from '../../render/text.ts'
import type { Typed } from '../../reports/note/draft.ts'
import type { Call } from '../plumbing/call.ts'

/** What was typed of an entry or of a record. */
interface Said {
  kind: SeasonKind | StandingKind
  typed: Typed
  blocks?: readonly string[]
  like?: string | undefined
}

/** The command lines that hold what was typed so far, so that leaving a question loses nothing. */
export const resumed = (call: Call, all: readonly Said[]): string =>
  all
    .map((said) => noteLine([SINGULAR[said.kind]], said, ofEvery(call)))
    .map((line) => wrapCommand(line, call.env.columns))
    .join('\n')

/** Options of every command that go on with the work. */
export const ofEvery = (call: Call) => ({ ledger: call.text('ledger'), 'as-of': call.text('as-of') })

/**
 * The command line of `note` with what was typed behind its first words.
 * @param common options of every command, by name
 */
export function noteLine(
  first: readonly string[],
  { typed, blocks = [], like }: Omit<Said, 'kind'>,
  common: Readonly<Record<string, string | undefined>>,
): string {
  const options: [string, string | undefined][] = [
    ...Object.entries(common),
    ['like', like],
    ...blocks.map((id): [string, string] => ['block', id]),
    ...[...typed].flatMap(([option, texts]) => texts.map((text): [string, string] => [option, text])),
  ]
  const words = options.flatMap(([option, text]) => (text === undefined ? [] : [`--${option}`, text]))
  return shellLine(['rowbook', 'note', ...first, ...words])
}

/** Words as one line that a POSIX shell takes apart again. */
export const shellLine = (words: readonly string[]): string => words.map(shellWord).join(' ')

/** A word that a POSIX shell reads back as it is. */
function shellWord(text: string): string {
  return /^[\w@%+=:,./-]+$/.test(text) ? text : `'${text.replace(/'/g, `'\\''`)}'`
}
