import { countBefore, type JudgedLedger, judged } from '../../facts/judged.ts'
import { DRYING_HOURS, reEntryEnd, reEntryHoursText, untilText } from '../../facts/spraying/re-entry.ts'
import { endMinutes } from '../../facts/spraying/spray-end.ts'
import type { Ledger, Named, PickEntry, SprayEntry, WorkEntry } from '../../ledger/read/ledger.ts'
import { addDays, daysBetween } from '../../records/date.ts'
import type { Product } from '../../records/kinds/product.ts'
import { longDate } from '../../records/spoken-date.ts'
import { instantOf } from '../../records/zone.ts'
import { blockName, type Found, findingAt, mention, type Rule } from '../rule.ts'

/** Days: spraying may end at the close of the day after, and clocks may change. */
const MARGIN = 3

/** People in a block before a spray's re-entry interval was over. */
export const insideReEntry: Rule = {
  name: 'inside-re-entry',
  what: 'Work or picking falls inside the re-entry interval (REI). It is the longest of the products in the tank, in elapsed hours from the end of spraying. Where a label says `until dry`, the day of spraying counts as closed. Recorded times two hours or more apart open it (common practice, no source). Where times are missing, it is an error only if people were inside by every reading. Else it is a warning, or a hint where the work most likely came first. Of several sprays, the one that most surely and longest forbids entry is named.',
  limits: "The limit is the product's `re_entry`.",
  source:
    "the label as copied into the product's record; longest of several, from the end of spraying: 40 CFR 170.112 (2007 text)",
  basis: 'read',
  check(input) {
    const { ledger } = input
    const waits = waitsByBlock(input)
    const people = [
      ...judged(input, 'work').filter(({ job }) => !/spray/i.test(job)),
      ...judged(input, 'picks'),
    ]
    return people.flatMap((entry) => {
      const { list, reach } = waits.get(entry.block) ?? { list: [], reach: 0 }
      const from = countBefore(list, addDays(entry.date, -reach), dateOf)
      // Work that runs past midnight can meet a spray of the next day.
      const to = countBefore(list, addDays(entry.date, 2), dateOf)
      const near = list.slice(from, to).filter(({ lastDay }) => entry.date <= lastDay)
      if (near.length === 0) return []
      const stay = stayOf(entry, ledger.vineyard.timezone)
      const met = near.flatMap((wait) => inside(wait, stay))
      return met.length === 0 ? [] : told(input, entry, met.reduce(worse))
    })
  },
}

const dateOf = ({ spray }: Wait) => spray.date

/** The waits of each block, by the day of spraying, and how many days the longest can reach. */
function waitsByBlock({ ledger, asOf }: JudgedLedger): Map<string, { list: Wait[]; reach: number }> {
  const byBlock = new Map<string, { list: Wait[]; reach: number }>()
  for (const spray of ledger.sprays) {
    const wait = spray.date <= asOf ? waitAfter(ledger, spray) : null
    if (!wait) continue
    for (const block of new Set(spray.blocks)) {
      const known = byBlock.get(block) ?? { list: [], reach: 0 }
      byBlock.set(block, known)
      known.list.push(wait)
      known.reach = Math.max(known.reach, daysBetween(spray.date, wait.lastDay))
    }
  }
  return byBlock
}

type Wait = NonNullable<ReturnType<typeof waitAfter>>

/** A spray with a re-entry interval, and the instants that decide its end; null where no label gives one. */
function waitAfter({ products: known, vineyard: { timezone: zone } }: Ledger, spray: SprayEntry) {
  const products = spray.products.flatMap(({ product }) => known.get(product) ?? [])
  const hours = products.map(({ re_entry }) => (typeof re_entry === 'number' ? re_entry : re_entry ? 24 : 0))
  const longest = Math.max(0, ...hours)
  if (longest === 0) return null
  let clocks: ReturnType<typeof clocksOf> | null = null
  return {
    spray,
    products,
    /** Anyone who enters after this day is past the wait; compared first, since clock times take longer to calculate. */
    lastDay: addDays(spray.date, Math.ceil(longest / 24) + MARGIN),
    /** Calculated when first needed. */
    clocks: () => (clocks ??= clocksOf(spray, products, zone)),
  }
}

function clocksOf(spray: SprayEntry, products: Named<Product>[], zone: string) {
  const { time } = spray
  const at = (minutes: number) => instantOf(spray.date, minutes, zone)
  const start = at(time?.start ?? 0)
  const inHours = products.filter(({ re_entry }) => re_entry !== 'until dry')
  return {
    start,
    /** The latest that spraying can have begun. */
    lastStart: time ? start : at(1440),
    /** The end of the wait by the reading that ends it first. */
    earliest: reEntryEnd(spray, inHours, { zone, end: time?.end ?? time?.start ?? 0 })?.instant ?? start,
    end: reEntryEnd(spray, products, { zone })!,
    /** `until dry` has no hours: entering after the usual drying time is not reported. */
    dryBy: at(endMinutes(spray)) + DRYING_HOURS * 3_600_000,
  }
}

/** When people were in a block, as instants; without times it may be any part of the day. */
function stayOf({ date, time }: WorkEntry | PickEntry, zone: string) {
  const start = instantOf(date, time?.start ?? 0, zone)
  const end = instantOf(date, time?.end ?? time?.start ?? 1440, zone)
  return { date, time, start, end, lastStart: time ? start : end, firstEnd: time ? end : start }
}

/** A wait that a stay overlaps, and how certain that is: 0 to 2. */
interface Met {
  wait: Wait
  sure: number
}

function inside(
  wait: Wait,
  { date, time, start, lastStart, end, firstEnd }: ReturnType<typeof stayOf>,
): Met[] {
  const { spray } = wait
  const clocks = wait.clocks()
  const over = clocks.end
  if (start >= over.instant || end <= clocks.start) return []
  if (over.hours === null && time && spray.time && start >= Math.max(clocks.dryBy, clocks.earliest)) return []
  if (lastStart <= clocks.earliest && firstEnd >= clocks.lastStart) return [{ wait, sure: 2 }]
  const before = !time && date === spray.date && (!spray.time || spray.time.start >= 720)
  const after = !time && over.date === date && over.minutes <= 720
  return [{ wait, sure: before || after ? 0 : 1 }]
}

/** Of two waits not kept, the more certain one; of equals, the one that ends later. */
const worse = (a: Met, b: Met) =>
  b.sure > a.sure || (b.sure === a.sure && b.wait.clocks().end.instant > a.wait.clocks().end.instant) ? b : a

function told(input: JudgedLedger, entry: WorkEntry | PickEntry, { wait, sure }: Met): Found {
  const { spray, products } = wait
  const over = wait.clocks().end
  const longest = products.find(({ id }) => id === over.by)!
  return findingAt(entry, entry.time ? ['time'] : ['date'], {
    level: (['hint', 'warning', 'error'] as const)[sure]!,
    message: `keep out of ${blockName(input, entry.block)} until ${untilText(over)}: re-entry interval (REI) of ${longest.name}: ${reEntryHoursText(over.hours)} (${mention(longest, ['re_entry'])}) after the spray of ${longDate(spray.date)} (${mention(spray, ['date'])})`,
    help:
      sure === 2
        ? 'correct the entry if mistyped; if people went in, follow the label'
        : 'write the times of spraying and of the work, which settle it',
  })
}
