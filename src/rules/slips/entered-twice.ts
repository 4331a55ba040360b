import { judged, overlap } from '../../facts/judged.ts'
import { listed } from '../../facts/sentences.ts'
import type { SprayEntry } from '../../ledger/read/ledger.ts'
import type { Placed } from '../../ledger/read/source.ts'
import { daysBetween } from '../../records/date.ts'
import { ENTRY_CALLED, SEASON_KINDS, type SeasonKind } from '../../records/kinds.ts'
import { longDate } from '../../records/spoken-date.ts'
import { type Found, findingAt, mention, type Rule } from '../rule.ts'

/** The same thing typed twice. */
export const enteredTwice: Rule = {
  name: 'entered-twice',
  what: 'Two entries of one kind say the same about the same block on the same day. Names and notes are not compared. The finding names a field that only one of them has, or one that differs among many. Picks, samples and bunch counts that agree in every figure within three days are told too. For sprays, the same products on the same rows on one day are enough.',
  source: 'own rule: what is done once is entered once',
  basis: 'own',
  check(input) {
    return SEASON_KINDS.flatMap((kind) => {
      const entries = judged(input, kind) as (Placed<object> & { date: string })[]
      const before = new Map<string, Said[]>()
      const recent = new Map<string, Said[]>()
      return entries.flatMap((entry): Found | [] => {
        const where = 'block' in entry ? `${entry.date} ${entry.block}` : entry.date
        const sameDay = before.get(where) ?? []
        const said = { entry, essence: essence(entry) }
        const found = sameDay.find((other) => same(kind, other, said))
        const first = found?.entry
        const copied = first ? undefined : copiedFrom(kind, said, recent)
        if (copied) return copiedFinding(entry, copied, kind)
        // An entry already reported as a duplicate adds nothing to the first one.
        if (!first) {
          if (sameDay.length < MOST_A_DAY) before.set(where, [...sameDay, said])
          return []
        }
        return findingAt(entry, ['date'], {
          message: `this ${ENTRY_CALLED[kind]} of ${longDate(entry.date)} is already recorded, at ${mention(first)}${besides(differing(found, said))}`,
          help: HELP[kind] ?? 'delete one of the two; if it was really done twice, write the times of each',
        })
      })
    })
  },
}

/** What to do, where more than the times can tell two such entries apart. */
const HELP: Partial<Record<SeasonKind, string>> = {
  weather: 'a day has one weather: correct one with `rowbook note --amend FILE`, and delete the other',
  sprays: 'delete one of the two; if it was really done twice, write the times or rows of each',
  scouting: 'delete one of the two; if it was really done twice, write the rows of each',
}

/** Figures in which entries of different days agree only if one was copied. Our own choice. */
const COPIED: Partial<Record<SeasonKind, number>> = { picks: 4, samples: 3, crop: 3 }
/** Days within which a copied entry is reported. */
const DAYS_APART = 3

/** The entry of a day shortly before that agrees in every figure, of which there are enough; remembers this one. */
function copiedFrom(
  kind: SeasonKind,
  { entry, essence }: Said,
  recent: Map<string, Said[]>,
): Said['entry'] | undefined {
  const most = COPIED[kind]
  if (most === undefined) return undefined
  const figures = new Map(essence)
  figures.delete('time')
  if (figures.size < most) return undefined
  const block = (entry as { block?: string }).block ?? ''
  const near = (recent.get(block) ?? []).filter(
    (one) => daysBetween(one.entry.date, entry.date) <= DAYS_APART,
  )
  recent.set(block, [...near, { entry, essence: figures }].slice(-MOST_A_DAY))
  const last = near.findLast((one) => agrees(one.essence, figures))?.entry
  return last && last.date < entry.date ? last : undefined
}

const agrees = (one: Said['essence'], other: Said['essence']): boolean =>
  one.size === other.size && [...one].every(([path, value]) => other.get(path) === value)

const copiedFinding = (entry: Said['entry'], first: Said['entry'], kind: SeasonKind): Found =>
  findingAt(entry, ['date'], {
    message: `this ${ENTRY_CALLED[kind]} of ${longDate(entry.date)} has every figure of the one of ${longDate(first.date)}, at ${mention(first)}`,
    help: 'delete one of the two; if both were measured so, write in a note how they differ',
  })

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
  const where = (one: object) => {
    const { date, block } = one as { date: string; block?: string }
    return `${date} ${block}`
  }
  const dated = (one: Placed<object>) => one as Said['entry']
  const said = { entry: dated(entry), essence: essence(entry) }
  for (const other of others) {
    if (other === entry || where(other) !== where(entry)) continue
    const before = { entry: dated(other), essence: essence(other) }
    if (same(kind, before, said)) return { entry: other, differs: differing(before, said) }
  }
  return null
}

/** Fields that only one of them has, or that differ. */
function differing(one: Said, other: Said): string[] {
  const paths = new Set([...one.essence.keys(), ...other.essence.keys()])
  const apart = [...paths].filter((path) => one.essence.get(path) !== other.essence.get(path))
  return [...new Set(apart.map((path) => path.replace(/^(time|water|rows)\..*/, '$1')))]
}

const besides = (paths: readonly string[]) =>
  paths.length === 0
    ? ''
    : `; only ${listed(paths.map((path) => `\`${path}\``))} ${paths.length === 1 ? 'differs' : 'differ'}`

interface Said {
  entry: Placed<object> & { date: string }
  essence: ReadonlyMap<string, string>
}

/** With so many entries of one block and day each further one is compared: a day has no more. Our own choice. */
const MOST_A_DAY = 100

function same(kind: string, a: Said, b: Said): boolean {
  // A day has one weather: two entries contradict each other.
  if (kind === 'weather') return true
  return kind === 'sprays'
    ? sameSpray(a.entry as SprayEntry, b.entry as SprayEntry)
    : saysTheSame(a.essence, b.essence)
}

/** With this many other figures equal, one differing field is a correction typed as a new entry. Our own choice. */
const ENOUGH_ALIKE = 3

/** Whether two entries of one day and block agree in all that both have, or in all but one of many figures. */
function saysTheSame(one: Said['essence'], other: Said['essence']): boolean {
  const shared = [...one.keys()].filter((key) => other.has(key))
  const alike = shared.filter((key) => one.get(key) === other.get(key))
  const differing = shared.length - alike.length
  if (APART.some((key) => one.has(key) && other.has(key) && one.get(key) !== other.get(key))) return false
  if (differing === 0) return shared.length === Math.min(one.size, other.size)
  const isNearly = shared.some(
    (key) => one.get(key) !== other.get(key) && nearly(one.get(key)!, other.get(key)!),
  )
  return differing === 1 && (alike.length >= ENOUGH_ALIKE || isNearly)
}

/** Whether two lists of as many readings, four or more, differ in one of them. */
function nearly(one: string, other: string): boolean {
  const [a, b]: unknown[] = [JSON.parse(one), JSON.parse(other)]
  if (!Array.isArray(a) || !Array.isArray(b) || a.length !== b.length || a.length < 4) return false
  return a.filter((value, at) => value !== b[at]).length === 1
}

function sameSpray(a: SprayEntry, b: SprayEntry): boolean {
  const products = (spray: SprayEntry) =>
    spray.products
      .map(({ product }) => product)
      .sort()
      .join(' ')
  return products(a) === products(b) && !isApart(a, b) && meets(a, b)
}

/** Whether two sprays share a block and rows. */
export const meets = (a: SprayEntry, b: SprayEntry) =>
  a.blocks.some((id) => b.blocks.includes(id)) && overlap(a, b)

/** Whether both have times, which begin apart. */
export const isApart = (a: SprayEntry, b: SprayEntry) => a.time && b.time && a.time.start !== b.time.start

/** Fields about who or how, not what was done or found. */
const WORDS = new Set(['note', 'who', 'operator', 'instrument', 'date', 'block', 'season'])

/** Where these differ, two things were done or looked at on one day. */
const APART = ['job', 'at', 'time', 'rows', 'berries', 'stage', 'brix', 'weight']

/** The content of an entry, each figure by its path, whatever the order of keys. */
function essence(entry: object): Map<string, string> {
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
