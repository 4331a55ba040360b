import { addAll } from '../add-all.ts'

/** A record that has a name: its id, and what people call it. */
interface NamedId {
  id: string
  name: string
}

type NameResult<T extends NamedId> =
  | { found: T; several: readonly T[] }
  /** None: nothing fits; two or more: each fits equally well. */
  | { found: undefined; several: readonly T[] }

const spelled = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .replace(/[\s_-]+/g, ' ')

const plain = (text: string): string =>
  spelled(text)
    .replace(/^the /, '')
    // Two spellings of one substance.
    .replace(/sulf/g, 'sulph')

const squeezed = (name: string) => name.replaceAll(' ', '')

/**
 * The record that is meant: by its id, its name, or any part that fits only one, in any case
 * and with or without accents, hyphens, spaces and `the`. A whole name goes before a beginning, and that before a part.
 */
export function findNamed<T extends NamedId>(said: string, records: Iterable<T>): NameResult<T> {
  const word = plain(said)
  const all = [...records]
  if (word === '') return { found: undefined, several: [] }
  const whole = all.filter((one) => [spelled(one.id), spelled(one.name)].includes(spelled(said)))
  // `the-orchard` and `orchard` may both be there.
  if (whole.length === 1) return { found: whole[0]!, several: whole }
  const names = (one: T) => [plain(one.id), plain(one.name)]
  const fits = [
    (name: string) => name === word,
    (name: string) => name.startsWith(word),
    (name: string) => name.includes(` ${word}`),
    (name: string) => name.includes(word),
    // `Sulphur80`, `TopTerrace`
    (name: string) => squeezed(name) === squeezed(word),
  ]
  for (const fit of fits) {
    const some = all.filter((one) => names(one).some(fit))
    if (some.length === 1) return { found: some[0]!, several: some }
    if (some.length > 1) return { found: undefined, several: some }
  }
  return { found: undefined, several: [] }
}

/** Words for all records, unless one has that name. */
const ALL =
  /^(?:all|everything|all (?:the )?(?:blocks|vines)|everywhere|(?:the )?whole vineyard|alle|alles|tout|tous|tutti|tutto|todo|todos)$/i
const BOTH = /^both(?: blocks)?$/i
const EXCEPT = /^(.{1,80}?)\s{1,9}(?:except(?: for)?|but(?: not)?|without|apart from|other than)\s{1,9}(.+)$/i

/**
 * The records in a list: `shed, orchard`, `Shed + Orchard`, `shed/orchard`, `shed and orchard`, `all`, `both`
 * where there are two, or `all except shed`.
 * @param find finds one record by a word
 * @returns those found, and the first word that fits none or several
 */
export function findAllNamed<T extends NamedId>(
  said: string,
  records: readonly T[],
  find: (word: string) => NameResult<T> = (word) => findNamed(word, records),
): { found: T[]; unclear?: { word: string; several: readonly T[] } } {
  const isAll = (word: string) =>
    (ALL.test(word) || (records.length === 2 && BOTH.test(word))) &&
    !records.some(({ id, name }) => [plain(id), plain(name)].includes(plain(word)))
  if (isAll(said.trim())) return { found: [...records] }
  const whole = find(said)
  if (whole.found) return { found: [whole.found] }
  const except = EXCEPT.exec(said.trim())
  if (except) {
    const [some, out] = [except[1]!, except[2]!].map((words) => findAllNamed(words, records, find)) as [
      ReturnType<typeof findAllNamed<T>>,
      ReturnType<typeof findAllNamed<T>>,
    ]
    const unclear = some.unclear ?? out.unclear
    const found = some.found.filter((one) => !out.found.includes(one))
    return unclear || found.length === 0
      ? { found: [], unclear: unclear ?? { word: said.trim(), several: [] } }
      : { found }
  }
  const found: T[] = []
  for (const word of said
    .split(/[,;+&/]|\band\b/i)
    .map((one) => one.trim())
    .filter((one) => one !== '')) {
    if (isAll(word)) {
      addAll(found, records)
      continue
    }
    const one = find(word)
    if (!one.found) return { found, unclear: { word, several: one.several } }
    found.push(one.found)
  }
  return { found: [...new Set(found)] }
}
