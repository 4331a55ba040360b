import { spokenDate } from '../../records/spoken-date.ts'
import { clockText } from '../../records/time-range.ts'
import { rough, roughNumber } from '../../render/figure.ts'
import type { Style } from '../../render/style.ts'
import { counted, groupDigits, listed } from '../../render/text.ts'
import type { HarvestData } from './report.ts'

type Names = ReadonlyMap<string, string>

/** The day of picking, what to have ready, and the total where a block is missing from it, a sentence each. */
export function dayLines(data: HarvestData, names: Names, style: Style): string[] {
  return [...knownLine(data, names, style), ...bucketLine(data), ...steps(data, names)]
}

function knownLine({ totals: { known } }: HarvestData, names: Names, { units }: Style): string[] {
  if (!known) return []
  const without = listed(known.without.map((id) => names.get(id) ?? id))
  return [
    `Total without ${without}: ${rough(known.crop, units)}, ${groupDigits(known.crates)} crates, ${roughNumber(known.personHours)} person-hours.`,
  ]
}

function bucketLine({ settings, blocks, totals }: HarvestData): string[] {
  if (!settings.bucket)
    return [
      'Buckets unknown: weigh a full one, and write `harvest: { bucket: 9 kg }` into vineyard.yaml or --bucket "9 kg".',
    ]
  const all = totals.buckets ?? totals.known?.buckets ?? (blocks.length === 1 ? blocks[0]!.buckets : null)
  return all === null
    ? []
    : [`${groupDigits(all)} buckets filled of ${settings.bucket.value} kg each (${settings.bucket.source}).`]
}

function steps({ day, blocks }: HarvestData, names: Names): string[] {
  if (!day)
    return blocks.some(({ picked }) => picked === null)
      ? ['No day of picking known: name it with --date.']
      : []
  const nameOf = (id: string) => names.get(id) ?? id
  const left = day.left.map(({ block, why }) => `Not on ${spokenDate(day.date)}: ${nameOf(block)} (${why}).`)
  if (day.steps.length === 0) return left
  const line = day.steps.map(
    ({ block, date, from, to }) =>
      `${date === day.date ? '' : `${spokenDate(date)} `}${clockText(from)} to ${clockText(to)} ${nameOf(block)}`,
  )
  const start = day.basis.start === 'default' ? '; start by common practice, no source: --start' : ''
  const people = day.basis.people === 'default' ? `; ${day.people} would do it in a day: --people` : ''
  return [
    `${spokenDate(day.date)}, ${counted(day.people, 'person', 'people')}: ${line.join(', ')} (no breaks counted${start}${people}). Look at \`rowbook ready\` before you call anybody.`,
    `Have ready: ${day.buckets} buckets and ${day.clippers} clippers (two buckets a picker, a spare clipper for five: common practice, no source).`,
    ...left,
  ]
}
