import type { ReportInput } from '../../facts/report.ts'
import { rememberNew } from '../../ledger/write/kept.ts'
import { createFiles } from '../../ledger/write/new-files.ts'
import { wrapAll } from '../../render/text.ts'
import type { Call, Reads } from '../plumbing/call.ts'
import { BrokenLedger } from '../plumbing/errors.ts'
import { toJson } from '../plumbing/json.ts'
import { uninterrupted } from '../plumbing/uninterrupted.ts'
import { askYes, type Screen } from './question.ts'

/** Opens the ledger to write into it. @throws BrokenLedger where its site can't be read */
export function openToWrite(call: Call, reads: Reads): ReportInput {
  const input = call.openAnyway(reads)
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
    else print(call, text, offer.data)
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

/** Prints a text, or with `--json` its data. */
export function print(call: Call, text: string, data: object): void {
  call.env.out(call.json ? toJson(data) : text)
}

/** Writes new files, which `--undo` then knows. @returns their names, relative to the ledger */
export function writeNew(call: Call, files: Parameters<typeof createFiles>[0]): string[] {
  if (!rememberNew(files[0]!.root, files))
    call.env.err('The ledger keeps no note of this entry, so `note --undo` will not know it.\n')
  return uninterrupted(() => createFiles(files))
}

/** The names of the files that were written. */
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

/** Texts on lines of their own, wrapped to the screen. */
export const lines = ({ columns }: Call['env'], all: readonly string[]): string =>
  `${wrapAll(all, columns)}\n`
