import { daysBetween, shortDate, spokenDate } from '../../records/date.ts'
import { daysBeforeHarvest } from '../../rules/facts/label.ts'
import { earliestPick } from '../../rules/facts/spray-end.ts'
import { hanging, type TodayFrom, type TodayItem } from './item.ts'

/** A window that opens within so many days is told, and products are set against one within so many. Our own choice. */
const OPENS_SOON = 7
/** Days after a window, or after the days before harvest, from which a missing pick is asked for. Our own choice. */
const UNWRITTEN = 14
const SPRAYS_AHEAD = 60

/** Windows that are open or open soon. */
export function windowItems(from: TodayFrom): TodayItem[] {
  const { asOf, windows, nameOf } = from
  return hanging(from).flatMap(({ id }): TodayItem[] => {
    const window = windows.get(id)
    if (!window?.earliest || !window.likely || !window.latest) return []
    const ahead = daysBetween(asOf, window.earliest)
    if (ahead > OPENS_SOON) return []
    const { earliest, likely, latest, target, legalFrom } = window
    const span = `${shortDate(earliest)} to ${shortDate(latest)}, likely ${shortDate(likely)}`
    const state =
      latest < asOf
        ? `has passed its target of ${target} Brix`
        : ahead <= 0
          ? `reaches ${target} Brix about now`
          : `reaches ${target} Brix soon`
    const open = legalFrom && legalFrom > latest ? legalFrom : latest
    if (daysBetween(open, asOf) > UNWRITTEN)
      return [
        {
          what: 'window',
          block: id,
          blocks: [id],
          urgency: 'soon',
          until: null,
          text: `${nameOf(id)} was to reach ${target} Brix by ${shortDate(latest)}, and no pick is written.`,
          next: `rowbook note pick --block ${id}`,
        },
      ]
    const wait = legalFrom && legalFrom > asOf ? `; not to be picked before ${spokenDate(legalFrom)}` : ''
    return [
      {
        what: 'window',
        block: id,
        blocks: [id],
        urgency: ahead <= 0 ? 'now' : 'soon',
        until: latest,
        text: `${nameOf(id)} ${state} (${span})${wait}.`,
        next: `rowbook ready --block ${id}`,
      },
    ]
  })
}

/** Which products of the book may still be sprayed today so that a block can be picked when its window opens. */
export function lastSprayItems(from: TodayFrom): TodayItem[] {
  const { ledger, asOf, windows, nameOf } = from
  return hanging(from).flatMap(({ id }): TodayItem[] => {
    const earliest = windows.get(id)?.earliest
    if (!earliest || earliest < asOf || daysBetween(asOf, earliest) > SPRAYS_AHEAD) return []
    const products = [...ledger.products.values()].map((product) => ({
      id: product.id,
      days: daysBeforeHarvest(product, undefined),
    }))
    // A spray that ends in the evening is what is reckoned with: the cautious date.
    const inTime = (days: number) => earliestPick({ date: asOf, time: undefined }, days).cautious <= earliest
    const known = products.flatMap(({ id: product, days }) => (days === null ? [] : [{ product, days }]))
    const open = known.filter(({ days }) => inTime(days))
    const closed = known.filter(({ days }) => !inTime(days))
    if (closed.length === 0) return []
    const list = (some: readonly { product: string }[]) => some.map(({ product }) => product).join(', ')
    const unknown = products.filter(({ days }) => days === null).map(({ id: product }) => ({ product }))
    const rest = [
      open.length > 0 ? `still in time: ${list(open)}` : 'nothing in the book is in time',
      ...(unknown.length > 0 ? [`days not known: ${list(unknown)}`] : []),
    ].join('; ')
    return [
      {
        what: 'last-spray',
        block: id,
        blocks: [id],
        urgency: 'plan',
        until: earliest,
        text: `${nameOf(id)}, window from ${shortDate(earliest)}: too late for ${list(closed)}; ${rest}.`,
        next: `rowbook window --block ${id}`,
      },
    ]
  })
}
