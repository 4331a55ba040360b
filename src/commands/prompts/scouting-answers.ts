import type { PlainEntry, PlainValue } from '../../ledger/write/entry-text.ts'
import { addAll } from '../../records/add-all.ts'
import { DISEASE_NAMES, DISEASES, type Disease, OTHER_DISEASE_NAMES } from '../../records/disease.ts'
import { ORGANS, type Organ } from '../../records/kinds/scouting.ts'
import { findNamed } from '../../records/typed/named.ts'
import { CLEAN } from '../../records/typed/site-way.ts'
import { fieldsOf } from '../../reports/note/fields.ts'
import { readValue, type When } from '../../reports/note/read-value.ts'
import { UsageError } from '../plumbing/errors.ts'
import type { Part, Read } from './question.ts'
import { withParts } from './typed-fields.ts'

/** How many of each organ were looked at. */
export type Looked = Partial<Record<Organ, number>>

const ORGAN_WORDS: readonly [RegExp, Organ][] = [
  [/\b(?:bunch(?:es)?|clusters?)\b/i, 'bunches'],
  [/\blea(?:f|ves)\b/i, 'leaves'],
  [/\bshoots?\b/i, 'shoots'],
  [/\bvines?\b/i, 'vines'],
]
const organIn = (text: string) => ORGAN_WORDS.find(([word]) => word.test(text))?.[1]

/** `in rows 8-9`, behind what was looked at or found. */
const IN_ROWS = / ?\b(?:in )?rows? (\d+)(?:\s*(?:-|to)\s*(\d+))?/i

/** A text without its rows, and these. */
function withoutRows(text: string): { rest: string; rows: string | undefined } {
  const said = IN_ROWS.exec(text)
  if (!said) return { rest: text, rows: undefined }
  return { rest: text.replace(said[0], ''), rows: said[2] ? `${said[1]}-${said[2]}` : said[1]! }
}

const LOOK_HELP = 'Type how many you looked at, like 50 bunches, or 50 bunches, 20 leaves.'

/** Reads `50 bunches, 20 leaves in rows 3-8` as options of a scouting entry. */
export function readLooked(text: string): Read {
  const { rest, rows } = withoutRows(text)
  const parts: Part[] = rows === undefined ? [] : [{ option: 'rows', text: rows }]
  for (const piece of pieces(rest)) {
    const count = /^(\d+)\b/.exec(piece)?.[1]
    const organ = organIn(piece)
    if (count === undefined || Number(count) === 0) return { fault: LOOK_HELP }
    if (!organ) return { fault: `${count} of what? Type ${count} bunches, or ${count} leaves.` }
    if (parts.some((part) => part.text.startsWith(`${organ}=`)))
      return { fault: `You gave ${organ} twice. Type one number of each.` }
    parts.push({ option: 'looked-at', text: `${organ}=${count}` })
  }
  return parts.some(({ option }) => option === 'looked-at') ? { parts } : { fault: LOOK_HELP }
}

/** What was looked at, as it would be typed: `50 bunches, 20 leaves`. */
export const lookedText = (looked: Looked): string =>
  ORGANS.flatMap((organ) => (looked[organ] ? [`${looked[organ]} ${organ}`] : [])).join(', ')

const REST_CLEAN = /^(?:the )?(?:rest|others?|everything else)\b.*(?:clean|none|0)$/i
const FIND_HELP = 'Type clean, or what you found and how many: powdery 3 of 50.'

/**
 * Reads what was found: `clean`, `powdery 3 of 50`, `downy 2 leaves, rest clean`. A disease that isn't named stays
 * unknown, unless the answer says that the rest was clean.
 * @param diseases the diseases that `clean` covers
 */
export function readFound(text: string, looked: Looked, diseases: readonly Disease[]): Read {
  const allClean = (some: readonly Disease[]) => some.flatMap((disease) => clean(disease, looked))
  if (CLEAN.test(text.trim())) return { parts: allClean(diseases) }
  const parts: Part[] = []
  const all = pieces(text)
  for (const piece of all.filter((one) => !REST_CLEAN.test(one))) {
    const find = readFind(piece, looked)
    if (find.fault !== undefined) return find
    const twice = find.parts.find((part) => parts.some((one) => keyOf(one) === keyOf(part)))
    if (twice) return { fault: `You gave ${diseaseOf(twice)} twice. Type it once, like powdery 3 of 50.` }
    addAll(parts, find.parts)
  }
  if (parts.length === 0) return { fault: FIND_HELP }
  const named = new Set(parts.map(diseaseOf))
  const rest = all.some((one) => REST_CLEAN.test(one)) ? diseases.filter((one) => !named.has(one)) : []
  return { parts: [...parts, ...allClean(rest)] }
}

/** `powdery.bunches` of `powdery.bunches=4`. */
const keyOf = ({ text }: Part) => text.split('=')[0]
export const diseaseOf = ({ text }: Part): string => text.split('.')[0]!

const pieces = (text: string) =>
  text
    .split(/[,;+]|\band\b/i)
    .map((piece) => piece.trim())
    .filter((piece) => piece !== '')

const found = (disease: Disease, key: string, value: string | number): Part => ({
  option: 'found',
  text: `${disease}.${key}=${value}`,
})

/** A count of zero for a disease on each organ looked at; for botrytis on bunches only, where those were looked at. */
function clean(disease: Disease, looked: Looked): Part[] {
  const organs = ORGANS.filter((organ) => looked[organ] !== undefined)
  const own = disease === 'botrytis' && organs.includes('bunches') ? (['bunches'] as const) : organs
  return own.map((organ) => found(disease, organ, 0))
}

function readFind(said: string, looked: Looked): Read {
  const { rest, rows } = withoutRows(said)
  const noun = /^(?:no )?([a-z][a-z -]*[a-z])/i.exec(rest.replace(/\b(?:on|of|in|out)\b.*$/i, ''))?.[1] ?? ''
  const word = ORGAN_WORDS.reduce((text, [organ]) => text.replace(organ, ''), noun)
    .replace(/\b(?:clean|none|zero|severity)\b/gi, '')
    .trim()
  const disease = diseaseNamed(word)
  if (!disease) {
    const known = DISEASES.join(', ')
    return {
      fault: `\`${word || rest}\` is not a disease kept here. Type one of ${known}; others go in the note.`,
    }
  }
  const counted = readCount(rest, disease, looked)
  return rows === undefined || !counted.parts
    ? counted
    : { parts: [...counted.parts, found(disease, 'rows', rows)] }
}

const SHARE = String.raw`(\d{1,15}(?:\.\d{1,15})?)\s{0,9}%`
const SEVERITY = new RegExp(
  `(?:severity|surface)\\s{0,9}${SHARE}|${SHARE}\\s{0,9}(?:severity|of the surface|surface)`,
  'i',
)
/** `3`, `3 of 50`, `3/50`. */
const COUNT =
  /(?<!\d)(\d{1,15})(?!\d)(?:\s{0,9}(?:of|out of|in|\/)\s{0,9}(\d{1,15}))?(?!\s{0,9}[\d.]{0,15}\s{0,9}%)/i

function readCount(piece: string, disease: Disease, looked: Looked): Read {
  const severity = SEVERITY.exec(piece)
  const counts = severity ? piece.replace(severity[0], '') : piece
  const like = `${disease} 3 of ${Object.values(looked)[0] ?? 50}`
  if (/\d\s*%/.test(counts)) return { fault: `Type how many: ${like}.` }
  const [, count, of] = COUNT.exec(counts) ?? []
  if (count === undefined) {
    if (/^no\b|\b(?:clean|none|zero)\b/i.test(piece)) return { parts: clean(disease, looked) }
    return { fault: `How many had ${disease}? Type ${like}.` }
  }
  const said = organIn(counts)
  const organs = ORGANS.filter((organ) => looked[organ] !== undefined)
  // The organ named, else the only one looked at, else the one of which that many were looked at.
  const fits = organs.filter(
    (organ) => (!said || organ === said) && (of === undefined || looked[organ] === Number(of)),
  )
  const [organ] = fits
  if (!organ)
    return {
      fault: `You looked at ${lookedText(looked)}. Type ${disease} ${count} of ${looked[organs[0]!]} ${organs[0]}.`,
    }
  if (fits.length > 1)
    return { fault: `On what? Type ${fits.map((one) => `${disease} ${count} ${one}`).join(', or ')}.` }
  if (Number(count) > looked[organ]!)
    return { fault: `You looked at ${looked[organ]} ${organ}: no more than that can have ${disease}.` }
  if (Number(count) === 0 && !said && of === undefined) return { parts: clean(disease, looked) }
  const share = severity ? [found(disease, 'severity', `${severity[1] ?? severity[2]} %`)] : []
  return { parts: [found(disease, organ, Number(count)), ...share] }
}

function diseaseNamed(word: string): Disease | undefined {
  const plain = word.toLowerCase()
  if (plain === '') return undefined
  const records = Object.entries(DISEASE_NAMES).map(([id, name]) => ({ id: id as Disease, name }))
  return OTHER_DISEASE_NAMES[plain] ?? findNamed(plain, records).found?.id
}

/**
 * Turns options of a scouting entry that are typed in words into pairs: `--found clean`, `--looked-at "50 bunches"`.
 * Those written as pairs stay as they are.
 * @param diseases the diseases that `clean` covers
 * @throws UsageError where the words can't be read, or where nothing says what was looked at
 */
export function inPairs(
  typed: ReadonlyMap<string, readonly string[]>,
  diseases: readonly Disease[],
): Map<string, readonly string[]> {
  let all = new Map(typed)
  const put = (option: string, like: string, read: (text: string) => Read) => {
    const texts = typed.get(option) ?? []
    if (!texts.some(isInWords)) return
    const parts = texts.flatMap((text) => {
      const { parts: said, fault } = isInWords(text) ? read(text) : { parts: [{ option, text }] }
      if (!said) throw new UsageError(`--${option}: ${fault}`, `or write it as --${option} ${like}`)
      return said
    })
    all = withParts(all.set(option, []), parts)
  }
  put('looked-at', 'bunches=50', readLooked)
  put('found', 'powdery.bunches=4', (text) => readFound(text, lookedAt(all.get('looked-at')), diseases))
  return all
}

const isInWords = (text: string) => text.trim() !== '' && !text.includes('=')

/** The counts of `--looked-at`, typed as pairs; undefined where they can't be read. */
export function lookedTyped(texts: readonly string[]): Looked | undefined {
  const field = fieldsOf('scouting').find(({ option }) => option === 'looked-at')!
  const noDate: When = { today: '', order: null, units: 'metric' }
  return readValue(field, texts, noDate).value as Looked | undefined
}

/** The same. @throws UsageError where it is missing or can't be read */
function lookedAt(texts: readonly string[] | undefined): Looked {
  const looked = texts && lookedTyped(texts)
  if (looked) return looked
  throw new UsageError('--found in words needs --looked-at', 'write --looked-at "50 bunches, 20 leaves"')
}

/** What an entry says was looked at, as it would be typed: `50 bunches, 20 leaves in rows 3-8`. */
export function lookedAtText({ looked_at, rows }: PlainEntry): string {
  const text = lookedText((looked_at ?? {}) as Looked)
  return rows === undefined || text === '' ? text : `${text} in rows ${rows}`
}

/** What an entry says was found: `powdery 4 bunches severity 3 % in rows 8-9, downy 0 leaves`. */
export function foundText(said: PlainValue | undefined): string {
  const finds = Object.entries((said ?? {}) as Record<string, PlainEntry>)
  return finds
    .flatMap(([disease, find]) => {
      const severity = find.severity === undefined ? '' : ` severity ${find.severity}`
      const rows = find.rows === undefined ? '' : ` in rows ${find.rows}`
      const organs = ORGANS.filter((organ) => find[organ] !== undefined)
      return organs.map((organ, at) => `${disease} ${find[organ]} ${organ}${at === 0 ? severity + rows : ''}`)
    })
    .join(', ')
}
