import { mediansWithoutOne, slipped } from '../../agronomy/statistics/median.ts'
import { applications, dosePath, groupedBy, isJudged, type JudgedLedger } from '../../facts/judged.ts'
import { figureText } from '../../facts/sentences.ts'
import type { SprayEntry } from '../../ledger/read/ledger.ts'
import { type Found, findingAt, type Rule } from '../rule.ts'

/** A dose or a volume of water that is about ten times, or a tenth of, what it usually is. */
export const tenTimesUsual: Rule = {
  name: 'ten-times-usual',
  what: 'A dose is eight times the median of its other entries, or an eighth of it. So is the water of a sprayer. A decimal point or a zero may be wrong. It needs at least two other entries.',
  limits: 'A dose counts from 8 times the median of the other entries, or an eighth of it.',
  source: 'own rule; a slip of one decimal place is named as a common fault by Ontario, onfruit.ca 2020',
  basis: 'own',
  check: (input) => [...doses(input), ...waters(input)],
}

function doses(input: JudgedLedger): Found[] {
  const known = applications(input).filter(({ perHa, spray }) => perHa !== null && spray.method !== 'spot')
  return [...groupedBy(known, ({ product, perHa }) => `${product.id} ${perHa!.unit}`).values()].flatMap(
    (list) => {
      const perSpray = new Map(list.map(({ spray, perHa }) => [spray, perHa!.value]))
      if (perSpray.size < 3) return []
      const usualWithout = mediansWithoutOne([...perSpray.values()])
      return list.flatMap((one) => {
        const usual = usualWithout(perSpray.get(one.spray)!)!
        if (!isJudged(input, one.spray) || !slipped(one.perHa!.value, usual)) return []
        return findingAt(one.spray, dosePath(one), {
          message: `${figureText(one.perHa!.value, one.perHa!.unit)} of ${one.product.name}; usual here: ${figureText(usual, one.perHa!.unit)}`,
          help: 'check the decimal point and the unit',
        })
      })
    },
  )
}

function waters(input: JudgedLedger): Found[] {
  const perSpray = new Map<SprayEntry, number>()
  for (const { spray, waterPerHa } of applications(input))
    if (waterPerHa !== null && spray.method !== 'spot') perSpray.set(spray, waterPerHa)
  const bySprayer = groupedBy([...perSpray], ([spray]) => spray.sprayer ?? '')
  return [...bySprayer.values()].flatMap((list) => {
    if (list.length < 3) return []
    const usualWithout = mediansWithoutOne(list.map(([, value]) => value))
    return list.flatMap(([spray, water]) => {
      const usual = usualWithout(water)!
      if (!isJudged(input, spray) || !slipped(water, usual)) return []
      return findingAt(spray, ['water'], {
        message: `${figureText(water, 'L/ha')} of water; usual with this sprayer: ${figureText(usual, 'L/ha')}`,
        help: 'check the figure: per hectare, or in all?',
      })
    })
  })
}
