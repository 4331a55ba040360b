import { judgedDiseases } from '../../facts/danger/known.ts'
import { listed } from '../../facts/sentences.ts'
import { seasonOf } from '../../ledger/read/seasons.ts'
import { placeOf } from '../../ledger/read/source.ts'
import { amendedText } from '../../ledger/write/amended-text.ts'
import type { PlainEntry } from '../../ledger/write/entry-text.ts'
import { amendFile } from '../../ledger/write/kept.ts'
import { dayNumber, type IsoDate } from '../../records/date.ts'
import { type SeasonKind, SINGULAR } from '../../records/kinds.ts'
import { safe } from '../../render/safe.ts'
import { wrapCommand } from '../../render/text.ts'
import { makeDraft, takeOut } from '../../reports/note/draft.ts'
import { wholeEntry } from '../../reports/note/like.ts'
import { missingOf } from '../../reports/note/missing.ts'
import { amend, type Noted } from '../../reports/note/report.ts'
import { renderAmend } from '../../reports/note/terminal.ts'
import type { Twin } from '../../rules/slips/entered-twice.ts'
import type { Call } from '../plumbing/call.ts'
import { UsageError } from '../plumbing/errors.ts'
import { uninterrupted } from '../plumbing/uninterrupted.ts'
import { askChanges } from './ask-changes.ts'
import { type Chosen, chooseEntry } from './choose-entry.ts'
import { noteLine, ofEvery } from './note-shown.ts'
import { offered, print, refusal } from './offer.ts'
import { askYes, type Screen, screenOf } from './question.ts'
import { inPairs } from './scouting-answers.ts'
import { entryOf, type TypedFields, typedOptions } from './typed-fields.ts'

/** Changes an entry in its file, by options or by questions. @returns the exit status */
export async function amendEntry(call: Call): Promise<number> {
  if (call.text('like') !== undefined)
    throw new UsageError('--like begins a new entry, and --amend changes one', 'leave one of them out')
  const chosen = chooseEntry(call, call.text('amend')!)
  const typed = { typed: typedOptions(call, chosen.kind), blocks: namedBlocks(call) }
  const isTyped = typed.typed.size > 0 || typed.blocks.length > 0
  if (!isTyped && !call.mayAsk)
    throw new UsageError(
      'nothing to change was named',
      `name each field with its new value, like --note "second side missed"; --FIELD "" takes it out`,
    )
  if (!call.mayAsk) return judgeAndChange(call, chosen, inWords(typed, chosen), null)
  const screen = screenOf(call)
  try {
    if (isTyped) return await judgeAndChange(call, chosen, inWords(typed, chosen), screen)
    const { changed, left } = await askChanges(chosen, { screen, asOf: call.place().asOf })
    const resume = resumed(call, chosen, changed)
    if (!left) return await judgeAndChange(call, chosen, changed, screen, resume).catch(losingNothing(resume))
    call.env.err(`Nothing changed.\n${resume}`)
    return 1
  } finally {
    screen.input.close()
  }
}

/**
 * Asks whether a new entry is the same as one already recorded, and if so changes that one.
 * @returns the exit status; null where the two are different entries
 */
export async function amendInstead(
  call: Call,
  about: TypedFields & { twin: Twin; kind: SeasonKind; screen: Screen },
): Promise<number | null> {
  const { twin, kind, typed, blocks, screen } = about
  const { file, line } = placeOf(twin.entry.source)
  const noun = SINGULAR[kind]
  const { differs } = twin
  const how = differs.length === 0 ? '' : `, but for ${listed(differs)}`
  if (!(await askYes(`Is this the same ${noun} as in ${safe(file)}${how}?`, screen))) return null
  if (differs.length === 0) {
    call.env.err('Nothing written: it is there already.\n')
    return 0
  }
  const chosen = chooseEntry(call, `${file}:${line}`)
  return judgeAndChange(
    call,
    chosen,
    { typed, blocks: kind === 'sprays' && !differs.includes('blocks') ? [] : blocks },
    screen,
  )
}

/** The command line that makes the changes given so far without asking again; empty where there are none. */
function resumed(call: Call, { old, path }: Chosen, changed: TypedFields): string {
  if (changed.typed.size === 0 && changed.blocks.length === 0) return ''
  const { file, line } = placeOf(old.source)
  const command = noteLine(['--amend', path.length > 0 ? `${file}:${line}` : file], changed, ofEvery(call))
  return `To go on where you left:\n${wrapCommand(command, call.env.columns)}\n`
}

/** Adds the command line that keeps the answers to the error, so that nothing typed is lost. */
const losingNothing = (resume: string) => (error: unknown) => {
  if (!(error instanceof UsageError) || resume === '') throw error
  throw new UsageError(error.message, `${error.help}\n${resume.trimEnd()}`)
}

/** The same fields, with counts of a scouting round that were typed in words turned into pairs. */
function inWords(fields: TypedFields, { kind, ledger, old }: Chosen): TypedFields {
  if (kind !== 'scouting') return fields
  const before = wholeEntry(kind, old).looked_at as PlainEntry
  const looked = Object.entries(before).map(([organ, count]) => `${organ}=${count}`)
  const typed = inPairs(new Map([['looked-at', looked], ...fields.typed]), judgedDiseases(ledger))
  if (!fields.typed.has('looked-at')) typed.delete('looked-at')
  return { ...fields, typed }
}

/** The ids of the blocks that were typed. */
function namedBlocks(call: Call): string[] {
  if (call.texts('block').length === 0) return []
  const { blocks } = call.openAnyway()
  return blocks.map(({ id }) => id)
}

async function judgeAndChange(
  call: Call,
  chosen: Chosen,
  fields: TypedFields,
  screen: Screen | null,
  resume = '',
): Promise<number> {
  const before = chosen.old.source.at.text
  const noted = amended(chosen, fields, call.place().asOf)
  const { all, readable, report } = noted
  const { file, text } = report.data
  if (text === before) {
    call.env.err('Nothing changed: it says so already.\n')
    return 0
  }
  const style = call.style()
  const status = await offered(call, {
    text: renderAmend(noted, { before, kept: null, style }),
    data: report,
    readable,
    errors: all.filter(({ level }) => level === 'error').length,
    screen,
    refusal: refusal(readable, call) + resume,
    ask: 'Change it?',
    declined: `Nothing changed.\n${resume}`,
  })
  if (status !== null) return status
  const kept = uninterrupted(() => amendFile(chosen.ledger.root, { file, before, after: text }))
  const data = { ...report.data, written: true, kept }
  print(call, renderAmend(noted, { before, kept, style }), { ...report, data })
  return 0
}

/** The entry with its changes. @throws UsageError where a value can't be read, or the text can't be changed so */
function amended(chosen: Chosen, { typed, blocks, without = [] }: TypedFields, asOf: IsoDate): Noted {
  const { ledger, kind, season, old, path } = chosen
  const { file, text } = old.source.at
  const base = wholeEntry(kind, old)
  for (const taken of without) takeOut(base, taken)
  const entry = entryOf(makeDraft({ ledger, kind, asOf, typed, blocks, base }))
  const [missing] = missingOf(kind, entry)
  if (missing) throw new UsageError(`this ${SINGULAR[kind]} entry would lack something`, missing.what)
  // The date may be written in another form, `23/06/2026`.
  const date = dayNumber(String(entry.date)) === null ? old.date : (entry.date as IsoDate)
  const now = seasonOf(ledger.vineyard, date)
  if (now !== season)
    throw new UsageError(
      `${entry.date} is in season ${now}, and ${file} in that of ${season}`,
      'write it anew with `rowbook note`, and delete this one',
    )
  const made = amendedText(text, path, entry)
  if (made === null)
    throw new UsageError(
      `${file} is written in a way in which this can't be changed and all else kept as it is`,
      'change it in an editor, then run `rowbook check`',
    )
  return amend({ ledger, kind, season, asOf, entry }, { old, text: made, path })
}
