import type { Book } from '../../facts/book.ts'
import { judged } from '../../facts/judged.ts'
import { once } from '../../facts/say.ts'
import { DRYING_HOURS, reEntryEnd, sayReEntry } from '../../facts/spraying/re-entry.ts'
import { endMinutes } from '../../facts/spraying/spray-end.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import type { Named, PickEntry, SprayEntry, WorkEntry } from '../../ledger/read/ledger.ts'
import { addDays, type IsoDate } from '../../records/date.ts'
import type { Product } from '../../records/product.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { clockText } from '../../records/time-range.ts'
import { instantOf } from '../../records/zone.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** Days: spraying may end at the close of the day after, and clocks may change. */
const MARGIN = 3

/** People in a block before the re-entry time of a spray was over. */
export const insideReEntry: Rule = {
  name: 'inside-re-entry',
  about: {
    what: 'Work or picking is entered inside the re-entry interval (REI): elapsed hours from the end of spraying, across clock changes, the longest of the products in the tank. Where a label says `until dry`, the day of spraying counts as closed unless the times written lie two hours or more apart (common practice, no source). Where times are not written it is an error only if no reading keeps the people out; else a warning, or a hint where the work most likely came before.',
    limits: "the product's `re_entry`",
    source:
      "the label as copied into the product's record; longest of several, from the end of spraying: 40 CFR 170.112 (2007 text)",
    basis: 'read',
  },
  check(book) {
    const waits = book.ledger.sprays.filter(({ date }) => date <= book.asOf).flatMap(waitAfter(book))
    const people = [
      ...judged(book, 'work').filter(({ job }) => !/spray/i.test(job)),
      ...judged(book, 'picks'),
    ]
    return once(
      people.flatMap((entry) => {
        // Work that runs past midnight can meet a spray of the next day.
        const last = addDays(entry.date, 1)
        return waits
          .filter(({ spray: { blocks, date } }) => date <= last && blocks.includes(entry.block))
          .filter(({ lastDay }) => entry.date <= lastDay)
          .flatMap((wait) => inside(book, wait, entry))
      }),
    )
  },
}

interface Wait {
  spray: SprayEntry
  products: Named<Product>[]
  /** Whoever comes after this day comes after the wait, in plain days: what the clocks show takes longer to find. */
  lastDay: IsoDate
}

const waitAfter =
  ({ ledger }: Book) =>
  (spray: SprayEntry): Wait[] => {
    const products = spray.products.flatMap(({ product }) => ledger.products.get(product) ?? [])
    const hours = products.map(({ re_entry }) =>
      typeof re_entry === 'number' ? re_entry : re_entry ? 24 : 0,
    )
    const longest = Math.max(0, ...hours)
    if (longest === 0) return []
    return [{ spray, products, lastDay: addDays(spray.date, Math.ceil(longest / 24) + MARGIN) }]
  }

function inside({ ledger }: Book, { spray, products }: Wait, entry: WorkEntry | PickEntry): Finding[] {
  const zone = ledger.vineyard.timezone
  const at = (date: string, minutes: number) => instantOf(date, minutes, zone)
  const last = reEntryEnd(spray, products, { zone })
  const sprayStart = at(spray.date, spray.time?.start ?? 0)
  if (!last || last.hours === 0) return []
  const latest = last.instant
  const firstEnding = spray.time ? (spray.time.end ?? spray.time.start) : 0
  const inHours = products.filter(({ re_entry }) => re_entry !== 'until dry')
  const earliest = reEntryEnd(spray, inHours, { zone, end: firstEnding })?.instant ?? sprayStart
  const start = at(entry.date, entry.time?.start ?? 0)
  // `until dry` has no hours: who comes in after the usual drying time has looked, and is not accused.
  const dryBy = at(spray.date, endMinutes(spray)) + DRYING_HOURS * 3_600_000
  if (last.hours === null && entry.time && spray.time && start >= Math.max(dryBy, earliest)) return []
  const end = at(entry.date, entry.time?.end ?? entry.time?.start ?? 1440)
  const lastStart = entry.time ? start : at(entry.date, 1440)
  const firstEnd = entry.time ? end : start
  if (start >= latest || end <= sprayStart) return []
  const lastSprayStart = spray.time ? sprayStart : at(spray.date, 1440)
  const sure = lastStart <= earliest && firstEnd >= lastSprayStart
  const before = !entry.time && entry.date === spray.date && (!spray.time || spray.time.start >= 720)
  const over = last
  const after = !entry.time && over.date === entry.date && over.minutes <= 720
  const longest = products.find(({ id }) => id === last.by)!
  return [
    findingAt(entry, entry.time ? ['time'] : ['date'], {
      name: 'inside-re-entry',
      level: sure ? 'error' : before || after ? 'hint' : 'warning',
      message: `keep out of ${entry.block} until ${spokenDate(over.date)} ${clockText(over.minutes)}: re-entry interval (REI) of ${longest.id}: ${sayReEntry(last.hours)} (${mention(longest, ['re_entry'])}) after the spray of ${spray.date} (${mention(spray, ['date'])})`,
      help: sure
        ? 'correct the entry if it is a slip; if people were in, see the label for what to do'
        : 'write the times of spraying and of the work, so that it can be told',
    }),
  ]
}
