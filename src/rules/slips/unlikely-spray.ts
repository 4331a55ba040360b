import { mostSprayed } from '../../agronomy/spraying/calibration.ts'
import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { treatedAreaOf } from '../../facts/block-size.ts'
import { type JudgedLedger, judged } from '../../facts/judged.ts'
import { figureText } from '../../facts/sentences.ts'
import { waterOf } from '../../facts/spraying/dose.ts'
import type { SprayEntry } from '../../ledger/read/ledger.ts'
import { type Found, findingAt, mention, PRACTICE, type Rule } from '../rule.ts'
import { rateIn, wasInForce } from './unlikely-sprayer.ts'
import { type Slips, slipsIn, type Usual } from './usual.ts'

/** A spray whose weather, water or duration is unlikely. */
export const unlikelySpray: Rule = {
  name: 'unlikely-spray',
  what: "The water, weather or hours of a spray are far from usual. Or a product is listed twice in one tank. Or the water is far from what the sprayer's flow and speed give, which is a hint. It is a warning where litres per ground area were likely written as the total, or the reverse. Sprays before the day on which the sprayer was `calibrated` are not compared. Without that day, only sprays of this season are.",
  limits:
    'Usual are: 40 to 2500 L/ha; 1 to 36 °C; 20 to 100 % humidity; up to 14 h. Too long is also two hours and six times what the sprayer needs for the water. From the calibration, a quarter off is too much.',
  ...PRACTICE,
  check: (input) => {
    const sprays = judged(input, 'sprays')
    return [
      ...slipsIn(sprays, (slips, spray) => {
        figures(slips, input, spray)
        twice(slips, spray)
      }),
      ...sprays.flatMap((spray) => offCalibration(input, spray)),
    ]
  },
}

/** The sprayer of a spray, its treated area in ha, its water in L/ha, and its minutes; undefined where not known. */
function factsOf({ ledger }: JudgedLedger, spray: SprayEntry) {
  const areas = spray.blocks.map((id) => {
    const block = ledger.blocks.get(id)
    return block ? treatedAreaOf(spray, block) : null
  })
  const area = areas.includes(null) ? null : areas.reduce((sum: number, one) => sum + one!, 0)
  const { start, end = null } = spray.time ?? { start: 0 }
  return {
    sprayer: ledger.sprayers.get(spray.sprayer ?? ''),
    area,
    water: waterOf(spray.water, area) ?? undefined,
    // A mix is judged as a spray without duration.
    minutes: end === null || end <= start ? undefined : end - start,
  }
}

const USUAL: Usual = {
  'weather.temperature': ['temperature to spray in', 1, 36, '°C'],
  'weather.humidity': ['humidity to spray in', 20, 100, '%'],
  dilute: ['dilute volume', 100, 5000, 'L/ha'],
}

function figures(slips: Slips, input: JudgedLedger, spray: SprayEntry): void {
  const { area, sprayer, minutes, ...facts } = factsOf(input, spray)
  const { dilute } = spray
  const isSpot = spray.method === 'spot'
  // Spots are sprayed until they are wet, whatever the volume per hectare.
  const water = isSpot ? undefined : facts.water
  slips.unusual(['water'], water, 'volume of water', [40, 2500, 'L/ha'])
  if (!isSpot) slips.unusual(['share'], spray.share, 'share of the block', [2, 100, '%'])
  const hours = minutes && minutes / 60
  slips.unusual(['time'], hours, 'time for one spray', [0.05, 14, 'h'])
  const { flow, tank } = sprayer ?? {}
  if (hours && hours <= 14 && water !== undefined && area !== null && flow && tank) {
    // With half an hour for each fill after the first.
    const litres = water * area
    const needed = litres / flow / 60 + 0.5 * Math.max(0, Math.ceil(litres / tank) - 1)
    if (hours > 2 + 6 * needed)
      slips.odd(
        ['time'],
        `${figureText(hours, 'h')}, but this water takes the sprayer about ${figureText(needed, 'h')}`,
        'check start and end of the time, then the water',
      )
  }
  slips.compare(USUAL)
  if (dilute !== undefined && water !== undefined && dilute < water * 0.9)
    slips.odd(
      ['dilute'],
      `the volume to run-off, ${figureText(dilute, 'L/ha')}, is below the ${figureText(water, 'L/ha')} that was applied`,
      '`dilute` is the water at which leaves begin to drip; it is more than what is applied concentrated',
    )
}

/** A product or a block that a spray lists twice. */
function twice(slips: Slips, { products, blocks }: SprayEntry): void {
  const ids = products.map(({ product }) => product)
  const product = ids.findIndex((id, index) => ids.indexOf(id) < index)
  if (product >= 0)
    slips.odd(
      ['products', product, 'product'],
      `${ids[product]} is listed twice in this tank`,
      "write the other product's id, or one line with the whole dose",
    )
  const block = blocks.findIndex((id, index) => blocks.indexOf(id) < index)
  if (block >= 0)
    slips.odd(
      ['blocks', block],
      `${blocks[block]} is listed twice`,
      "write the other block's id, or take one out",
    )
}

function offCalibration(input: JudgedLedger, spray: SprayEntry): Found | [] {
  const { ledger } = input
  const { sprayer, area, water } = factsOf(input, spray)
  if (
    spray.method === 'spot' ||
    !sprayer ||
    water === undefined ||
    !wasInForce(sprayer.calibrated, input, spray)
  )
    return []
  const rates = spray.blocks.flatMap((id) => {
    const block = ledger.blocks.get(id)
    return block ? (rateIn(block, sprayer) ?? []) : []
  })
  if (rates.length === 0 || rates.some((rate) => Math.abs(water / rate - 1) <= 0.25)) return []
  const isPerHa = spray.water!.unit === 'L/ha'
  const ground = ledger.vineyard.units === 'metric' ? 1 : ACRE
  // L/ha if a total was really meant per hectare or acre, or the reverse.
  const { value } = spray.water!
  const meant = !area ? NaN : isPerHa ? (value * ground) / area : value / ground
  const fits = rates.some((rate) => Math.abs(meant / rate - 1) <= 0.1)
  const [is, was] = isPerHa ? ['in all', 'per ground area'] : ['per ground area', 'in all']
  return findingAt(spray, ['water'], {
    level: fits ? 'warning' : 'hint',
    message: `${figureText(water, 'L/ha')}, but ${sprayer.name} applies ${figureText(rates[0]!, 'L/ha')} at ${figureText(sprayer.speed!, 'km/h')} (${mention(sprayer, ['flow'])})`,
    help: fits
      ? `the figure would fit as water ${is}, and is written as water ${was}; correct its unit`
      : 'check the water, or measure the sprayer again',
  })
}

/** ha in an acre (international yard and pound agreement of 1959). */
const ACRE = 0.40468564224

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
      const { sprayer, area, water, minutes } = factsOf(input, spray)
      if (!area || water === undefined || sprayer?.flow === undefined || minutes === undefined) return []
      const most = mostSprayed({ flow: sprayer.flow, minutes })
      if (!exceeds(water * area, most * SLACK)) return []
      return findingAt(spray, ['water'], {
        message: `${figureText(water * area, 'L')} of spray, but ${sprayer.name} applies ${figureText(most, 'L')} in ${minutes} min (${mention(sprayer, ['flow'])})`,
        help: 'check water, rows, times and the flow of the sprayer',
      })
    }),
}
