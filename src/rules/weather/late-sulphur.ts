import { inSeason, judged } from '../../facts/judged.ts'
import { LATE_SULPHUR_DAYS as DAYS, sulphurAdvice } from '../../facts/picking/late-sulphur.ts'
import { ripeningSeen } from '../../facts/ripeness/ripening.ts'
import { daysText, upperFirst } from '../../facts/sentences.ts'
import { holdsSulphur } from '../../facts/spraying/actives.ts'
import type { SprayEntry } from '../../ledger/read/ledger.ts'
import { daysBetween } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { blockName, findingAt, type Rule } from '../rule.ts'

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
