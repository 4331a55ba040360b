import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { type JudgedLedger, judged } from '../../facts/judged.ts'
import { figureText } from '../../facts/sentences.ts'
import { isBicarbonate } from '../../facts/spraying/actives.ts'
import { type Application, applicationsOf } from '../../facts/spraying/applications.ts'
import { heatAround } from '../../facts/weather/heat-around.ts'
import type { SprayEntry } from '../../ledger/read/ledger.ts'
import { type Found, findingAt, PRACTICE, type Rule } from '../rule.ts'

/** g/L above which bicarbonate can burn in heat. Common practice, no source. */
const STRONG = 10
/** °C from which a day counts as warm enough for that. Common practice, no source. */
const WARM = 25

/** Bicarbonate so strong that it can burn leaves in heat. */
export const strongBicarbonate: Rule = {
  name: 'strong-bicarbonate',
  what: 'Bicarbonate above about 10 g/L of spray can burn leaves in heat. A hint, unless the day of spraying and the next are known to have stayed cool.',
  limits: 'The limits are 10 g/L, and 25 °C on the day of spraying or the next.',
  ...PRACTICE,
  check: (input) =>
    judged(input, 'sprays').flatMap((spray) =>
      strongParts(input, spray, applicationsOf(input.ledger, [spray])),
    ),
}

function strongParts(input: JudgedLedger, spray: SprayEntry, onBlocks: readonly Application[]): Found[] {
  return spray.products.flatMap(({ product: id }, index) => {
    const product = input.ledger.products.get(id)
    if (!product || !isBicarbonate(product)) return []
    const strength = strengthOf(spray, index, onBlocks)
    if (strength === null || !exceeds(strength, STRONG)) return []
    const { highest, complete } = heatAround(input, spray)
    const hottest = Math.max(highest ?? -Infinity, spray.weather?.temperature ?? -Infinity)
    if (hottest < WARM && complete) return []
    const heat =
      hottest >= WARM ? `, and it was ${figureText(hottest, '°C')}` : '; the temperature is not known'
    return findingAt(spray, ['products', index, 'product'], {
      level: 'hint',
      message: `${figureText(strength, 'g/L')} of ${product.name}: bicarbonate above about ${STRONG} g/L can burn leaves in heat${heat}`,
      help: 'use more water or less product within the label, spray in the cool of the day, and look for burnt leaves',
    })
  })
}

/** g/L of a product in the tank: as calculated on a block, else as written. */
function strengthOf(spray: SprayEntry, part: number, onBlocks: readonly Application[]): number | null {
  const worked = onBlocks.find((one) => one.part === part)?.concentration
  if (worked) return worked.unit === 'g/L' ? worked.value : null
  const { rate, concentration } = spray.products[part]!
  if (concentration) return concentration.value * (concentration.unit === '%' ? 10 : 1)
  const water = spray.water?.unit === 'L/ha' ? spray.water.value : null
  return rate?.unit === 'kg/ha' && water ? (rate.value * 1000) / water : null
}
