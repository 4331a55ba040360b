import { listed } from '../../facts/sentences.ts'
import { inBrackets, untilText } from '../../facts/spraying/re-entry.ts'
import type { IsoDate } from '../../records/date.ts'
import type { Quantity } from '../../records/quantity.ts'
import { longDate, shortDate, spokenDate, spokenDateAsOf, spokenTime } from '../../records/spoken-date.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { counted, sentences } from '../../render/text.ts'
import { display, displayRange } from '../../render/units.ts'
import type { MixAfter } from './against.ts'
import type { MixProduct } from './amounts.ts'
import type { MixData } from './report.ts'

/** What to mind in mixing: order, water in the tank, rounding, time, and where means were taken. */
export function notes(data: MixData, { units }: Style): string[] {
  const several = data.order.length > 1
  const odd = [...new Set(data.steps.flatMap(({ disagreement }) => disagreement ?? []))]
  const unplaced = data.steps.filter(
    ({ rank, reason }) => rank === null && (several || reason.startsWith('never')),
  )
  const carried = isCarried(data)
  const { offRate } = data
  const { minutes, refills } = data.time
  return sentences(
    several &&
      "Fill in the numbered order, into half the water, agitating. Let each disperse before the next. Follow the label's order if it differs.",
    several && odd.length > 0 && `Sources disagree: ${odd.join('; ')}.`,
    unplaced.map(({ product, reason }) => `${safeLine(product)}: ${reason}.`),
    data.tooMuch &&
      `${display(data.tooMuch, units)} more is in the tank than the first fill holds: drain it, or the spray is too weak.`,
    data.products.flatMap((product) => productNotes(product, units, carried)),
    data.perVine && `That is ${display(data.perVine, units)} of spray a vine.`,
    data.spot &&
      !data.area &&
      !data.perVine &&
      'Add --vines, --rows or --share with --block, so that copper and protection count for what is treated.',
    data.waterBy === 'calibration' &&
      `${display(data.waterPerHa!, units)}: what ${safeLine(data.sprayer ?? 'the sprayer')} applies, by its record.`,
    paceNotes(data, units),
    offRate &&
      `By its record the sprayer applies ${display(offRate.actual, units)}: for ${display(data.waterPerHa!, units)} ${carried ? 'walk at' : 'drive'} ${display(offRate.speedNeeded, units)}, or set the nozzles to ${display(offRate.flowNeeded, units)} in all.`,
    data.means,
    minutes !== null &&
      `Spraying takes ${sixties(Math.max(1, Math.round(minutes)), 'h', 'min')}${refills ? ` and ${counted(refills, 'refill')}, turning and filling not counted` : ', turning not counted'}.`,
  )
}

/** L up to which a tank is taken to be carried on the back. Common practice, no source. */
const CARRIED = 25

const isCarried = ({ tank }: MixData) => tank !== null && tank.value <= CARRIED

/** `Walk at 0.5 km/h: 8.6 s a vine, 4 min 20 s a row.` */
function paceNotes(data: MixData, units: Style['units']): string[] {
  const { pace, offRate } = data
  if (!pace || (!isCarried(data) && !data.spot) || (offRate && !pace.speed)) return []
  const times = sentences(
    pace.perVine !== null && `${secondsOf(pace.perVine)} a vine`,
    pace.perRow !== null && `${secondsOf(pace.perRow)} a row`,
  )
  if (pace.speed === null) return [`Spray ${times.join(', ')}.`]
  const walk = `Walk at ${display(pace.speed, units)}`
  return [`${walk}${times.length > 0 ? `: ${times.join(', ')}` : ''}.`]
}

const secondsOf = (seconds: number) =>
  seconds < 10 ? `${Number(seconds.toFixed(1))} s` : sixties(Math.round(seconds), 'min', 's')

/** A whole number in sixties: `45 s`, `2 min`, `1 h 20 min`. */
function sixties(whole: number, large: string, small: string): string {
  if (whole < 60) return `${whole} ${small}`
  const rest = whole % 60 === 0 ? '' : ` ${whole % 60} ${small}`
  return `${Math.floor(whole / 60)} ${large}${rest}`
}

function productNotes(product: MixProduct, units: Style['units'], carried: boolean): string[] {
  const { concentrationFactor, concentration, rate, rounded } = product
  return sentences(
    concentrationFactor !== null &&
      `the spray is ${Number(concentrationFactor.toFixed(2))} times as strong as the dilute one, ${display(concentration, units)}.`,
    product.capped && `the most per ground area, ${display(rate!, units)}, lowers the dose.`,
    carried && rate !== null && units === 'metric' && `${inTenLitres(concentration)} in 10 L of spray.`,
    product.limits.flatMap((limit) => limitNotes(limit, units)),
    rounded?.why
      ? `a fill takes ${rounded.why}; weigh it on a finer one.`
      : rounded &&
          rounded.effect !== null &&
          `rounding to the scale changes the total by ${signed(rounded.effect)} %.`,
  ).map((note) => `${safeLine(product.name)}: ${note}`)
}

function limitNotes(limit: MixProduct['limits'][number], units: Style['units']): string[] {
  const { unit, inWater, within, form } = limit
  const value = limit.value !== null && display({ value: limit.value, unit }, units)
  const most = display({ value: limit.high, unit }, units)
  const place = safeLine(limit.place)
  return sentences(
    inWater !== null &&
      value &&
      `the label gives a dose per ground area only. In its minimum water, ${display({ value: inWater, unit: 'L/ha' }, units)}, that is ${most} at most.`,
    within === false &&
      (form === 'max_rate'
        ? `${value} is above the most per ground area, ${most} (${place}).`
        : `${value} is not within the label's ${displayRange(limit, units)} against ${safeLine(limit.against)} (${place}).`),
  )
}

const signed = (value: number) => {
  const text = value.toFixed(Math.abs(value) < 1 ? 2 : 1)
  return value > 0 ? `+${text}` : text
}

/** What goes into 10 L of spray, as labels and people say a strength; from g/L or mL/L. */
export const inTenLitres = ({ value, unit }: Quantity): string =>
  display({ value: value / 100, unit: unit === 'g/L' ? 'kg' : 'L' }, 'metric')

/** When people may enter, when to pick, when to spray again, and what is left in stock. */
export function follows({ after, products, recorded }: MixData, { units }: Style): string[] {
  if (!after) return []
  const year = after.date.slice(0, 4)
  const short = (date: IsoDate) => (date.startsWith(year) ? shortDate(date) : longDate(date))
  const name = (id: string) => safeLine(products.find(({ product }) => product === id)?.name ?? id)
  const several = products.length > 1
  const when =
    after.ends === null
      ? `some time on ${spokenDate(after.date)}`
      : `until ${spokenTime(after.date, after.ends)}`
  const { harvest, reEntry } = after
  const isPlain = harvest?.calendar === harvest?.cautious
  const again = after.next.flatMap(({ product, date }) =>
    date === null ? [] : several ? `${short(date)} (${name(product)})` : short(date),
  )
  const said = sentences(
    reEntry && `keep out until ${untilText(reEntry)} ${inBrackets(reEntry)}`,
    harvest &&
      `pick from ${spokenDateAsOf(harvest.cautious, after.date)}${isPlain ? '' : ` (${short(harvest.calendar)} if the day of spraying counts as day 0)`}${several ? `, for ${name(harvest.product)}` : ''} (pre-harvest interval, PHI: ${harvest.days} d)`,
    again.length > 0 && `again from ${listed(again)}`,
  )
  const unknown = sentences(
    after.reEntryUnknown.length > 0 && `re-entry interval (REI) of ${listed(after.reEntryUnknown.map(name))}`,
    after.harvestUnknown.length > 0 &&
      `pre-harvest interval (PHI) of ${listed(after.harvestUnknown.map(name))}`,
  )
  return sentences(
    recorded &&
      `This spray of ${spokenDate(after.date)} is recorded already (${recorded.file}:${recorded.line}), and judged as that one. To spray the same again would be another application.`,
    said.length > 0 && `${recorded ? 'Sprayed' : 'If sprayed'} ${when}: ${said.join('; ')}.`,
    unknown.length > 0 && `Not in the records, so not counted: ${listed(unknown)}. See the label.`,
    after.stock.map((stock) => `Stock of ${name(stock.product)}: ${stockText(stock, units)}.`),
  )
}

function stockText({ left, after, unit }: MixAfter['stock'][number], units: Style['units']): string {
  if (left === null || after === null) return 'not known in the unit of the mix'
  const had = display({ value: left, unit }, units)
  return after < 0
    ? `${had}, ${display({ value: -after, unit }, units)} too little`
    : `${had} now, ${display({ value: after, unit }, units)} after this mix`
}
