import { mixCommand } from '../../facts/danger/mix-command.ts'
import type { Remedy } from '../../facts/danger/remedies.ts'
import { rainText, unitsOf } from '../../facts/ledger-units.ts'
import { actionLimits } from '../../facts/protection/acts.ts'
import { addDays, dayOf, type IsoDate, isoDate } from '../../records/date.ts'
import { diseaseWord } from '../../records/disease.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import {
  blocksOf,
  diseaseOf,
  fewNamesOf,
  grouped,
  maySpray,
  namesOf,
  type TodayDraft,
  type TodayFrom,
} from './item.ts'

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
  const hours = from.ledger.products.get(first.product)?.rain?.fast
  const dry = hours === undefined ? 'in time to dry' : `${hours} h before it`
  const when = next.date === from.asOf ? 'today' : spokenDate(next.date)
  return ` Rain is forecast for ${when} (${rainText(next.rain, unitsOf(from.ledger))}): spray ${dry}.`
}

/** Protection that forecast rain will wash off, in one line: renew it right after, or before a long wet spell. */
export function rainItems(from: TodayFrom): TodayDraft[] {
  const all = from.covers.flatMap((one) => {
    const about = washedBy(from, one)
    if (!about || !maySpray(from, one.block)) return []
    return [{ block: one.block, key: `${about.disease} ${about.product} ${about.date}`, about }]
  })
  const groups = grouped(all).toSorted((a, b) => (a.about.date < b.about.date ? -1 : 1))
  const [first] = groups
  if (!first) return []
  const { date, disease, product } = first.about
  const mm = (rain: number) => rainText(rain, unitsOf(from.ledger))
  const washed = groups.map(
    ({ blocks, about }) =>
      `${about.product} against ${diseaseWord(about.disease)} on ${spokenDate(about.date)} (${namesOf(from, blocks)}: ${mm(about.rain)} since the spray, washed off by rain at ${mm(about.limit)})`,
  )
  const blocks = blocksOf(groups)
  return [
    {
      what: 'cover',
      blocks,
      disease: diseaseOf(groups.map(({ about }) => about)),
      urgency: 'soon',
      until: date,
      text: `Forecast rain washes off ${washed.join('; ')}. Spray again before the next infection.`,
      short: `Rain forecast for ${shortDate(date)} washes off ${product}: ${fewNamesOf(from, blocks)}. Spray again.`,
      next: mixCommand(from, { blocks: first.blocks, products: [product], diseases: [disease] }),
      reasons: groups.map(({ about }) => `${mm(about.rain)} by ${shortDate(about.date)}`),
    },
  ]
}

/** The day on which rain since the spray and forecast rain reach what washes a contact product off, both in mm. */
function washedBy({ asOf, ledger, forecast }: TodayFrom, { cover, today }: TodayFrom['covers'][number]) {
  const { disease, sprays } = cover
  if (!forecast || !today?.needed || !today.covered || today.by === null) return null
  if (today.danger.level === 'low' || today.rainSince === null || sprays.at(-1)?.product !== today.by)
    return null
  const product = ledger.products.get(today.by)!
  const limit = actionLimits(product, disease).washOff
  if (!limit) return null
  let rain = today.rainSince
  for (let day = 1; day <= Math.min(DAYS, today.daysLeft ?? DAYS); day++) {
    const date = addDays(asOf, day)
    rain += forecast.rain.get(dayOf(date)) ?? 0
    if (rain >= limit) return { date, disease, product: product.id, rain, limit }
  }
  return null
}
