import { mixCommand } from '../../facts/danger/mix-command.ts'
import type { Remedy } from '../../facts/danger/remedies.ts'
import { rainText, unitsOf } from '../../facts/ledger-units.ts'
import { actionLimits } from '../../facts/protection/acts.ts'
import type { DiseaseCover } from '../../facts/protection/course.ts'
import { standsOverLabel } from '../../facts/spraying/stands-over-label.ts'
import { addDays, dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import { type Disease, diseaseWord } from '../../records/disease.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import { fewNamesOf, grouped, harvestNear, namesOf, on, type TodayDraft, type TodayFrom } from './item.ts'

/** Days of a forecast that bear on a spray. Our own choice: rain is hardly forecast beyond them. */
const DAYS = 5
/** mm of rain from which a day counts as wet: one tip of a common rain gauge. Common practice, no source. */
const RAIN = 0.2

/** The first day with rain in the forecast, from today on; null where none is reported. */
function nextRain({ forecast, asOf }: TodayFrom): { date: IsoDate; rain: number } | null {
  const today = dayOf(asOf)
  for (let day = today; day < today + DAYS; day++) {
    const rain = forecast?.rain.get(day)
    if (rain !== undefined && rain >= RAIN) return { date: isoDate(day), rain }
  }
  return null
}

/** ` Rain is forecast for Fri 26 Jun (12 mm): …`, after what is in the shed; empty without a forecast of rain. */
export function beforeRain(from: TodayFrom, remedies: readonly Remedy[]): string {
  const next = nextRain(from)
  const first = remedies.find(({ may }) => may)
  if (!next || !first) return ''
  const product = from.ledger.products.get(first.product)
  const hours = product?.rain?.fast
  const dry = hours === undefined ? 'in time to dry' : `${hours} h before it`
  const when = next.date === from.asOf ? 'today' : spokenDate(next.date)
  return ` Rain is forecast for ${when} (${rainText(next.rain, unitsOf(from.ledger))}): spray ${dry}.`
}

interface Washed {
  date: IsoDate
  disease: Disease
  product: string
  /** mm since the spray by then, and that which washes it off. */
  rain: number
  limit: number
}

/** Protection that forecast rain will wash off, in one line: renew it right after, or before a long wet spell. */
export function rainItems(from: TodayFrom): TodayDraft[] {
  if (!from.forecast) return []
  const all = from.covers.flatMap(({ block, covers }) =>
    harvestNear(from, block.id) || standsOverLabel(from, block.id)
      ? []
      : covers.flatMap((cover) => {
          const about = washedBy(from, cover)
          return about
            ? { block: block.id, key: `${about.disease} ${about.product} ${about.date}`, about }
            : []
        }),
  )
  const groups = grouped(all).toSorted((a, b) => (a.about.date < b.about.date ? -1 : 1))
  const [first] = groups
  if (!first) return []
  const units = unitsOf(from.ledger)
  const say = (names: typeof namesOf) =>
    groups
      .map(
        ({ blocks, about }) =>
          `${about.product} against ${diseaseWord(about.disease)} on ${spokenDate(about.date)} (${names(from, blocks)}: ${rainText(about.rain, units)} since the spray, washed off by rain at ${rainText(about.limit, units)})`,
      )
      .join('; ')
  const blocks = [...new Set(groups.flatMap((group) => group.blocks))]
  return [
    {
      ...on('cover', blocks),
      disease: groups.every(({ about }) => about.disease === first.about.disease)
        ? first.about.disease
        : null,
      urgency: 'soon',
      until: first.about.date,
      text: `Forecast rain washes off ${say(namesOf)}. Spray again before the next infection.`,
      short: `Rain forecast for ${shortDate(first.about.date)} washes off ${first.about.product}: ${fewNamesOf(from, blocks)}. Spray again.`,
      next: mixCommand(from, {
        blocks: first.blocks,
        products: [first.about.product],
        diseases: [first.about.disease],
      }),
      reasons: groups.map(({ about }) => `${rainText(about.rain, units)} by ${shortDate(about.date)}`),
    },
  ]
}

/** The day on which rain since the spray and forecast rain reach what washes a contact product off. */
function washedBy(
  { asOf, ledger, forecast }: TodayFrom,
  { disease, on, sprays }: DiseaseCover,
): Washed | null {
  const today = on(asOf)
  if (!today?.needed || !today.covered || today.by === null) return null
  if (today.danger.level === 'low' || today.rainSince === null || sprays.at(-1)?.product !== today.by)
    return null
  const product = ledger.products.get(today.by)
  const limit = product && actionLimits(product, disease).washOff
  if (!limit) return null
  let rain = today.rainSince
  for (let day = 1; day <= DAYS; day++) {
    const date = addDays(asOf, day)
    if (today.daysLeft !== null && day > today.daysLeft) return null
    rain += forecast?.rain.get(dayOf(date)) ?? 0
    if (rain >= limit) return { date, disease, product: product.id, rain, limit }
  }
  return null
}
