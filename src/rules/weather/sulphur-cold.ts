import { sulphurWeather } from '../../agronomy/spraying/spray-weather.ts'
import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { judgedApplications } from '../../facts/judged.ts'
import { once, say } from '../../facts/say.ts'
import { holdsSulphur } from '../../facts/spraying/actives.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** Below this nothing of it turns to vapour, and a figure may have lost a digit; °C. */
const COLD = 10

/** Sulphur in the cold, which gives off little vapour. */
export const sulphurCold: Rule = {
  name: 'sulphur-cold',
  about: {
    what: 'Sulphur was sprayed below 15 °C, where little of it turns to vapour, though good coverage still works. Or a product was sprayed below the temperature on its label.',
    limits: "15 °C, a hint; 10 °C (own rule) and the product's `temperature`, a warning",
    source: 'AWRI eBulletin, 13 October 2021, after Emmett et al. 2003',
    basis: 'read',
  },
  check: (book) =>
    once(
      judgedApplications(book).flatMap(({ spray, product }) => {
        const { temperature, humidity } = spray.weather ?? {}
        if (temperature === undefined) return []
        const label = product.temperature
        const below = label !== undefined && exceeds(label.low, temperature)
        const weak = holdsSulphur(product) && sulphurWeather({ temperature, humidity }).band === 'weak-vapour'
        if (!below && !weak) return []
        const why = below
          ? `the label names ${say(label.low)}-${say(label.high, '°C')} (${mention(product, ['temperature'])})`
          : 'little vapour below 15 °C'
        return [
          findingAt(spray, ['weather', 'temperature'], {
            name: 'sulphur-cold',
            level: below || temperature < COLD ? 'warning' : 'hint',
            message: `${product.id} at ${say(temperature, '°C')}: ${why}`,
            help: 'expect good coverage only, and look again sooner',
          }),
        ]
      }),
    ),
}
