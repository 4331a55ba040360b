import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import {
  dosePath,
  groupedBy,
  type JudgedLedger,
  judgedApplications,
  statedTargets,
} from '../../facts/judged.ts'
import { above, figureText, rangeText } from '../../facts/sentences.ts'
import { doseForms } from '../../facts/spraying/applications.ts'
import { type DoseLimit, inFormOf, limitsFor } from '../../facts/spraying/label.ts'
import { dosesOver, OVER_LABEL } from '../../facts/spraying/over-label.ts'
import { type Found, findingAt, mention, type Rule, YOUR_LABEL } from '../rule.ts'

/** More product per ground area, or for leaf wall, than the label allows. */
export const overRate: Rule = {
  name: 'over-rate',
  what: 'The dose per ground area, or per leaf wall, is above the label. A dose written as a total or as a concentration is first converted to the area. Where the label names a maximum per ground area beside another form, both apply.',
  limits: "The limits are `rate` and `max_rate` of the product's `uses`.",
  ...YOUR_LABEL,
  check: (input) => overLimit(input, ({ form }) => form !== 'concentration'),
}

/** More product in the spray than the label allows. */
export const overConcentration: Rule = {
  name: 'over-concentration',
  what: 'The product per litre of spray is above the label. In concentrate spraying (`dilute` is written) the label means the dilute volume, and the dose is converted to it.',
  limits: "The limit is `concentration` of the product's `uses`.",
  source:
    "your label, as copied into the product's record; dilute volume: AWRI, Spray application in vineyards, year not known",
  basis: 'read',
  check: (input) => overLimit(input, ({ form }) => form === 'concentration'),
}

/** Doses above the label's maximum, in the forms asked for. */
function overLimit(input: JudgedLedger, isAsked: (limit: DoseLimit) => boolean): Found[] {
  return judgedApplications(input).flatMap((one) =>
    dosesOver(one)
      .filter(({ limit }) => isAsked(limit))
      .map(({ limit: { high, unit, against, path, inWater }, value }) => {
        const derived =
          inWater === undefined ? '' : `, in the label's minimum water, ${figureText(inWater, 'L/ha')}`
        return findingAt(one.spray, dosePath(one), {
          level: 'error',
          message: `${figureText(value, unit)} of ${one.product.name} is ${above(value, high)} the label's maximum, ${figureText(high, unit)} against ${against}${derived} (${mention(one.product, path)})`,
          help: `if mistyped, correct it here or in ${mention(one.product, path)}. If it was really sprayed, ${OVER_LABEL}`,
        })
      }),
  )
}

/** Less product than the label says is enough. */
export const underRate: Rule = {
  name: 'under-rate',
  what: 'The dose is below the label, per ground area or per litre of spray. Too little may not protect, and selects for resistance. Where several targets are named, the highest minimum counts; where none is named, the lowest.',
  limits: "The limit is the lower end of `rate` and of `concentration` in the product's `uses`.",
  ...YOUR_LABEL,
  check: (input) =>
    judgedApplications(input).flatMap((one) => {
      const targets = statedTargets(one)
      const dose = doseForms(one)
      // A spot is sprayed until it is wet: only what is in the spray can be too little.
      const isSpot = one.spray.method === 'spot'
      const limits = limitsFor(one.product, targets).filter(({ form }) => !isSpot || form === 'concentration')
      return [...groupedBy(limits, ({ form, unit }) => `${form} ${unit}`).values()].flatMap((same) => {
        const limit = same.reduce((a, b) => (b.low > a.low === (targets !== undefined) ? b : a))
        const value = inFormOf(limit, dose)
        if (value === null || !exceeds(limit.low, value)) return []
        return findingAt(one.spray, dosePath(one), {
          message: `${figureText(value, limit.unit)} of ${one.product.name} is below the label's minimum, ${figureText(limit.low, limit.unit)} against ${limit.against} (${mention(one.product, limit.path)})`,
          help: `if mistyped, correct it here or in ${mention(one.product, limit.path)}; else expect less protection`,
        })
      })
    }),
}

/** A dose by mass of a product that its label measures by volume, or the other way round. */
export const doseUnit: Rule = {
  name: 'dose-unit',
  what: "The entry gives the product in kg and its label in L, or the other way round. So the dose can't be compared with the label.",
  source: 'own rule: one product is measured in one way',
  basis: 'own',
  check: (input) =>
    judgedApplications(input)
      .filter(({ perHa }) => perHa !== null)
      .flatMap((one) => {
        const typed = one.perHa!.unit.startsWith('kg') ? 'kg' : 'L'
        const doses = limitsFor(one.product, undefined).filter(({ unit }) => unit !== '%')
        const units = new Set(doses.map(({ unit }) => (/^k?g/.test(unit) ? 'kg' : 'L')))
        if (units.size !== 1 || units.has(typed)) return []
        return findingAt(one.spray, dosePath(one), {
          level: 'error',
          message: `${one.product.name} is entered in ${typed}, but its label is in ${[...units][0]} (${mention(one.product, doses[0]!.path)})`,
          help: 'write the dose in the unit of the label, so that it can be checked',
        })
      }),
}

/** More or less water per ground area than the label names. */
export const waterOutsideLabel: Rule = {
  name: 'water-outside-label',
  what: "The water per ground area is outside the label's range. A total is first converted to the area treated. A spot spray is not judged by water: its concentration counts.",
  limits: "The limit is the product's `water`.",
  ...YOUR_LABEL,
  check: (input) =>
    judgedApplications(input).flatMap(({ spray, product, waterPerHa }) => {
      const range = product.water
      if (!range || waterPerHa === null || spray.method === 'spot') return []
      if (!exceeds(waterPerHa, range.high) && !exceeds(range.low, waterPerHa)) return []
      return findingAt(spray, ['water'], {
        level: 'error',
        message: `${figureText(waterPerHa, 'L/ha')} is outside the label of ${product.name}, ${rangeText(range)} (${mention(product, ['water'])})`,
        help: `if mistyped, correct it here or in ${mention(product, ['water'])}; else ask whether the label allows this volume`,
      })
    }),
}
