import { enoughFirst } from '../../facts/danger/in-stock.ts'
import { mixCommand } from '../../facts/danger/mix-command.ts'
import { doubtsOf, type Remedy, shedText } from '../../facts/danger/remedies.ts'
import { downyAhead } from '../../facts/disease/downy-ahead.ts'
import { degreesText, rainText, unitsOf } from '../../facts/ledger-units.ts'
import { actionLimits } from '../../facts/protection/acts.ts'
import { addDays, dayOf, daysBetween, type IsoDate, isoDate } from '../../records/date.ts'
import { type Disease, diseaseWord } from '../../records/disease.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import {
  blockOptions,
  blocksOf,
  diseaseOf,
  fewNamesOf,
  grouped,
  maySpray,
  namesOf,
  remediesToday,
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
export function beforeRain(from: TodayFrom, remedies: readonly Remedy[], disease: Disease): string {
  const next = nextRain(from)
  const first = remedies.find(({ may }) => may)
  if (!next || !first) return ''
  const hours = from.ledger.products.get(first.product)?.rain?.fast
  const dry = hours === undefined ? 'in time to dry' : `${hours} h before it`
  const when = next.date === from.asOf ? 'today' : spokenDate(next.date)
  const mm = (rain: number) => rainText(rain, unitsOf(from.ledger))
  const limit = actionLimits(from.ledger.products.get(first.product)!, disease).washOff
  const after =
    limit !== null && next.rain >= limit ? `, and count on it only until ${mm(limit)} has fallen` : ''
  return ` Rain is forecast for ${when} (${mm(next.rain)}): spray ${dry}${after}.`
}

/**
 * Protection that forecast rain will wash off: a line for each tank that renews it, and one for all that no product may
 * renew today.
 */
export function rainItems(from: TodayFrom): TodayDraft[] {
  const all = from.covers.flatMap((one) => {
    const washed = washedBy(from, one)
    if (!washed || !maySpray(from, one.block)) return []
    const { product, disease, date } = washed
    const remedies = remediesToday(from, one.block, disease)
    const same = remedies.find((remedy) => remedy.product === product)
    const isSure = same?.may && doubtsOf(same).length === 0
    const again = isSure ? same : remedies.find(({ may }) => may)
    const against = again ? null : (same?.against[0] ?? null)
    const key = [disease, product, date, again?.product, against].join(' ')
    return [{ block: one.block, key, about: { ...washed, again: again ?? null, against } }]
  })
  const groups = grouped(all).toSorted((a, b) => (a.about.date < b.about.date ? -1 : 1))
  const barred = groups.filter(({ about }) => about.again === null)
  const renewed = groups.filter(({ about }) => about.again !== null)
  return [...renewed.map((one) => [one]), ...(barred.length > 0 ? [barred] : [])].map((own) =>
    washedItem(from, own),
  )
}

type Washed = NonNullable<ReturnType<typeof washedBy>> & { again: Remedy | null; against: string | null }

/** Deposits that rain will wash off, and the one tank that renews them, or why nothing may be sprayed today. */
function washedItem(from: TodayFrom, groups: readonly { blocks: string[]; about: Washed }[]): TodayDraft {
  const { date, disease, product, again } = groups[0]!.about
  const mm = (rain: number) => rainText(rain, unitsOf(from.ledger))
  const nameOfProduct = (id: string) => from.ledger.products.get(id)!.name
  const washed = groups.map(
    ({ blocks, about }) =>
      `${nameOfProduct(about.product)} against ${diseaseWord(about.disease)} on ${spokenDate(about.date)} (${namesOf(from, blocks)}: ${mm(about.rain)} since the spray, washed off by rain at ${mm(about.limit)})`,
  )
  const blocks = blocksOf(groups)
  const [sure] = again ? enoughFirst(from, [again], { blocks, disease }) : []
  const doubts = sure ? doubtsOf(sure).map((doubt) => ` ${sure.name}: ${doubt}.`) : []
  const other = again && again.product !== product ? ` with ${again.name}` : ''
  const reasons = new Set(
    groups.flatMap(({ about }) => (about.against ? `${nameOfProduct(about.product)}: ${about.against}` : [])),
  )
  const action = again
    ? `Spray again before the next infection${other}.${doubts.join('')}`
    : `Nothing in the shed may be used today${reasons.size > 0 ? ` (${[...reasons].join('; ')})` : ''}.`
  const tank = again ? { products: [again.product], diseases: [disease] } : undefined
  return {
    what: 'cover',
    blocks,
    disease: diseaseOf(groups.map(({ about }) => about)),
    urgency: 'soon',
    until: date,
    text: `Forecast rain washes off ${washed.join('; ')}. ${action}`,
    short: `Rain forecast for ${shortDate(date)} washes off ${nameOfProduct(product)}: ${fewNamesOf(from, blocks)}. ${again ? `Spray again${other}.` : action}`,
    tank,
    next: tank
      ? mixCommand(from, { blocks, ...tank })
      : `rowbook cover --for ${disease}${blockOptions(from, groups[0]!.blocks)}`,
    reasons: groups.map(({ about }) => `${mm(about.rain)} by ${shortDate(about.date)}`),
  }
}

/**
 * Blocks that forecast rain may infect with downy mildew while nothing protects them, where no infection before it is told
 * already: what keeps an infection off has to be there before the rain.
 */
export function infectionItems(from: TodayFrom): TodayDraft[] {
  const { asOf, forecast } = from
  const first = forecast && downyAhead(from, forecast, DAYS).find(({ primary }) => primary)
  if (!first) return []
  const open = from.covers.flatMap(({ block, cover, today }) => {
    if (cover.disease !== 'downy' || !today?.needed || today.danger.level !== 'low') return []
    const lasts = today.covered === true && (today.daysLeft ?? 0) >= daysBetween(asOf, first.date)
    const isRipe = from.judge.growth(block).veraisonOn(dayOf(asOf)) === 'after'
    if (lasts || isRipe || !maySpray(from, block)) return []
    const remedies = remediesToday(from, block, 'downy')
    const key = `${today.covered} ${shedText(remedies, 'downy')}`
    return [{ block, key, about: { remedies, covered: today.covered } }]
  })
  return grouped(open).map(({ blocks, about }): TodayDraft => {
    const { covered } = about
    const remedies = enoughFirst(from, about.remedies, { blocks, disease: 'downy' })
    const mm = rainText(first.rain, unitsOf(from.ledger))
    const day = first.date === asOf ? 'today' : spokenDate(first.date)
    const state = covered
      ? 'protection ends before'
      : covered === false
        ? 'unprotected'
        : 'protection unknown'
    const rain = `${mm} of rain in two days to ${day} at ${degreesText(first.mean, unitsOf(from.ledger))}`
    const may = remedies.find((one) => one.may)
    const tank = may && { products: [may.product], diseases: ['downy' as const] }
    return {
      what: 'cover',
      blocks,
      disease: 'downy',
      urgency: 'soon',
      until: first.date,
      text: `Forecast rain may bring downy: ${namesOf(from, blocks)} ${state}. ${rain}. ${shedText(remedies, 'downy')}${beforeRain(from, remedies, 'downy')}`,
      short: `Rain forecast to ${shortDate(first.date)} may bring downy, ${state}: ${fewNamesOf(from, blocks)}. ${may ? 'Spray before it.' : 'Nothing in the shed may be used now.'}`,
      tank,
      next: tank ? mixCommand(from, { blocks, ...tank }) : `rowbook cover --for downy --block ${blocks[0]}`,
      reasons: [rain],
    }
  })
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
