import { inLedgerUnits } from '../../facts/ledger-units.ts'
import { listed } from '../../facts/sentences.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { clockText } from '../../records/typed/time-range.ts'
import { rough, roughNumber } from '../../render/figure.ts'
import type { Style } from '../../render/style.ts'
import { counted } from '../../render/text.ts'
import type { HarvestData } from './report.ts'
import { vesselOf } from './settings.ts'

type Names = ReadonlyMap<string, string>

/** The day of picking, what to have ready, and the total where a block is missing from it, a sentence each. */
export function dayLines(data: HarvestData, names: Names, style: Style): string[] {
  return [...knownLine(data, names, style), ...bucketLine(data, style), ...steps(data, names)]
}

function knownLine({ totals: { known }, settings }: HarvestData, names: Names, { units }: Style): string[] {
  if (!known) return []
  const without = listed(known.without.map((id) => names.get(id) ?? id))
  const vessel = vesselOf(settings)
  return [
    `Total without ${without}: ${rough(known.crop, units)}, ${counted(known[`${vessel}s`]!, vessel)}, ${roughNumber(known.personHours)} person-hours.`,
  ]
}

function bucketLine({ settings, blocks }: HarvestData, { units }: Style): string[] {
  const weight = units === 'metric' ? '9 kg' : '20 lb'
  if (!settings.bucket)
    return [
      `Buckets unknown. Weigh a full one, and add --bucket "${weight}", or write \`harvest: { bucket: ${weight} }\` into vineyard.yaml.`,
    ]
  const left = blocks.filter(({ picked, buckets }) => picked === null && buckets !== null)
  if (left.length === 0) return []
  const all = left.reduce((sum, { buckets }) => sum + buckets!, 0)
  return [
    `${counted(all, 'bucket')} to fill, ${inLedgerUnits(`${settings.bucket.value} kg`, units)} each (${settings.bucket.source}).`,
  ]
}

function steps({ day, blocks }: HarvestData, names: Names): string[] {
  if (!day)
    return blocks.some(({ picked }) => picked === null) ? ['No picking day known: add one with --date.'] : []
  const nameOf = (id: string) => names.get(id) ?? id
  const early = day.early.map(({ block, likely }) =>
    likely === null
      ? `No likely day is known for ${nameOf(block)}: sample it first, or leave it out with --block.`
      : `${nameOf(block)} is likely ripe only on ${spokenDate(likely)}: sample it first, or leave it out with --block.`,
  )
  const left = day.left.map(({ block, why }) => `Not on ${spokenDate(day.date)}: ${nameOf(block)} (${why}).`)
  if (day.steps.length === 0) return left
  const line = day.steps.map(
    ({ block, date, from, to }) =>
      `${date === day.date ? '' : `${spokenDate(date)} `}${clockText(from)} to ${clockText(to)} ${nameOf(block)}`,
  )
  const start =
    day.basis.start === 'default' ? ' 08:00 is common practice, no source: change it with --start.' : ''
  const people =
    day.basis.people === 'default'
      ? ` ${counted(day.people, 'person', 'people')} can finish in a day: change it with --people.`
      : ''
  return [
    `${spokenDate(day.date)}, ${counted(day.people, 'person', 'people')}: ${line.join('; ')}. No breaks are counted.${start}${people} Run \`rowbook ready\` before you call anybody.`,
    `Have ready: ${day.buckets} buckets and ${day.clippers} clippers (2 buckets a picker, 1 spare clipper for 5 pickers: common practice, no source).`,
    ...early,
    ...left,
  ]
}
