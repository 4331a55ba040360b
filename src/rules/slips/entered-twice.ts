import { groupedBy, type JudgedLedger, judged, overlap } from '../../facts/judged.ts'
import { listed } from '../../facts/sentences.ts'
import type { PickEntry, SprayEntry } from '../../ledger/read/ledger.ts'
import type { Placed } from '../../ledger/read/source.ts'
import { daysBetween } from '../../records/date.ts'
import { ENTRY_CALLED, SEASON_KINDS, type SeasonKind } from '../../records/kinds.ts'
import { longDate } from '../../records/spoken-date.ts'
import { blockName, type Found, findingAt, mention, productName, type Rule } from '../rule.ts'

/** The same thing typed twice. */
export const enteredTwice: Rule = {
  name: 'entered-twice',
  what: 'Two entries of one kind say the same about the same block on the same day. Names and notes are not compared. The finding names a field that only one of them has, or one that differs among many. Picks, samples and bunch counts that agree in every figure within three days are told too. For sprays, the same products on the same rows on one day are enough.',
  source: 'own rule: what is done once is entered once',
  basis: 'own',
  check: (input) =>
    SEASON_KINDS.flatMap((kind) => {
      const days = new Map<string, Said[]>()
      const recent = new Map<string, Said[]>()
      return judged(input, kind).flatMap((entry): Found | [] => {
        const said = saidBy(entry)
        const sameDay = days.get(dayOf(said)) ?? []
        const first = sameDay.find((other) => same(kind, other, said))
        const copied = first ? undefined : copiedFrom(kind, said, recent)
        // An entry already reported as a duplicate adds nothing to the first one.
        if (!first && !copied && sameDay.length < MOST_A_DAY) days.set(dayOf(said), [...sameDay, said])
        const what = `this ${ENTRY_CALLED[kind]} of ${longDate(entry.date)}`
        if (first)
          return findingAt(entry, ['date'], {
            message: `${what} is already recorded, at ${mention(first.entry)}${besides(differing(first, said))}`,
            help: HELP[kind] ?? 'delete one of the two; if it was really done twice, write the times of each',
          })
        if (copied)
          return findingAt(entry, ['date'], {
            message: `${what} has every figure of the one of ${longDate(copied.date)}, at ${mention(copied)}`,
            help: 'delete one of the two; if both were measured so, write in a note how they differ',
          })
        return []
      })
    }),
}

/** What to do, where more than the times can tell two such entries apart. */
const HELP: Partial<Record<SeasonKind, string>> = {
  weather: 'a day has one weather: correct one with `rowbook note --amend FILE`, and delete the other',
  sprays: 'delete one of the two; if it was really done twice, write the times or rows of each',
  scouting: 'delete one of the two; if it was really done twice, write the rows of each',
}

/** With so many entries of one block and day, further ones are not compared: a day has no more. Our own choice. */
const MOST_A_DAY = 100

type Entry = Placed<{ date: string; block?: string }>

/** An entry, and each figure of its content by its path. */
interface Said {
  entry: Entry
  figures: ReadonlyMap<string, string>
}

const saidBy = (entry: Placed<object>): Said => ({ entry: entry as Entry, figures: figuresOf(entry) })
const dayOf = ({ entry: { date, block } }: Said) => `${date} ${block}`

/** Figures in which entries of different days agree only if one was copied. Our own choice. */
const COPIED: Partial<Record<SeasonKind, number>> = { picks: 4, samples: 3, crop: 3 }
/** Days within which a copied entry is reported. */
const DAYS_APART = 3

/** The entry of a day shortly before that agrees in every figure, of which there are enough; remembers this one. */
function copiedFrom(kind: SeasonKind, said: Said, recent: Map<string, Said[]>): Entry | undefined {
  const { block = '', date } = said.entry
  const figures = new Map(said.figures)
  figures.delete('time')
  if (figures.size < (COPIED[kind] ?? Infinity)) return undefined
  const near = (recent.get(block) ?? []).filter(({ entry }) => daysBetween(entry.date, date) <= DAYS_APART)
  recent.set(block, [...near, { ...said, figures }].slice(-MOST_A_DAY))
  const agrees = (other: Said) =>
    other.figures.size === figures.size &&
    [...other.figures].every(([path, value]) => figures.get(path) === value)
  const last = near.findLast(agrees)?.entry
  return last && last.date < date ? last : undefined
}

/** An entry with the same content as another of the same block and day, and the fields in which they differ. */
export interface Twin {
  entry: Placed<object>
  differs: string[]
}

/** The existing entry that a new one probably repeats; null where there is none. */
export function twinOf(
  kind: SeasonKind,
  entry: Placed<object>,
  others: readonly Placed<object>[],
): Twin | null {
  const said = saidBy(entry)
  for (const other of others) {
    const before = saidBy(other)
    if (other !== entry && dayOf(before) === dayOf(said) && same(kind, before, said))
      return { entry: other, differs: differing(before, said) }
  }
  return null
}

/** Fields that only one of them has, or that differ. */
function differing({ figures: one }: Said, { figures: other }: Said): string[] {
  const apart = [...new Set([...one.keys(), ...other.keys()])].filter(
    (path) => one.get(path) !== other.get(path),
  )
  return [...new Set(apart.map((path) => path.replace(/^(time|water|rows)\..*/, '$1')))]
}

const besides = (paths: readonly string[]) =>
  paths.length === 0
    ? ''
    : `; only ${listed(paths.map((path) => `\`${path}\``))} ${paths.length === 1 ? 'differs' : 'differ'}`

function same(kind: SeasonKind, a: Said, b: Said): boolean {
  // A day has one weather: two entries contradict each other.
  if (kind === 'weather') return true
  return kind === 'sprays'
    ? sameSpray(a.entry as unknown as SprayEntry, b.entry as unknown as SprayEntry)
    : saysTheSame(a.figures, b.figures)
}

/** With this many other figures equal, one differing field is a correction typed as a new entry. Our own choice. */
const ENOUGH_ALIKE = 3

/** Where these differ, two things were done or looked at on one day. */
const APART = ['job', 'at', 'time', 'rows', 'berries', 'stage', 'brix', 'weight']

/** Whether two entries of one day and block agree in all that both have, or in all but one of many figures. */
function saysTheSame(one: Said['figures'], other: Said['figures']): boolean {
  const shared = [...one.keys()].filter((key) => other.has(key))
  const differs = shared.filter((key) => one.get(key) !== other.get(key))
  const [only] = differs
  if (only === undefined) return shared.length === Math.min(one.size, other.size)
  if (differs.length > 1 || APART.includes(only)) return false
  return shared.length > ENOUGH_ALIKE || isNearly(one.get(only)!, other.get(only)!)
}

/** Whether two lists of as many readings, four or more, differ in one of them. */
function isNearly(one: string, other: string): boolean {
  const [a, b]: unknown[] = [JSON.parse(one), JSON.parse(other)]
  if (!Array.isArray(a) || !Array.isArray(b) || a.length !== b.length || a.length < 4) return false
  return a.filter((value, at) => value !== b[at]).length === 1
}

const sameSpray = (a: SprayEntry, b: SprayEntry): boolean =>
  productsText(a) === productsText(b) && !isApart(a, b) && meets(a, b)

const productsText = ({ products }: SprayEntry) =>
  products
    .map(({ product }) => product)
    .sort()
    .join(' ')

/** Whether two sprays share a block and rows. */
const meets = (a: SprayEntry, b: SprayEntry) => a.blocks.some((id) => b.blocks.includes(id)) && overlap(a, b)

/** Whether both have times, which begin apart. */
const isApart = (a: SprayEntry, b: SprayEntry) => a.time && b.time && a.time.start !== b.time.start

/** Fields about who or how, not what was done or found. */
const WORDS = new Set(['note', 'who', 'operator', 'instrument', 'date', 'block', 'season'])

/** The content of an entry, each figure by its path, whatever the order of keys. */
function figuresOf(entry: object): Map<string, string> {
  const figures = new Map<string, string>()
  const add = (path: string, value: unknown): void => {
    // Products of a spray in another order are the same.
    if (path === 'products')
      figures.set(path, JSON.stringify((value as object[]).map((one) => JSON.stringify(one)).sort()))
    else if (value !== null && typeof value === 'object' && !Array.isArray(value))
      for (const [key, inner] of Object.entries(value)) add(`${path}.${key}`, inner)
    else figures.set(path, JSON.stringify(value))
  }
  for (const [key, value] of Object.entries(entry)) if (!WORDS.has(key)) add(key, value)
  return figures
}

/** Two picks or two sprays of one block on one day: both count, so an entry typed twice would count twice. */
export const twiceADay: Rule = {
  name: 'twice-a-day',
  what: 'Two picks or two sprays of the same rows on one day that are not the same entry twice. A warning where they are likely one. Sprays then share a product and have no separate times; picks are alike in all but weight. Otherwise a hint, since a split tank or a second trailer is usual.',
  source: 'own rule: what is done once is entered once',
  basis: 'own',
  check(input) {
    const picks = groupedBy(judged(input, 'picks'), ({ date, block }) => `${date} ${block}`)
    const sprays = groupedBy(judged(input, 'sprays'), ({ date }) => date)
    return [
      ...[...picks.values()].flatMap((day) => picksOf(input, day.slice(0, MOST_A_DAY))),
      ...[...sprays.values()].flatMap((day) => spraysOf(input, day.slice(0, MOST_A_DAY))),
    ]
  },
}

const picksOf = (input: JudgedLedger, day: readonly PickEntry[]) =>
  day.slice(1).flatMap((pick): Found | [] => {
    const first = day[0]!
    if (twinOf('picks', pick, day)) return []
    const isAlike = alike(first, pick)
    return findingAt(pick, ['date'], {
      level: isAlike ? 'warning' : 'hint',
      message: `${blockName(input, pick.block)} has another pick on ${longDate(pick.date)}, at ${mention(first)}${isAlike ? ', the same but for its weight' : ''}; both count`,
      help: 'if it is the same pick, correct one with `rowbook note --amend FILE` and delete the other',
    })
  })

/** Figures that two loads of one day hardly have in common; two make two picks look like one. Our own choice. */
const OWN = ['people', 'hours', 'brix', 'ph', 'ta', 'crates', 'juice'] as const

function alike(one: PickEntry, other: PickEntry): boolean {
  const shared = OWN.filter((key) => one[key] !== undefined && other[key] !== undefined)
  return shared.length >= 2 && shared.every((key) => JSON.stringify(one[key]) === JSON.stringify(other[key]))
}

const spraysOf = (input: JudgedLedger, day: readonly SprayEntry[]) =>
  day.flatMap((spray, at): Found | [] => {
    const first = day.slice(0, at).find((other) => meets(other, spray))
    if (!first || twinOf('sprays', spray, day)) return []
    const both = spray.products.find(({ product }) => first.products.some((one) => one.product === product))
    const isLikely = both !== undefined && !isApart(first, spray)
    const block = spray.blocks.find((id) => first.blocks.includes(id))
    return findingAt(spray, ['date'], {
      level: isLikely ? 'warning' : 'hint',
      message: `${blockName(input, block!)} has another spray on ${longDate(spray.date)}, at ${mention(first)}${both ? `, with ${productName(input, both.product)} in both` : ''}; each counts as an application`,
      help: isLikely
        ? 'if it was sprayed once, delete one of the two; if twice, write the times or rows of each'
        : 'if it was one tank, write it as one entry with all its products',
    })
  })
