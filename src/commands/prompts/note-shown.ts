import { wrap } from '../../render/text.ts'
import type { Noted } from '../../reports/note/report.ts'
import { renderNote } from '../../reports/note/terminal.ts'
import type { Call } from '../plumbing/call.ts'
import { toJson } from '../plumbing/json.ts'

/** The first entry in full, the others by what differs: their file, and what they would cause. */
export async function shown(call: Call, all: readonly Noted[]): Promise<string> {
  const style = await call.style()
  const first = renderNote(all[0]!, style)
  if (all.length === 1) return first
  const rest = all.slice(1).map((one) => {
    const { file, written } = one.report.data
    return one.all.length === 0 && one.readable
      ? `${'block' in (one.report.data.entry as object) ? 'The same on another block' : 'Another day'}: ${written ? 'written' : 'not written yet'}: ${file}\n`
      : `\n${renderNote(one, style)}`
  })
  return `${first}\n${rest.join('')}`
}

/** Prints what was noted; as JSON the first entry, with all of them under `entries` where there are several. */
export async function show(call: Call, all: readonly Noted[]): Promise<void> {
  if (!call.json) return call.env.out(await shown(call, all))
  const { report } = all[0]!
  if (all.length === 1) return call.env.out(await toJson(report))
  const entries = all.map((one) => ({ file: one.report.data.file, entry: one.report.data.entry }))
  const findings = all.flatMap((one) => one.report.findings)
  call.env.out(await toJson({ ...report, data: { ...report.data, entries }, findings }))
}

/** Why nothing was written, and the line that goes on from there. */
export function refusal(
  readable: boolean,
  { resume, columns }: { resume: string | null; columns: number },
): string {
  const way = readable
    ? 'Nothing written. Correct the entry, or write it with --anyway if it is what happened.'
    : 'Nothing written: the entry could not be read as it stands.'
  return `${wrap(way, columns)}\n${resume === null ? '' : `${resume}\n`}`
}
