import { mediansWithoutOne, slipped } from '../../agronomy/statistics/median.ts'
import { applications, dosePath, groupedBy, isJudged } from '../../facts/judged.ts'
import { figureText } from '../../facts/sentences.ts'
import { findingAt, type Rule } from '../rule.ts'

/** A dose or a volume of water that is about ten times, or a tenth of, what it usually is. */
export const tenTimesUsual: Rule = {
  name: 'ten-times-usual',
  what: 'A dose is eight times the median of its other entries, or an eighth of it. So is the water of a sprayer. A decimal point or a zero may be wrong. It needs at least two other entries.',
  limits: 'A dose counts from 8 times the median of the other entries, or an eighth of it.',
  source: 'own rule; a slip of one decimal place is named as a common fault by Ontario, onfruit.ca 2020',
  basis: 'own',
  check: (input) => {
    const known = applications(input).filter(({ spray }) => spray.method !== 'spot')
    const doses = known.flatMap((one) => {
      const { perHa, product, spray } = one
      const of = `of ${product.name}; usual here`
      const help = 'check the decimal point and the unit'
      return perHa
        ? { ...perHa, key: `${product.id} ${perHa.unit}`, spray, path: dosePath(one), of, help }
        : []
    })
    const waters = known.flatMap(({ spray, waterPerHa: value }) => {
      const of = 'of water; usual with this sprayer'
      const help = 'check the figure: per hectare, or in all?'
      return value === null
        ? []
        : { value, unit: 'L/ha', key: `water ${spray.sprayer}`, spray, path: ['water'], of, help }
    })
    return [...groupedBy([...doses, ...waters], ({ key }) => key).values()].flatMap((list) => {
      const perSpray = new Map(list.map(({ spray, value }) => [spray, value]))
      if (perSpray.size < 3) return []
      const usualWithout = mediansWithoutOne([...perSpray.values()])
      return list.flatMap(({ spray, path, value, unit, of, help }) => {
        const usual = usualWithout(perSpray.get(spray)!)!
        if (!isJudged(input, spray) || !slipped(value, usual)) return []
        const message = `${figureText(value, unit)} ${of}: ${figureText(usual, unit)}`
        return findingAt(spray, path, { message, help })
      })
    })
  },
}
