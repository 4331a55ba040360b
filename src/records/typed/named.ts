/** A record that has a name: its id, and what people call it. */
interface NamedId {
  id: string
  name: string
}

/** What was found; else those that fit equally well: none, or two or more. */
type NameResult<T> = { found: T | undefined; several: readonly T[] }

const only = <T>(several: readonly T[]): NameResult<T> => ({
  found: several.length === 1 ? several[0] : undefined,
  several,
})

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
  if (word === '') return only<T>([])
  const whole = all.filter((one) => [spelled(one.id), spelled(one.name)].includes(spelled(said)))
  // `the-orchard` and `orchard` may both be there.
  if (whole.length === 1) return only(whole)
  const fits = [
    (name: string) => name === word,
    (name: string) => name.startsWith(word),
    (name: string) => name.includes(` ${word}`),
    (name: string) => name.includes(word),
    // `Sulphur80`, `TopTerrace`
    (name: string) => squeezed(name) === squeezed(word),
  ]
  for (const fit of fits) {
    const some = all.filter(({ id, name }) => [plain(id), plain(name)].some(fit))
    if (some.length > 0) return only(some)
  }
  return only<T>([])
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
    const some = findAllNamed(except[1]!, records, find)
    const out = findAllNamed(except[2]!, records, find)
    const unclear = some.unclear ?? out.unclear
    if (unclear) return { found: [], unclear }
    const found = some.found.filter((one) => !out.found.includes(one))
    return found.length > 0 ? { found } : { found, unclear: { word: said.trim(), several: [] } }
  }
  const found = new Set<T>()
  for (const part of said.split(/[,;+&/]|\band\b/i)) {
    const word = part.trim()
    if (word === '') continue
    if (isAll(word)) {
      for (const one of records) found.add(one)
      continue
    }
    const { found: named, several } = find(word)
    if (!named) return { found: [...found], unclear: { word, several } }
    found.add(named)
  }
  return { found: [...found] }
}
