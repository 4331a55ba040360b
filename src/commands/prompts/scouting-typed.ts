import type { Disease } from '../../records/target.ts'
import { fieldsOf } from '../../reports/note/fields.ts'
import { readValue, type When } from '../../reports/note/read-value.ts'
import { UsageError } from '../plumbing/errors.ts'
import type { Read } from './question.ts'
import { type Looked, readFound, readLooked } from './scouting-answers.ts'

/** No date is read here. */
const NEVER: When = { today: '', order: null, units: 'metric' }

/**
 * Options of a scouting entry typed in words, as an answer to a question would be: `--found clean`,
 * `--looked-at "50 bunches"`. Those written as pairs stay as they are.
 * @param diseases those that `clean` speaks of
 * @throws UsageError where the words can't be read, or where it isn't said what was looked at
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
      if (!said) throw new UsageError(`--${option}: ${fault}`, 'or write it as --found powdery.bunches=4')
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

/** What `--looked-at` says in pairs; undefined where it can't be read. */
export function lookedTyped(texts: readonly string[]): Looked | undefined {
  const field = fieldsOf('scouting').find(({ option }) => option === 'looked-at')!
  return readValue(field, texts, NEVER).value as Looked | undefined
}

/** The same. @throws UsageError where it isn't there or can't be read */
function lookedAt(texts: readonly string[] | undefined): Looked {
  const looked = texts && lookedTyped(texts)
  if (looked) return looked
  throw new UsageError('--found in words needs --looked-at', 'write --looked-at "50 bunches, 20 leaves"')
}
