import { DISEASE_NAMES, DISEASES, type Disease, OTHER_DISEASE_NAMES } from '../../records/disease.ts'
import { ORGANS, type Organ } from '../../records/kinds/scouting.ts'
import { findNamed } from '../../records/typed/named.ts'
import { CLEAN } from '../../records/typed/site-way.ts'
import { fieldsOf } from '../../reports/note/fields.ts'
import { readValue, type When } from '../../reports/note/read-value.ts'
import { UsageError } from '../plumbing/errors.ts'
import type { Part, Read } from './question.ts'

/** How many of each organ were looked at. */
export type Looked = Partial<Record<Organ, number>>

const ORGAN_WORDS: readonly [RegExp, Organ][] = [
  [/\b(?:bunch(?:es)?|clusters?)\b/i, 'bunches'],
  [/\blea(?:f|ves)\b/i, 'leaves'],
  [/\bshoots?\b/i, 'shoots'],
  [/\bvines?\b/i, 'vines'],
]
const organIn = (text: string) => ORGAN_WORDS.find(([word]) => word.test(text))?.[1]

const LOOK_HELP = 'Type how many you looked at, like 50 bunches, or 50 bunches, 20 leaves.'

/** Reads `50 bunches, 20 leaves in rows 3-8` as options of a scouting entry. */
export function readLooked(text: string): Read {
  const parts: Part[] = []
  const rows = /\b(?:in )?rows? (\d+(?:\s*-\s*\d+)?)/i.exec(text)
  if (rows) parts.push({ option: 'rows', text: rows[1]!.replace(/\s/g, '') })
  for (const piece of pieces(rows ? text.replace(rows[0], '') : text)) {
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

/** The counts in an answer that `readLooked` has read. */
export function lookedOf(parts: readonly Part[]): Looked {
  const pairs = parts.filter(({ option }) => option === 'looked-at').map(({ text }) => text.split('='))
  return Object.fromEntries(pairs.map(([organ, count]) => [organ, Number(count)]))
}

const REST_CLEAN = /^(?:the )?(?:rest|others?|everything else)\b.*(?:clean|none|0)$/i

/**
 * Reads what was found: `clean`, `powdery 3 of 50`, `downy 2 leaves, rest clean`. A disease that isn't named stays
 * unknown, unless the answer says that the rest was clean.
 * @param diseases the diseases that `clean` covers
 */
export function readFound(text: string, looked: Looked, diseases: readonly Disease[]): Read {
  if (CLEAN.test(text.trim())) return { parts: diseases.flatMap((disease) => clean(disease, looked)) }
  const parts: Part[] = []
  const named = new Set<Disease>()
  let restIsClean = false
  for (const piece of pieces(text)) {
    if (REST_CLEAN.test(piece)) {
      restIsClean = true
      continue
    }
    const find = readFind(piece, looked)
    if (find.fault !== undefined) return { fault: find.fault }
    named.add(find.disease)
    for (const part of find.parts)
      if (parts.some((one) => one.text.split('=')[0] === part.text.split('=')[0]))
        return { fault: `You gave ${find.disease} twice. Type it once, like powdery 3 of 50.` }
      else parts.push(part)
  }
  if (parts.length === 0) return { fault: FIND_HELP }
  if (restIsClean)
    for (const disease of diseases)
      if (!named.has(disease)) for (const part of clean(disease, looked)) parts.push(part)
  return { parts }
}

const FIND_HELP = 'Type clean, or what you found and how many: powdery 3 of 50.'

const pieces = (text: string) =>
  text
    .split(/[,;+]|\band\b/i)
    .map((piece) => piece.trim())
    .filter((piece) => piece !== '')

/** A count of zero for a disease on each organ looked at; for botrytis on bunches only, where those were looked at. */
function clean(disease: Disease, looked: Looked): Part[] {
  const organs = ORGANS.filter((organ) => looked[organ] !== undefined)
  const own = disease === 'botrytis' && organs.includes('bunches') ? (['bunches'] as const) : organs
  return own.map((organ) => ({ option: 'found', text: `${disease}.${organ}=0` }))
}

type Find = { disease: Disease; parts: Part[]; fault?: undefined } | { fault: string }

/** `in rows 8-9`, after a find. */
const IN_ROWS = / ?\b(?:in )?rows? (\d+)(?:\s*(?:-|to)\s*(\d+))?/i

function readFind(said: string, looked: Looked): Find {
  const rows = IN_ROWS.exec(said)
  const found = readCount(rows ? said.replace(rows[0], '') : said, looked)
  if (!rows || found.fault !== undefined) return found
  const span = rows[2] ? `${rows[1]}-${rows[2]}` : rows[1]!
  return { ...found, parts: [...found.parts, { option: 'found', text: `${found.disease}.rows=${span}` }] }
}

function readCount(piece: string, looked: Looked): Find {
  const noun = /^(?:no )?([a-z][a-z -]*[a-z])/i.exec(piece.replace(/\b(?:on|of|in|out)\b.*$/i, ''))?.[1] ?? ''
  const word = ORGAN_WORDS.reduce((text, [organ]) => text.replace(organ, ''), noun)
    .replace(/\b(?:clean|none|zero|severity)\b/gi, '')
    .trim()
  const disease = diseaseNamed(word)
  if (!disease) {
    const known = DISEASES.join(', ')
    return {
      fault: `\`${word || piece}\` is not a disease kept here. Type one of ${known}; others go in the note.`,
    }
  }
  const severity =
    /(?:severity|surface)\s{0,9}(\d{1,15}(?:\.\d{1,15})?)\s{0,9}%|(\d{1,15}(?:\.\d{1,15})?)\s{0,9}%\s{0,9}(?:severity|of the surface|surface)/i.exec(
      piece,
    )
  const counts = severity ? piece.replace(severity[0], '') : piece
  const found =
    /(?<!\d)(\d{1,15})(?!\d)(?:\s{0,9}(?:of|out of|in|\/)\s{0,9}(\d{1,15}))?(?!\s{0,9}[\d.]{0,15}\s{0,9}%)/i.exec(
      counts,
    )
  if (/\d\s*%/.test(counts))
    return { fault: `Type how many: ${disease} 3 of ${Object.values(looked)[0] ?? 50}.` }
  if (!found) {
    if (/^no\b|\b(?:clean|none|zero)\b/i.test(piece)) return { disease, parts: clean(disease, looked) }
    return { fault: `How many had ${disease}? Type ${disease} 3 of ${Object.values(looked)[0] ?? 50}.` }
  }
  const organ = organMeant(
    { disease, count: found[1]!, said: organIn(counts), of: found[2] ? Number(found[2]) : null },
    looked,
  )
  if (typeof organ !== 'string') return organ
  const count = Number(found[1])
  if (count > looked[organ]!)
    return { fault: `You looked at ${looked[organ]} ${organ}: no more than that can have ${disease}.` }
  if (count === 0 && !organIn(counts) && !found[2]) return { disease, parts: clean(disease, looked) }
  const parts = [{ option: 'found', text: `${disease}.${organ}=${count}` }]
  if (severity) parts.push({ option: 'found', text: `${disease}.severity=${severity[1] ?? severity[2]} %` })
  return { disease, parts }
}

function diseaseNamed(word: string): Disease | undefined {
  const plain = word.toLowerCase()
  if (plain === '') return undefined
  const records = Object.entries(DISEASE_NAMES).map(([id, name]) => ({ id: id as Disease, name }))
  return OTHER_DISEASE_NAMES[plain] ?? findNamed(plain, records).found?.id
}

/** The organ of a count: the one named, else the only one looked at, else the one of which that many were looked at. */
function organMeant(
  {
    disease,
    count,
    said,
    of,
  }: { disease: Disease; count: string; said: Organ | undefined; of: number | null },
  looked: Looked,
): Organ | { fault: string } {
  const organs = ORGANS.filter((organ) => looked[organ] !== undefined)
  const all = lookedText(looked)
  const fits = organs.filter(
    (organ) => (said === undefined || organ === said) && (of === null || looked[organ] === of),
  )
  if (fits.length === 1) return fits[0]!
  if (fits.length === 0)
    return { fault: `You looked at ${all}. Type ${disease} ${count} of ${looked[organs[0]!]} ${organs[0]}.` }
  return { fault: `On what? Type ${fits.map((organ) => `${disease} ${count} ${organ}`).join(', or ')}.` }
}

/** For values that hold no date. */
const NEVER: When = { today: '', order: null, units: 'metric' }

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
  const all = new Map(typed)
  const put = (option: string, read: (text: string) => Read) => {
    const texts = typed.get(option)
    if (!texts?.some(isInWords)) return
    const parts = texts.flatMap((text) => {
      if (!isInWords(text)) return [{ option, text }]
      const { parts: said, fault } = read(text)
      if (!said)
        throw new UsageError(
          `--${option}: ${fault}`,
          `or write it as --${option === 'found' ? 'found powdery.bunches=4' : 'looked-at bunches=50'}`,
        )
      return said
    })
    for (const { option: one } of parts)
      all.set(
        one,
        parts.filter((part) => part.option === one).map(({ text }) => text),
      )
  }
  put('looked-at', readLooked)
  put('found', (text) => readFound(text, lookedAt(all.get('looked-at')), diseases))
  return all
}

const isInWords = (text: string) => text.trim() !== '' && !text.includes('=')

/** The counts of `--looked-at`, typed as pairs; undefined where they can't be read. */
export function lookedTyped(texts: readonly string[]): Looked | undefined {
  const field = fieldsOf('scouting').find(({ option }) => option === 'looked-at')!
  return readValue(field, texts, NEVER).value as Looked | undefined
}

/** The same. @throws UsageError where it is missing or can't be read */
function lookedAt(texts: readonly string[] | undefined): Looked {
  const looked = texts && lookedTyped(texts)
  if (looked) return looked
  throw new UsageError('--found in words needs --looked-at', 'write --looked-at "50 bunches, 20 leaves"')
}
