import { lastSprays, sayLastSprays } from '../../facts/window/last-sprays.ts'
import { sayWindow } from '../../facts/window/say.ts'
import { daysBetween } from '../../records/date.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import { hanging, type TodayDraft, type TodayFrom } from './item.ts'

/** A window that opens within so many days is told. Our own choice. */
const OPENS_SOON = 7
/** Days after a window, or after the days before harvest, from which a missing pick is asked for. Our own choice. */
const UNWRITTEN = 14

/** Windows that are open or open soon. */
export function windowItems(from: TodayFrom): TodayDraft[] {
  const { asOf, windows, nameOf } = from
  return hanging(from).flatMap(({ id }): TodayDraft[] => {
    const window = windows.get(id)
    if (!window?.earliest || !window.likely) return []
    const ahead = daysBetween(asOf, window.earliest)
    if (ahead > OPENS_SOON) return []
    const { likely, latest, target, legalFrom } = window
    const isOver = latest !== null && latest < asOf
    const open = legalFrom && latest && legalFrom > latest ? legalFrom : latest
    if (open !== null && isOver && daysBetween(open, asOf) > UNWRITTEN)
      return [
        {
          what: 'window',
          block: id,
          blocks: [id],
          urgency: 'soon',
          until: null,
          text: `${nameOf(id)} very likely reached ${target} Brix by ${shortDate(latest)}. No pick recorded.`,
          short: `${nameOf(id)}: ${target} Brix by ${shortDate(latest)}. No pick recorded.`,
          next: `rowbook note pick --block ${id}`,
        },
      ]
    const about = isOver
      ? `${target} Brix by ${shortDate(latest)}`
      : `${target} Brix ${ahead <= 0 ? 'any day' : 'soon'}, likely ${shortDate(likely)}`
    const wait = legalFrom && legalFrom > asOf ? `; not to be picked before ${spokenDate(legalFrom)}` : ''
    return [
      {
        what: 'window',
        block: id,
        blocks: [id],
        urgency: ahead <= 0 ? 'now' : 'soon',
        until: latest,
        text: `${nameOf(id)} ${sayWindow(window)}${wait}.`,
        short: `${nameOf(id)}: ${about}${wait && `; no picking before ${spokenDate(legalFrom!)}`}.`,
        next: `rowbook ready --block ${id}`,
      },
    ]
  })
}

/** What may still be sprayed today so that a block can be picked when its window opens, where something may not. */
export function lastSprayItems(from: TodayFrom): TodayDraft[] {
  const { windows, nameOf } = from
  return hanging(from).flatMap(({ id }): TodayDraft[] => {
    const earliest = windows.get(id)?.earliest
    const sprays = lastSprays(earliest, from)
    if (!earliest || !sprays || sprays.tooLate.length === 0) return []
    const { tooLate, inTime, unknown } = sprays
    const open = `${nameOf(id)}, window from ${shortDate(earliest)}`
    const counts = [
      `${tooLate.length} product${tooLate.length === 1 ? '' : 's'} too late`,
      `${inTime.length} in time`,
      ...(unknown.length > 0 ? [`${unknown.length} not known`] : []),
    ]
    return [
      {
        what: 'last-spray',
        block: id,
        blocks: [id],
        urgency: 'plan',
        until: earliest,
        text: `${open}: ${sayLastSprays(sprays)}.`,
        short: `${open}: ${counts.join(', ')}.`,
        next: `rowbook window --block ${id}`,
      },
    ]
  })
}
