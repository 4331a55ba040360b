import { volumePerHectare } from '../../agronomy/spraying/calibration.ts'
import { checkNozzles } from '../../agronomy/spraying/nozzle-check.ts'
import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { median } from '../../agronomy/statistics/median.ts'
import { applications, type JudgedLedger, judged } from '../../facts/judged.ts'
import { figureText } from '../../facts/sentences.ts'
import type { Named, SprayEntry } from '../../ledger/read/ledger.ts'
import { seasonOf } from '../../ledger/read/seasons.ts'
import { daysBetween, type IsoDate } from '../../records/date.ts'
import type { Block } from '../../records/kinds/block.ts'
import type { Sprayer } from '../../records/kinds/sprayer.ts'
import { longDate } from '../../records/spoken-date.ts'
import { findingAt, mention, type Rule } from '../rule.ts'
import { type Slips, slipsIn, type Usual } from './usual.ts'

/** A sprayer whose figures no sprayer has, or whose nozzles don't agree with each other or with its flow. */
export const unlikelySprayer: Rule = {
  name: 'unlikely-sprayer',
  what: 'Tank, flow, speed or pressure are far from those of vineyard sprayers. Or a nozzle is more than 10 % off the mean, or all together that far off the flow. Or the tank would be empty in a minute and a half, or last more than eight hours. Or a knapsack holds more than anybody carries, or a mounted tank less than any tractor. Or its water for a hectare does not fit its flow and speed. Or all its sprays since it was calibrated are a quarter off what flow and speed give.',
  limits:
    'Usual are: a tank of 3 to 4000 L (a knapsack up to 30 L, on a tractor from 50 L); a flow of 0.2 to 120 L/min; a speed of 0.2 to 12 km/h; a pressure of 0.9 to 60 bar; nozzles within 10 %. Sprays are compared from two on, and count from a quarter off.',
  source: 'nozzles: state publications quoted on Florida study pages; the rest common practice, no source',
  basis: 'common practice',
  check: (input) =>
    slipsIn(input.ledger.sprayers.values(), (slips, sprayer) => {
      const { id, name, tank, flow, nozzles } = sprayer
      againstSprays(slips, input, sprayer)
      ofItself(slips, input, sprayer)
      const isCarried = /knapsack|backpack/i.test(`${id} ${name}`)
      const isSmall = isCarried || /quad|atv|mist|spot|wheel|barrow/i.test(`${id} ${name}`)
      const isPulled = !isSmall && /mounted|tractor|trailed|air.?(?:assist|blast)/i.test(`${id} ${name}`)
      slips.unusual(['tank'], tank, 'tank', [isPulled ? 50 : 3, isCarried ? 30 : 4000, 'L'])
      slips.unusual(['tank'], flow && tank / flow, 'time to spray out the tank', [1.5, 480, 'min'])
      slips.compare(USUAL)
      if (nozzles) ofNozzles(slips, nozzles, flow)
    }),
}

const USUAL: Usual = {
  flow: ['flow', 0.2, 120, 'L/min'],
  speed: ['speed', 0.2, 12, 'km/h'],
  pressure: ['pressure', 0.9, 60, 'bar'],
}

function ofNozzles(slips: Slips, nozzles: readonly number[], flow: number | undefined): void {
  const check = checkNozzles(nozzles)
  const sum = check.mean * nozzles.length
  for (const [index, { ok, flow: one, deviation }] of check.nozzles.entries())
    if (!ok)
      slips.odd(
        ['nozzles', index],
        `nozzle ${index + 1} gives ${figureText(one, 'L/min')}, ${figureText(Math.abs(deviation) * 100, '%')} off the mean of ${figureText(check.mean, 'L/min')}`,
        'measure this nozzle again for a minute; clean or replace it',
      )
  if (flow !== undefined && exceeds(Math.max(sum / flow, 2 - sum / flow), 1.1))
    slips.odd(
      ['flow'],
      `the flow is ${figureText(flow, 'L/min')}, but the nozzles add up to ${figureText(sum, 'L/min')}`,
      '`flow` is that of all nozzles together; measure each again, and look for one left out',
    )
}

/** Share by which water and calibration may differ. */
const OFF = 1.25

/** L/ha that a sprayer applies in the rows of a block by its flow and speed; null where one isn't known. */
export const rateIn = (
  { row_spacing }: Pick<Block, 'row_spacing'>,
  { flow, speed, rows_per_pass = 1 }: Sprayer,
): number | null =>
  flow === undefined || speed === undefined
    ? null
    : volumePerHectare({ flow, speed, width: row_spacing * rows_per_pass })

/** Water for a hectare that flow and speed give in no block's rows. */
function ofItself(slips: Slips, { ledger }: JudgedLedger, sprayer: Named<Sprayer>): void {
  const { water, flow, speed } = sprayer
  const rates = [...ledger.blocks.values()].flatMap((block) => rateIn(block, sprayer) ?? [])
  if (water === undefined || rates.length === 0) return
  if (!rates.some((rate) => rate < water * OFF && rate * OFF > water))
    slips.odd(
      ['water'],
      `${figureText(water, 'L/ha')}, but with ${figureText(flow!, 'L/min')} at ${figureText(speed!, 'km/h')} it applies ${figureText(median(rates)!, 'L/ha')}`,
      'measure flow and speed again, or correct `water`',
    )
}

/** A flow or a speed with which none of the sprays since the calibration can have been done. */
function againstSprays(slips: Slips, input: JudgedLedger, sprayer: Named<Sprayer>): void {
  const { flow, speed } = sprayer
  const mine = applications(input).filter(
    ({ spray, waterPerHa }) =>
      spray.sprayer === sprayer.id &&
      spray.method !== 'spot' &&
      waterPerHa !== null &&
      wasInForce(sprayer.calibrated, input, spray),
  )
  const ratios = mine.flatMap(({ block, waterPerHa }) => {
    const rate = rateIn(block, sprayer)
    return rate === null ? [] : rate / waterPerHa!
  })
  if (ratios.length === 0 || new Set(mine.map(({ spray }) => spray)).size < 2) return
  if (ratios.every((one) => one > OFF) || ratios.every((one) => one < 1 / OFF))
    slips.odd(
      ['flow'],
      `with ${figureText(flow!, 'L/min')} at ${figureText(speed!, 'km/h')} it applies ${figureText(median(ratios)!)} times the water of its sprays`,
      'check the flow (of all nozzles, L/min) and the speed (km/h), then the water of the sprays',
    )
}

const YEAR = 366
/** A calibration older than this is more likely a mistyped year. */
const SLIP = 5 * YEAR

/** A sprayer that was measured too long ago. */
export const calibrationOld: Rule = {
  name: 'calibration-old',
  what: 'A sprayer was used more than a year after its flow was measured (a hint, once a season).',
  limits: 'A hint after one year. After five years, a warning at the record of the sprayer.',
  source: 'common practice, no source: measure before each season',
  basis: 'common practice',
  check(input) {
    const said = new Set<string>()
    return judged(input, 'sprays').flatMap((spray) => {
      const sprayer = input.ledger.sprayers.get(spray.sprayer ?? '')
      if (sprayer?.calibrated === undefined) return []
      const days = daysBetween(sprayer.calibrated, spray.date)
      const key = days > SLIP ? sprayer.id : `${sprayer.id} ${spray.season}`
      if (days <= YEAR || said.has(key)) return []
      said.add(key)
      if (days > SLIP)
        return findingAt(sprayer, ['calibrated'], {
          message: `${sprayer.name} was measured on ${longDate(sprayer.calibrated)}, and used on ${longDate(spray.date)} (${mention(spray, ['date'])})`,
          help: 'correct the year, or measure it again: `rowbook calibrate`',
        })
      return findingAt(spray, ['sprayer'], {
        level: 'hint',
        message: `the flow of ${sprayer.name} was measured ${days} d before (${mention(sprayer, ['calibrated'])})`,
        help: 'measure it again: `rowbook calibrate`',
      })
    })
  },
}

/** Whether a calibration was valid on the day of a spray; before it was measured, the output is unknown. */
export const wasInForce = (
  calibrated: IsoDate | undefined,
  { ledger, asOf }: JudgedLedger,
  { date, season }: SprayEntry,
): boolean => (calibrated === undefined ? season === seasonOf(ledger.vineyard, asOf) : calibrated <= date)
