import { countBefore, inSeason, type JudgedLedger, judged } from '../../facts/judged.ts'
import { LATE_SULPHUR_DAYS as DAYS, sulphurAdvice } from '../../facts/picking/late-sulphur.ts'
import { type RipeningSeen, ripeningSeen } from '../../facts/ripeness/ripening.ts'
import { daysText, upperFirst } from '../../facts/sentences.ts'
import { holdsSulphur } from '../../facts/spraying/actives.ts'
import type { PickEntry, SprayEntry } from '../../ledger/read/ledger.ts'
import { daysBetween } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { blockName, type Found, findingAt, type Rule } from '../rule.ts'

/** Sulphur sprayed so late that it can reach the must. */
export const lateSulphur: Rule = {
  name: 'late-sulphur',
  what: "Sulphur sprayed less than 35 days before picking, or after veraison began, can stay on the fruit. In the wine it can turn to hydrogen sulphide (rotten egg). Settling clear white must removes over 95 % of it. Fermentation on the skins nearly triples the hydrogen sulphide. A hint, not a legal limit: that is the label's pre-harvest interval (PHI).",
  limits: 'Sulphur that ended 35 days before picking left less than 10 µg/g.',
  source: 'Kwasniewski, Sacks & Wilcox 2014, Am. J. Enol. Vitic. 65:453-462 (abstract read)',
  basis: 'read',
  check: (input) => {
    const known = { ripening: ripeningSeen(input), picks: inSeason(input, input.ledger.picks) }
    return judged(input, 'sprays').flatMap((spray) =>
      spray.products.flatMap(({ product: id }, index) => {
        const product = input.ledger.products.get(id)
        return product && holdsSulphur(product)
          ? onBlocks(input, spray, { name: product.name, index, known })
          : []
      }),
    )
  },
}

interface Known {
  ripening: RipeningSeen
  picks: (of: { block: string; season: number }) => readonly PickEntry[]
}

function onBlocks(
  input: JudgedLedger,
  spray: SprayEntry,
  part: { name: string; index: number; known: Known },
): Found | [] {
  const late = spray.blocks.flatMap((id) => {
    const when = lateBy(part.known, spray, { id, name: blockName(input, id) })
    return when === null ? [] : [{ id, when }]
  })
  const [first] = late
  if (!first) return []
  const what = sulphurAdvice(
    input.ledger,
    late.map(({ id }) => id),
  )
  return findingAt(spray, ['products', part.index, 'product'], {
    level: 'hint',
    message: `${part.name} was sprayed ${first.when}. Sulphur can reach the must if sprayed within ${DAYS} days of harvest. ${upperFirst(what)}`,
    help: 'tell whoever makes the wine. Next time, end sulphur 35 days before picking (Kwasniewski, Sacks & Wilcox 2014)',
  })
}

/** Why a spray of a block counts as late; null where it doesn't. */
function lateBy(
  { ripening, picks }: Known,
  spray: SprayEntry,
  { id, name }: { id: string; name: string },
): string | null {
  const here = { block: id, season: spray.season }
  const list = picks(here)
  const pick = list[countBefore(list, spray.date, ({ date }) => date)]
  if (pick) {
    const days = daysBetween(spray.date, pick.date)
    return days < DAYS ? `${daysText(days)} before ${name} was picked on ${spokenDate(pick.date)}` : null
  }
  const turned = ripening(here)
  return turned && turned.date <= spray.date ? `after veraison began in ${name}` : null
}
