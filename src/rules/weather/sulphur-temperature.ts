import { sulphurWeather } from '../../agronomy/spraying/spray-weather.ts'
import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { type JudgedLedger, judgedApplications } from '../../facts/judged.ts'
import { figureText } from '../../facts/sentences.ts'
import { holdsSulphur, isOilProduct } from '../../facts/spraying/actives.ts'
import type { Application } from '../../facts/spraying/applications.ts'
import { HOT_DAY, heatAround, VERY_HOT_DAY } from '../../facts/weather/heat-around.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { type Found, findingAt, mention, type Rule } from '../rule.ts'

/** 90 °F in °C. */
const OIL_MOST = (90 - 32) / 1.8

const HELP = 'correct the figure if mistyped; else look for burnt leaves and berries in the next days'

/** Sulphur or oil in heat, which burns leaves. */
export const sulphurHeat: Rule = {
  name: 'sulphur-heat',
  what: 'Sulphur was sprayed at 30 °C or more, oil above 32.2 °C, or a product above the temperature of its label. Leaves and berries may burn. For sulphur, the day of spraying and the next day both count, by the station or a forecast. Sources differ: some see little harm below 29.4 °C at spraying. The first hot days of the year are the risk.',
  limits:
    "Above the product's `temperature` it is an error. Sulphur at 30 °C or more while spraying is a warning. On the hotter of the two days, sulphur is a hint from 29.4 °C (85 °F), and a warning from 35 °C (common practice, no source). Oil counts above 32.2 °C (90 °F).",
  source:
    'AWRI eBulletin, 13 October 2021; University of Minnesota Extension 2021; University of Georgia 2017 (usually safe if applied under 85 °F); UC IPM Pest Notes 7494',
  basis: 'read',
  check: (input) => judgedApplications(input).flatMap((one) => whenSprayed(one) ?? inTheDays(input, one)),
}

/** By the temperature that was noted with the spray. */
function whenSprayed({ spray, product }: Application): Found | null {
  const { temperature, humidity } = spray.weather ?? {}
  if (temperature === undefined) return null
  const at = (level: 'error' | 'warning', why: string) =>
    findingAt(spray, ['weather', 'temperature'], {
      level,
      message: `${product.name} at ${figureText(temperature, '°C')}: ${why}`,
      help: HELP,
    })
  const label = product.temperature
  if (label && exceeds(temperature, label.high))
    return at(
      'error',
      `the label allows up to ${figureText(label.high, '°C')} (${mention(product, ['temperature'])})`,
    )
  if (holdsSulphur(product)) {
    const { band, against } = sulphurWeather({ temperature, humidity })
    return band === 'warn' || band === 'stop'
      ? at('warning', against.join('; ') || 'it may burn from 30 °C')
      : null
  }
  return isOilProduct(product) && exceeds(temperature, OIL_MOST)
    ? at('warning', 'UC IPM Pest Notes 7494: no oil above 32.2 °C (90 °F)')
    : null
}

/** By the heat of the day of spraying and the day after it. */
function inTheDays(input: JudgedLedger, { spray, product }: Application): Found | [] {
  if (!holdsSulphur(product)) return []
  const { highest, date, by } = heatAround(input, spray)
  if (highest === null || highest < HOT_DAY) return []
  const told = by === 'forecast' ? 'is forecast for' : 'was measured on'
  return findingAt(spray, ['date'], {
    level: highest >= VERY_HOT_DAY ? 'warning' : 'hint',
    message: `${product.name} on ${spokenDate(spray.date)}: ${figureText(highest, '°C')} ${told} ${spokenDate(date!)}. Sulphur can burn in heat`,
    help:
      by === 'forecast'
        ? 'wait for cooler days, or take another product'
        : 'look for burnt leaves and berries in the next days',
  })
}

/** °C below which sulphur gives off no vapour, and the figure may have lost a digit. */
const COLD = 10

/** Sulphur in the cold, which gives off little vapour. */
export const sulphurCold: Rule = {
  name: 'sulphur-cold',
  what: 'Sulphur was sprayed below 15 °C, where little of it turns to vapour, though good coverage still works. Or a product was sprayed below the temperature on its label.',
  limits:
    "Below 15 °C is a hint. Below 10 °C (own rule), or below the product's `temperature`, is a warning.",
  source: 'AWRI eBulletin, 13 October 2021, after Emmett et al. 2003',
  basis: 'read',
  check: (input) =>
    judgedApplications(input).flatMap(({ spray, product }) => {
      const { temperature, humidity } = spray.weather ?? {}
      if (temperature === undefined) return []
      const label = product.temperature
      const below = label !== undefined && exceeds(label.low, temperature)
      const weak = holdsSulphur(product) && sulphurWeather({ temperature, humidity }).band === 'weak-vapour'
      if (!below && !weak) return []
      const why = below
        ? `the label names ${figureText(label.low)}-${figureText(label.high, '°C')} (${mention(product, ['temperature'])})`
        : 'little vapour below 15 °C'
      return findingAt(spray, ['weather', 'temperature'], {
        level: below || temperature < COLD ? 'warning' : 'hint',
        message: `${product.name} at ${figureText(temperature, '°C')}: ${why}`,
        help: 'expect good coverage only, and look again sooner',
      })
    }),
}
