import { safe } from '../../render/safe.ts'
import { wrap } from '../../render/text.ts'
import type { Noted } from '../../reports/note/report.ts'
import { renderNote } from '../../reports/note/terminal.ts'
import type { Call } from '../plumbing/call.ts'
import { toJson } from '../plumbing/json.ts'

/** The first entry in full; of the others those that are the same on another block, and days of weather, in short. */
export async function shown(call: Call, all: readonly Noted[]): Promise<string> {
  const style = await call.style()
  const first = renderNote(all[0]!, style)
  if (all.length === 1) return first
  const rest = all.slice(1).map((one, at) => {
    const whole = () => `${at > 0 ? '\n' : ''}${renderNote(one, style)}`
    const { file, written, finds, beside } = one.report.data
    const said = `${written ? 'written' : 'not written yet'}: ${safe(file)}`
    if (one.all.length > 0 || !one.readable || finds || beside) return whole()
    if (sayings(one).join() === sayings(all[0]!).join()) return `The same on another block: ${said}\n`
    if ('block' in (one.report.data.entry as object)) return whole()
    return `Another day: ${said}\n  ${safe(sayings(one).join(', '))}\n`
  })
  return `${first}\n${rest.join('')}`
}

/** The lines of an entry without the block that it is of. */
const sayings = ({ report }: Noted) =>
  report.data.text.split('\n').filter((line) => line !== '' && !/^(?:#|block:)/.test(line))

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
