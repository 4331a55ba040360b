import { inLedgerUnits } from '../../facts/ledger-units.ts'
import { listed } from '../../facts/sentences.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { clockText } from '../../records/typed/time-range.ts'
import { rough, roughNumber } from '../../render/figure.ts'
import type { Style } from '../../render/style.ts'
import { counted, sentences } from '../../render/text.ts'
import { isToPick } from './picked.ts'
import type { HarvestData } from './report.ts'
import { vesselOf } from './settings.ts'

type Names = ReadonlyMap<string, string>

/** The day of picking, what to have ready, and the total where a block is missing from it, a sentence each. */
export function dayLines(data: HarvestData, names: Names, style: Style): string[] {
  const { known } = data.totals
  const vessel = vesselOf(data.settings)
  const nameOf = (id: string) => names.get(id) ?? id
  return sentences(
    known &&
      `Total without ${listed(known.without.map(nameOf))}: ${rough(known.crop, style.units)}, ${counted(known[`${vessel}s`]!, vessel)}, ${roughNumber(known.personHours)} person-hours.`,
    bucketLine(data, style),
    steps(data, nameOf),
  )
}

function bucketLine({ settings: { bucket }, blocks }: HarvestData, { units }: Style): string | false {
  const weight = units === 'metric' ? '9 kg' : '20 lb'
  if (!bucket)
    return `Buckets unknown. Weigh a full one, and add --bucket "${weight}", or write \`harvest: { bucket: ${weight} }\` into vineyard.yaml.`
  const left = blocks.filter(isToPick).flatMap(({ buckets }) => buckets ?? [])
  const all = left.reduce((sum, buckets) => sum + buckets, 0)
  return (
    left.length > 0 &&
    `${counted(all, 'bucket')} to fill, ${inLedgerUnits(`${bucket.value} kg`, units)} each (${bucket.source}).`
  )
}

function steps({ day, blocks }: HarvestData, nameOf: (id: string) => string): string[] {
  if (!day) return blocks.some(isToPick) ? ['No picking day known: add one with --date.'] : []
  const left = day.left.map(({ block, why }) => `Not on ${spokenDate(day.date)}: ${nameOf(block)} (${why}).`)
  if (day.steps.length === 0) return left
  const people = counted(day.people, 'person', 'people')
  const hours = day.steps.map(
    ({ block, date, from, to }) =>
      `${date === day.date ? '' : `${spokenDate(date)} `}${clockText(from)} to ${clockText(to)} ${nameOf(block)}`,
  )
  const proposed = sentences(
    'No breaks are counted.',
    day.basis.start === 'default' && '08:00 is common practice, no source: change it with --start.',
    day.basis.people === 'default' && `${people} can finish in a day: change it with --people.`,
    'Run `rowbook ready` before you call anybody.',
  )
  return [
    `${spokenDate(day.date)}, ${people}: ${hours.join('; ')}. ${proposed.join(' ')}`,
    `Have ready: ${day.buckets} buckets and ${day.clippers} clippers (2 buckets a picker, 1 spare clipper for 5 pickers: common practice, no source).`,
    ...day.early.map(({ block, likely }) => {
      const when = likely
        ? `${nameOf(block)} is likely ripe only on ${spokenDate(likely)}`
        : `No likely day is known for ${nameOf(block)}`
      return `${when}: sample it first, or leave it out with --block.`
    }),
    ...left,
  ]
}
