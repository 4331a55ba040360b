import { deltaT } from '../../agronomy/spraying/delta-t.ts'
import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { inSeason, type JudgedLedger, judged } from '../../facts/judged.ts'
import { LATE_SULPHUR_DAYS as DAYS, sulphurAdvice } from '../../facts/picking/late-sulphur.ts'
import { ripeningSeen } from '../../facts/ripeness/ripening.ts'
import { daysText, figureText, upperFirst } from '../../facts/sentences.ts'
import { holdsSulphur, isBicarbonate } from '../../facts/spraying/actives.ts'
import { applicationsOf } from '../../facts/spraying/applications.ts'
import { heatAround } from '../../facts/weather/heat-around.ts'
import type { SprayEntry } from '../../ledger/read/ledger.ts'
import { daysBetween } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { blockName, findingAt, PRACTICE, type Rule } from '../rule.ts'

/** Sulphur sprayed so late that it can reach the must. */
export const lateSulphur: Rule = {
  name: 'late-sulphur',
  what: "Sulphur sprayed less than 35 days before picking, or after veraison began, can stay on the fruit. In the wine it can turn to hydrogen sulphide (rotten egg). Settling clear white must removes over 95 % of it. Fermentation on the skins nearly triples the hydrogen sulphide. A hint, not a legal limit: that is the label's pre-harvest interval (PHI).",
  limits: 'Sulphur that ended 35 days before picking left less than 10 µg/g.',
  source: 'Kwasniewski, Sacks & Wilcox 2014, Am. J. Enol. Vitic. 65:453-462 (abstract read)',
  basis: 'read',
  check: (input) => {
    const { ledger } = input
    const ripening = ripeningSeen(input)
    const picks = inSeason(input, ledger.picks)
    /** Why a spray of a block counts as late; null where it doesn't. */
    const lateBy = ({ date, season }: SprayEntry, block: string): string | null => {
      const name = blockName(input, block)
      const pick = picks({ block, season }).find((one) => one.date >= date)
      const days = pick && daysBetween(date, pick.date)
      if (days !== undefined)
        return days < DAYS ? `${daysText(days)} before ${name} was picked on ${spokenDate(pick!.date)}` : null
      const turned = ripening({ block, season })
      return turned && turned.date <= date ? `after veraison began in ${name}` : null
    }
    return judged(input, 'sprays').flatMap((spray) =>
      spray.products.flatMap(({ product: id }, index) => {
        const product = ledger.products.get(id)
        if (!product || !holdsSulphur(product)) return []
        const late = spray.blocks.filter((block) => lateBy(spray, block) !== null)
        if (late.length === 0) return []
        return findingAt(spray, ['products', index, 'product'], {
          level: 'hint',
          message: `${product.name} was sprayed ${lateBy(spray, late[0]!)}. Sulphur can reach the must if sprayed within ${DAYS} days of harvest. ${upperFirst(sulphurAdvice(ledger, late))}`,
          help: 'tell whoever makes the wine. Next time, end sulphur 35 days before picking (Kwasniewski, Sacks & Wilcox 2014)',
        })
      }),
    )
  },
}

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
      spray.products.flatMap(({ product: id }, part) => {
        const product = input.ledger.products.get(id)
        if (!product || !isBicarbonate(product)) return []
        const strength = strengthOf(input, spray, part)
        if (strength === null || !exceeds(strength, STRONG)) return []
        const { highest, complete } = heatAround(input, spray)
        const hottest = Math.max(highest ?? -Infinity, spray.weather?.temperature ?? -Infinity)
        if (hottest < WARM && complete) return []
        const heat =
          hottest >= WARM ? `, and it was ${figureText(hottest, '°C')}` : '; the temperature is not known'
        return findingAt(spray, ['products', part, 'product'], {
          level: 'hint',
          message: `${figureText(strength, 'g/L')} of ${product.name}: bicarbonate above about ${STRONG} g/L can burn leaves in heat${heat}`,
          help: 'use more water or less product within the label, spray in the cool of the day, and look for burnt leaves',
        })
      }),
    ),
}

/** g/L of a product in the tank: as calculated on a block, else as written. */
function strengthOf({ ledger }: JudgedLedger, spray: SprayEntry, part: number): number | null {
  const worked = applicationsOf(ledger, [spray]).find((one) => one.part === part)?.concentration
  if (worked) return worked.unit === 'g/L' ? worked.value : null
  const { rate, concentration } = spray.products[part]!
  if (concentration) return concentration.value * (concentration.unit === '%' ? 10 : 1)
  const water = spray.water?.unit === 'L/ha' ? spray.water.value : null
  return rate?.unit === 'kg/ha' && water ? (rate.value * 1000) / water : null
}

/** Air too dry or too moist for drops. */
export const deltaTRule: Rule = {
  name: 'delta-t',
  what: 'Air and wet bulb (Delta T) were under 2 °C apart or over 8 °C apart. In moist air drops hang; in dry air they dry on their way.',
  limits: 'Outside 2 to 8 °C is a hint. Over 10 °C is a warning.',
  source:
    'Australian Bureau of Meteorology, year not known, second-hand, quoted by others; wet bulb by the psychrometric equation, ASHRAE Handbook Fundamentals 2017, chapter 1, from memory',
  basis: 'memory',
  check: (input) =>
    judged(input, 'sprays').flatMap((spray) => {
      const { temperature, humidity } = spray.weather ?? {}
      if (temperature === undefined || humidity === undefined) return []
      const { value, band } = deltaT({ temperature, humidity })
      if (value === null || band === 'ideal') return []
      return findingAt(spray, ['weather', 'temperature'], {
        level: band === 'over' ? 'warning' : 'hint',
        message: `air and wet bulb were ${value.toFixed(1)} °C apart (Delta T): ${WHY[band]}`,
        help: 'spray at another hour, or with coarser drops',
      })
    }),
}

const WHY = {
  under: 'under 2 °C apart, drops hang in moist air',
  marginal: 'over 8 °C apart, drops begin to dry on their way',
  over: 'over 10 °C apart, drops dry on their way',
}
