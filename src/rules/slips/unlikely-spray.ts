import { volumePerHectare } from '../../agronomy/spraying/calibration.ts'
import { treatedAreaOf } from '../../facts/block-size.ts'
import type { Book } from '../../facts/book.ts'
import { judged } from '../../facts/judged.ts'
import { say } from '../../facts/say.ts'
import { waterOf } from '../../facts/spraying/dose.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import type { SprayEntry } from '../../ledger/read/ledger.ts'
import { seasonOf } from '../../ledger/read/seasons.ts'
import type { IsoDate } from '../../records/date.ts'
import { findingAt, mention, type Rule } from '../rule.ts'
import { slipsOf } from './usual.ts'

const NAME = 'unlikely-spray'

/** A spray whose weather, water or duration is unlikely. */
export const unlikelySpray: Rule = {
  name: NAME,
  about: {
    what: "The water, weather or hours of a spray are far from usual; a product is listed twice in one tank; or the water is far from what the sprayer's flow and speed give (a hint). Sprays before the day on which the sprayer was `calibrated` are not compared; without that day only sprays of this season are.",
    limits: '40-2500 L/ha; 1-36 °C, 20-100 %; up to 14 h; a quarter from the calibration',
    source: 'common practice, no source',
    basis: 'common practice',
  },
  check: (book) =>
    judged(book, 'sprays').flatMap((spray) => [...figures(book, spray), ...offCalibration(book, spray)]),
}

function wholeArea({ ledger }: Book, spray: SprayEntry): number | null {
  const areas = spray.blocks.map((id) => {
    const block = ledger.blocks.get(id)
    return block ? treatedAreaOf(spray, block) : null
  })
  return areas.includes(null) ? null : areas.reduce((sum: number, area) => sum + area!, 0)
}

function figures(book: Book, spray: SprayEntry): Finding[] {
  const { weather, time, products, blocks, dilute } = spray
  const slips = slipsOf(NAME, spray)
  const isSpot = spray.method === 'spot'
  // Spots are sprayed until they are wet, whatever that comes to for a hectare.
  const water = isSpot ? null : waterOf(spray.water, wholeArea(book, spray))
  slips.unusual(['water'], water ?? undefined, { low: 40, high: 2500, unit: 'L/ha', what: 'volume of water' })
  if (!isSpot)
    slips.unusual(['share'], spray.share, { low: 2, high: 100, unit: '%', what: 'share of the block' })
  // A mix is judged as a spray of one moment.
  const hours = time?.end == null || time.end <= time.start ? undefined : (time.end - time.start) / 60
  slips.unusual(['time'], hours, { low: 0.05, high: 14, unit: 'h', what: 'time for one spray' })
  const air = { low: 1, high: 36, unit: '°C', what: 'temperature to spray in' }
  slips.unusual(['weather', 'temperature'], weather?.temperature, air)
  const humidity = { low: 20, high: 100, unit: '%', what: 'humidity to spray in' }
  slips.unusual(['weather', 'humidity'], weather?.humidity, humidity)
  slips.unusual(['dilute'], dilute, { low: 100, high: 5000, unit: 'L/ha', what: 'dilute volume' })
  if (dilute !== undefined && water !== null && dilute < water * 0.9)
    slips.odd(
      ['dilute'],
      `the volume to run-off, ${say(dilute, 'L/ha')}, is below the ${say(water, 'L/ha')} that was applied`,
    )
  const twice = products.findIndex(
    ({ product }, index) => products.findIndex((other) => other.product === product) < index,
  )
  if (twice >= 0)
    slips.odd(['products', twice, 'product'], `${products[twice]!.product} is listed twice in this tank`)
  const block = blocks.findIndex((id, index) => blocks.indexOf(id) < index)
  if (block >= 0) slips.odd(['blocks', block], `${blocks[block]} is listed twice`)
  return slips.found
}

function offCalibration(book: Book, spray: SprayEntry): Finding[] {
  const sprayer = book.ledger.sprayers.get(spray.sprayer ?? '')
  if (spray.method === 'spot' || !wasInForce(sprayer?.calibrated, book, spray)) return []
  const water = waterOf(spray.water, wholeArea(book, spray))
  if (water === null || sprayer?.flow === undefined || sprayer.speed === undefined) return []
  const spacings = spray.blocks.flatMap((id) => book.ledger.blocks.get(id)?.row_spacing ?? [])
  const rates = spacings.map((spacing) =>
    volumePerHectare({
      flow: sprayer.flow!,
      speed: sprayer.speed!,
      width: spacing * (sprayer.rows_per_pass ?? 1),
    }),
  )
  if (rates.length === 0 || rates.some((rate) => Math.abs(water / rate - 1) <= 0.25)) return []
  return [
    findingAt(spray, ['water'], {
      name: NAME,
      level: 'hint',
      message: `${say(water, 'L/ha')}, but ${sprayer.id} applies ${say(rates[0]!, 'L/ha')} at ${say(sprayer.speed, 'km/h')} (${mention(sprayer, ['flow'])})`,
      help: 'check the water, or measure the sprayer again',
    }),
  ]
}

/** Whether a calibration held on the day of a spray. What one gave before it was measured so, nobody knows. */
const wasInForce = (calibrated: IsoDate | undefined, { ledger, asOf }: Book, { date, season }: SprayEntry) =>
  calibrated === undefined ? season === seasonOf(ledger.vineyard, asOf) : calibrated <= date
