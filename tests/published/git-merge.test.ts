import { beforeEach, expect, test } from 'vitest'
import { openLedger } from '../../src/ledger/read/open.ts'
import { GitBook, spray } from '../ledger/git-book.ts'

/**
 * Tried with the git that is installed: why one event is one file. Git documentation,
 * gitattributes(5), for `merge=union`.
 */
let book: GitBook

const LIST = 'seasons/2026/samples.yaml'
const sample = (day: string, brix: number) =>
  `- date: 2026-09-${day}\n  block: upper\n  brix: ${brix}\n  note: after rain\n`

/** Two branches that each write; gives back whether the merge ended clean. */
function merged(phone: Record<string, string>, laptop: Record<string, string>): boolean {
  book.git('checkout', '-q', '-b', 'phone')
  book.write(phone).commit('Phone')
  book.git('checkout', '-q', 'main')
  book.write(laptop).commit('Laptop')
  try {
    book.git('merge', '-q', 'phone', '-m', 'Merge')
    return true
  } catch {
    return false
  }
}

const errors = () =>
  openLedger(book.root, { seasons: 'all' }).findings.filter(({ level }) => level === 'error')

beforeEach(() => {
  book = new GitBook()
  book.write({ [LIST]: sample('01', 18) }).commit('Start')
})

const lists = [
  { [LIST]: sample('01', 18) + sample('08', 19.1) },
  { [LIST]: sample('01', 18) + sample('09', 19.4) },
] as const

test('two branches that append to one list file conflict', () => {
  expect(merged(...lists)).toBe(false)
})

test('two new files merge clean, and the book is sound', () => {
  const files = ['2026-06-18', '2026-06-29'].map((date) => ({
    [`seasons/2026/sprays/${date}-upper.yaml`]: spray(date, 'upper'),
  }))
  expect(merged(files[0]!, files[1]!)).toBe(true)
  expect(errors()).toEqual([])
  expect(openLedger(book.root, { seasons: 'all' }).sprays).toHaveLength(2)
})

test('merge=union on the list ends clean, and one of the two entries has lost its last line', () => {
  book.write({ '.gitattributes': '*.yaml merge=union\n' }).commit('Union')
  expect(merged(...lists)).toBe(true)
  const { samples } = openLedger(book.root, { seasons: 'all' })
  expect(samples.map(({ note }) => note ?? null)).toContain(null)
})
