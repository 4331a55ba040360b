import { inPartText, shareHanging } from '../../facts/hanging.ts'
import { productNames } from '../../facts/names.ts'
import type { Asked } from '../../facts/picking/gate.ts'
import { ADVICE, pickAdvice, rainInWeek, saysNow } from '../../facts/picking/rot.ts'
import { beforeHarvestGate, reEntryGate } from '../../facts/picking/waits.ts'
import { listed, upperFirst } from '../../facts/sentences.ts'
import { legalFrom as legalOf, spraysOf } from '../../facts/spraying/legal-from.ts'
import type { BlockWindow } from '../../facts/window/block-window.ts'
import { lastSprays } from '../../facts/window/last-sprays.ts'
import { laterText, ripeDay, windowText } from '../../facts/window/sentences.ts'
import { addDays, daysBetween, type IsoDate } from '../../records/date.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import { nameOf, type TodayDraft, type TodayFrom } from './item.ts'

/** A window that opens within so many days is reported. Our own choice. */
const OPENS_SOON = 7
/** Days after a window, or after the pre-harvest intervals, from which a missing pick is asked for. Our own choice. */
const UNWRITTEN = 14

/** Windows that are open or open soon, by the day on which each block can be picked. */
export function windowItems(from: TodayFrom): TodayDraft[] {
  const { asOf, windows } = from
  const turnOf = ({ id }: { id: string }) => {
    const window = windows.get(id)!
    return [window.legalFrom ?? '', ripeDay(window) ?? ''].sort()[1]!
  }
  const turns = from.hanging.toSorted((a, b) => (turnOf(a) < turnOf(b) ? -1 : turnOf(a) > turnOf(b) ? 1 : 0))
  return turns.flatMap((block): TodayDraft[] => {
    const { id } = block
    const window = windows.get(id)
    if (!window?.earliest || !window.likely) return []
    const ahead = daysBetween(asOf, window.earliest)
    const advice = adviceOn(from, { block, window })
    if (ahead > OPENS_SOON && !advice) return []
    const { likely, latest, target, legalFrom, overLabel } = window
    const isOver = latest !== null && latest < asOf
    const open = legalFrom && latest && legalFrom > latest ? legalFrom : latest
    const inPart = inPartText(from.ledger, { ...from, block: id })
    const rest =
      inPart && `${Math.round(100 * shareHanging(from.ledger, { ...from, block: id }))} % still to pick.`
    if (open !== null && isOver && daysBetween(open, asOf) > UNWRITTEN)
      return [
        {
          what: 'window',
          blocks: [id],
          urgency: 'soon',
          text: `${nameOf(from, id)} very likely reached ${target} Brix by ${shortDate(latest)}. ${inPart ?? 'No pick recorded.'}`,
          short: `${nameOf(from, id)}: ${target} Brix by ${shortDate(latest)}. ${rest ?? 'No pick recorded.'}`,
          next: `rowbook note pick --block ${id}`,
        },
      ]
    const about = isOver
      ? `${target} Brix by ${shortDate(latest)}`
      : `${target} Brix ${ahead <= 0 ? 'any day' : 'soon'}, likely ${shortDate(likely)}`
    const later = laterText(window)
    const { unknown } = legalOf(from.ledger, spraysOf(from.ledger, { ...from, block: id }))
    const doubt = overLabel
      ? '; over the label, ask before picking'
      : unknown.length > 0
        ? `; no pre-harvest interval (PHI) recorded for ${productNames(from.ledger, unknown)}, read the label before picking`
        : ''
    const wait =
      doubt || (legalFrom && legalFrom > asOf ? `; not to be picked before ${spokenDate(legalFrom)}` : '')
    const rot = (count: number | undefined) =>
      advice ? ` ${upperFirst(ADVICE[advice.what])}: ${advice.reasons.slice(0, count).join('; ')}.` : ''
    return [
      {
        what: 'window',
        blocks: [id],
        urgency: saysNow(advice) || (ahead <= 0 && !wait && !later) ? 'now' : 'soon',
        until: latest,
        text: `${nameOf(from, id)} ${windowText(window)}${wait}.${rot(advice?.reasons.length)}${inPart ? ` ${inPart}` : ''}`,
        short: `${nameOf(from, id)}: ${about}${later ? `; ${later}` : ''}${doubt || (wait && `; no picking before ${spokenDate(legalFrom!)}`)}.${rot(1)}${rest ? ` ${rest}` : ''}`,
        reasons: advice?.reasons ?? [],
        next: `rowbook ready --block ${id}`,
      },
    ]
  })
}

/** The advice of `ready` to pick for the rot on the bunches; null where none, or where the block may not be picked or entered today. */
function adviceOn(from: TodayFrom, { block, window }: { block: Asked['block']; window: BlockWindow }) {
  const { asOf, ledger, forecast } = from
  const asked = { ...from, block }
  const sprays = spraysOf(ledger, { ...from, block: block.id })
  const gates = [beforeHarvestGate(asked, legalOf(ledger, sprays)), reEntryGate(asked, sprays)]
  return pickAdvice(asked, { gates, rain: rainInWeek(asOf, forecast?.rain), likely: window.likely })
}

/** Days ahead in which the last day of a product is reported. Our own choice. */
const LAST_DAYS = 7

/** The last day of each product that may be sprayed today, and soon no more, if a block is to be picked when its window opens. */
export function lastSprayItems(from: TodayFrom): TodayDraft[] {
  return from.hanging.flatMap(({ id }): TodayDraft[] => {
    const earliest = from.windows.get(id)?.earliest
    const ends = lastDays(from, earliest)
    if (!earliest || ends.length === 0) return []
    const open = `${nameOf(from, id)}, window from ${shortDate(earliest)}`
    const days = [...new Set(ends.map(({ last }) => last))]
    const said = days.map((day) => {
      const products = ends
        .filter(({ last }) => last === day)
        .map(({ product }) => from.ledger.products.get(product)?.name ?? product)
      return `${day === from.asOf ? 'today' : spokenDate(day)} for ${listed(products)}`
    })
    return [
      {
        what: 'last-spray',
        blocks: [id],
        urgency: 'plan',
        until: ends[0]!.last,
        text: `${open}: last day by pre-harvest interval (PHI) ${listed(said)}.`,
        short: `${open}: last day ${listed(said)}.`,
        next: `rowbook window --block ${id}`,
      },
    ]
  })
}

/** Products that are in time today and too late within days, with the last day on which they are in time. */
function lastDays(
  from: TodayFrom,
  earliest: IsoDate | null | undefined,
): { product: string; last: IsoDate }[] {
  let inTime = lastSprays(earliest, from)?.inTime ?? []
  const ends: { product: string; last: IsoDate }[] = []
  for (let day = 1; day <= LAST_DAYS && inTime.length > 0; day++) {
    const next = lastSprays(earliest, { ...from, asOf: addDays(from.asOf, day) })?.inTime ?? []
    for (const product of inTime)
      if (!next.includes(product)) ends.push({ product, last: addDays(from.asOf, day - 1) })
    inTime = next
  }
  return ends
}
