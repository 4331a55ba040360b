import { volumePerHectare } from '../../agronomy/spraying/calibration.ts'
import { mostSprayed } from '../../agronomy/spraying/most-sprayed.ts'
import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { treatedAreaOf } from '../../facts/block-size.ts'
import { type JudgedLedger, judged } from '../../facts/judged.ts'
import { figureText } from '../../facts/sentences.ts'
import { waterOf } from '../../facts/spraying/dose.ts'
import type { SprayEntry } from '../../ledger/read/ledger.ts'
import { type Found, findingAt, mention, PRACTICE, type Rule } from '../rule.ts'
import { wasInForce } from './unlikely-sprayer.ts'
import { slipsOf } from './usual.ts'

/** A spray whose weather, water or duration is unlikely. */
export const unlikelySpray: Rule = {
  name: 'unlikely-spray',
  what: "The water, weather or hours of a spray are far from usual. Or a product is listed twice in one tank. Or the water is far from what the sprayer's flow and speed give, which is a hint. It is a warning where litres per ground area were likely written as the total, or the reverse. Sprays before the day on which the sprayer was `calibrated` are not compared. Without that day, only sprays of this season are.",
  limits:
    'Usual are: 40 to 2500 L/ha; 1 to 36 °C; 20 to 100 % humidity; up to 14 h. Too long is also two hours and six times what the sprayer needs for the water. From the calibration, a quarter off is too much.',
  ...PRACTICE,
  check: (input) =>
    judged(input, 'sprays').flatMap((spray) =>
      [...figures(input, spray), offCalibration(input, spray)].flat(),
    ),
}

function wholeArea({ ledger }: Pick<JudgedLedger, 'ledger'>, spray: SprayEntry): number | null {
  const areas = spray.blocks.map((id) => {
    const block = ledger.blocks.get(id)
    return block ? treatedAreaOf(spray, block) : null
  })
  return areas.includes(null) ? null : areas.reduce((sum: number, area) => sum + area!, 0)
}

function figures(input: JudgedLedger, spray: SprayEntry): Found[] {
  const { weather, products, blocks, dilute } = spray
  const slips = slipsOf(spray)
  const isSpot = spray.method === 'spot'
  // Spots are sprayed until they are wet, whatever the volume per hectare.
  const water = isSpot ? null : waterOf(spray.water, wholeArea(input, spray))
  slips.unusual(['water'], water ?? undefined, 'volume of water', [40, 2500, 'L/ha'])
  if (!isSpot) slips.unusual(['share'], spray.share, 'share of the block', [2, 100, '%'])
  const minutes = minutesOf(spray)
  const hours = minutes && minutes / 60
  slips.unusual(['time'], hours, 'time for one spray', [0.05, 14, 'h'])
  const needed = hoursFor(input, spray, water)
  if (hours !== undefined && needed !== null && hours > 2 + 6 * needed && hours <= 14)
    slips.odd(
      ['time'],
      `${figureText(hours, 'h')}, but this water takes the sprayer about ${figureText(needed, 'h')}`,
      'check start and end of the time, then the water',
    )
  slips.unusual(['weather', 'temperature'], weather?.temperature, 'temperature to spray in', [1, 36, '°C'])
  slips.unusual(['weather', 'humidity'], weather?.humidity, 'humidity to spray in', [20, 100, '%'])
  slips.unusual(['dilute'], dilute, 'dilute volume', [100, 5000, 'L/ha'])
  if (dilute !== undefined && water !== null && dilute < water * 0.9)
    slips.odd(
      ['dilute'],
      `the volume to run-off, ${figureText(dilute, 'L/ha')}, is below the ${figureText(water, 'L/ha')} that was applied`,
      '`dilute` is the water at which leaves begin to drip; it is more than what is applied concentrated',
    )
  const twice = products.findIndex(
    ({ product }, index) => products.findIndex((other) => other.product === product) < index,
  )
  if (twice >= 0)
    slips.odd(
      ['products', twice, 'product'],
      `${products[twice]!.product} is listed twice in this tank`,
      "write the other product's id, or one line with the whole dose",
    )
  const block = blocks.findIndex((id, index) => blocks.indexOf(id) < index)
  if (block >= 0)
    slips.odd(
      ['blocks', block],
      `${blocks[block]} is listed twice`,
      "write the other block's id, or take one out",
    )
  return slips.found
}

/** Hours in which the sprayer applies the water of a spray, with half an hour for each fill after the first. */
function hoursFor({ ledger }: JudgedLedger, spray: SprayEntry, water: number | null): number | null {
  const { flow, tank } = ledger.sprayers.get(spray.sprayer ?? '') ?? {}
  const area = wholeArea({ ledger }, spray)
  if (water === null || area === null || flow === undefined || tank === undefined) return null
  const litres = water * area
  return litres / flow / 60 + 0.5 * Math.max(0, Math.ceil(litres / tank) - 1)
}

function offCalibration(input: JudgedLedger, spray: SprayEntry): Found | [] {
  const sprayer = input.ledger.sprayers.get(spray.sprayer ?? '')
  if (spray.method === 'spot' || !wasInForce(sprayer?.calibrated, input, spray)) return []
  const area = wholeArea(input, spray)
  const water = waterOf(spray.water, area)
  if (water === null || sprayer?.flow === undefined || sprayer.speed === undefined) return []
  const spacings = spray.blocks.flatMap((id) => input.ledger.blocks.get(id)?.row_spacing ?? [])
  const rates = spacings.map((spacing) =>
    volumePerHectare({
      flow: sprayer.flow!,
      speed: sprayer.speed!,
      width: spacing * (sprayer.rows_per_pass ?? 1),
    }),
  )
  if (rates.length === 0 || rates.some((rate) => Math.abs(water / rate - 1) <= 0.25)) return []
  const meant = otherwiseMeant(input, spray, area)
  const fits = meant !== null && rates.some((rate) => Math.abs(meant / rate - 1) <= 0.1)
  const [is, was] =
    spray.water?.unit === 'L/ha' ? ['in all', 'per ground area'] : ['per ground area', 'in all']
  return findingAt(spray, ['water'], {
    level: fits ? 'warning' : 'hint',
    message: `${figureText(water, 'L/ha')}, but ${sprayer.name} applies ${figureText(rates[0]!, 'L/ha')} at ${figureText(sprayer.speed, 'km/h')} (${mention(sprayer, ['flow'])})`,
    help: fits
      ? `the figure would fit as water ${is}, and is written as water ${was}; correct its unit`
      : 'check the water, or measure the sprayer again',
  })
}

/** L/ha if a total was really meant per hectare or acre, or the reverse. */
function otherwiseMeant({ ledger }: JudgedLedger, { water }: SprayEntry, area: number | null): number | null {
  if (water === undefined || !area) return null
  const ground = ledger.vineyard.units === 'metric' ? 1 : ACRE
  return water.unit === 'L/ha' ? (water.value * ground) / area : water.value / ground
}

/** Tolerance for errors in flow and times. */
const SLACK = 1.1

/** More water than the sprayer could have put out in the time written. */
export const impossibleOutput: Rule = {
  name: 'impossible-output',
  what: 'The spray used more water than the nozzles can deliver in the recorded time, even without filling and turning.',
  limits: 'The most possible is the flow of the sprayer x the minutes recorded, plus a tenth.',
  source: 'own rule; flow x time by the units alone',
  basis: 'own',
  check: (input) =>
    judged(input, 'sprays').flatMap((spray) => {
      const sprayer = input.ledger.sprayers.get(spray.sprayer ?? '')
      const area = wholeArea(input, spray)
      const water = waterOf(spray.water, area)
      const minutes = minutesOf(spray)
      if (area === null || water === null || sprayer?.flow === undefined || minutes === undefined) return []
      const most = mostSprayed({ flow: sprayer.flow, minutes })
      if (!exceeds(water * area, most * SLACK)) return []
      return findingAt(spray, ['water'], {
        message: `${figureText(water * area, 'L')} of spray, but ${sprayer.name} applies ${figureText(most, 'L')} in ${minutes} min (${mention(sprayer, ['flow'])})`,
        help: 'check water, rows, times and the flow of the sprayer',
      })
    }),
}

/** Minutes of a spray with both times; a mix is judged as a spray without duration. */
const minutesOf = ({ time }: SprayEntry): number | undefined =>
  time?.end == null || time.end <= time.start ? undefined : time.end - time.start

/** ha in an acre (international yard and pound agreement of 1959). */
const ACRE = 0.40468564224
