import { sulphurWeather } from '../../agronomy/spraying/spray-weather.ts'
import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { applications, isJudged } from '../../facts/judged.ts'
import { once, say } from '../../facts/say.ts'
import { holdsSulphur } from '../../facts/spraying/actives.ts'
import { isOil } from '../label/kept-apart.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** 90 °F in °C. */
const OIL_MOST = (90 - 32) / 1.8

/** Sulphur or oil in heat, which burns leaves. */
export const sulphurHeat: Rule = {
  name: 'sulphur-heat',
  about: {
    what: 'Sulphur was sprayed at 30 °C or more, or oil above 32.2 °C, or a product above the temperature of its label: leaves and berries may burn.',
    limits: "the product's `temperature` (error above it); sulphur: warning from 30 °C; oil: 32.2 °C (90 °F)",
    source: 'AWRI eBulletin, 13 October 2021; University of Minnesota Extension 2021; UC IPM Pest Notes 7494',
    basis: 'read',
  },
  check: (book) =>
    once(
      applications(book)
        .filter(({ spray }) => isJudged(book, spray))
        .flatMap(({ spray, product }) => {
          const { temperature, humidity } = spray.weather ?? {}
          if (temperature === undefined) return []
          const at = (level: 'error' | 'warning', why: string) =>
            findingAt(spray, ['weather', 'temperature'], {
              name: 'sulphur-heat',
              level,
              message: `${product.id} at ${say(temperature, '°C')}: ${why}`,
              help: 'correct the figure if it is a slip; else look for burnt leaves in the next days',
            })
          const label = product.temperature
          if (label && exceeds(temperature, label.high))
            return [
              at(
                'error',
                `the label allows up to ${say(label.high, '°C')} (${mention(product, ['temperature'])})`,
              ),
            ]
          if (holdsSulphur(product)) {
            const { band, against } = sulphurWeather({ temperature, humidity })
            return band === 'warn' || band === 'stop'
              ? [at('warning', against.join('; ') || 'it may burn from 30 °C')]
              : []
          }
          return isOil(product) && exceeds(temperature, OIL_MOST)
            ? [at('warning', 'UC IPM Pest Notes 7494: no oil above 32.2 °C (90 °F)')]
            : []
        }),
    ),
}
