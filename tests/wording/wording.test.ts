import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { ISO_DAY, ONE_AS_MANY, RETIRED } from './retired.ts'
import { screens } from './screens.ts'
import { sourceTexts, textsOf } from './strings.ts'

const PROJECT = fileURLToPath(new URL('../..', import.meta.url))
const LEDGER = join(PROJECT, 'examples/far-quillet')

/** A row of a finding that quotes the file, and the mark below it. */
const QUOTED = /^ *\d* \|/

/** What is worded in a retired way in a text. */
function retiredIn(text: string): string[] {
  return RETIRED.flatMap(({ phrase, write }) => {
    const found = phrase.exec(text)
    return found ? [`"${found[0]}" in "${text.trim().slice(0, 90)}": write ${write}`] : []
  })
}

/** Files of words that are read when somebody types them, and never shown. */
const UNDERSTOOD = new Set(['src/records/growth-stage.ts'])

test('no text of the source is worded as it was', () => {
  const shown = sourceTexts(PROJECT, 'src').filter(({ file }) => !UNDERSTOOD.has(file))
  const faults = shown.flatMap(({ file, line, text }) =>
    retiredIn(text).map((told) => `${file}:${line} ${told}`),
  )
  expect(faults).toEqual([])
})

test('neither README nor DEVELOPERS.md is worded as it was', () => {
  const faults = ['README.md', 'DEVELOPERS.md'].flatMap((file) =>
    readFileSync(join(PROJECT, file), 'utf8')
      .split('\n')
      .flatMap((text, index) => retiredIn(text).map((told) => `${file}:${index + 1} ${told}`)),
  )
  expect(faults).toEqual([])
})

test('no screen shows a retired wording, an ISO day in a sentence, or one of a thing as many', async () => {
  const faults: string[] = []
  for (const { line, text } of await screens(LEDGER)) {
    for (const row of text.split('\n')) {
      if (QUOTED.test(row)) continue
      for (const told of retiredIn(row)) faults.push(`${line}: ${told}`)
      if (ISO_DAY.test(row)) faults.push(`${line}: an ISO day in "${row.trim()}"`)
      if (ONE_AS_MANY.test(row)) faults.push(`${line}: one as many in "${row.trim()}"`)
    }
  }
  expect(faults).toEqual([])
})

test('no message of a finding has an ISO day, but for what it quotes and for places', () => {
  const said = readFileSync(join(PROJECT, 'tests/rules/said.txt'), 'utf8')
  const messages = [...said.matchAll(/^\S+\.\w+:\d+:\d+ .*\n(.*)/gm)].map(([, message]) => message!)
  expect(messages.length).toBeGreaterThan(250)
  const plain = (message: string) => message.replace(/`[^`]*`|\S+\/\S+/g, '')
  expect(messages.filter((message) => /\b\d{4}-\d\d-\d\d\b/.test(plain(message)))).toEqual([])
})

test('what is said in a template, beside a filled-in figure, is found with its line', () => {
  const said = ['const said = `$', '{count} walks\\n  in the book`'].join('')
  const source = `import { x } from 'no such words'\n${said}\nconst key = 'walks'\n`
  expect(textsOf('a.ts', source)).toEqual([{ file: 'a.ts', line: 2, text: '… walks in the book' }])
  expect(retiredIn('… walks in the book')).toHaveLength(2)
})

test('a day is ISO in a sentence, and not in a file name, an option or a line of a record', () => {
  for (const shown of ['No samples up to 2026-06-15.', '2026-06-15  12', '(2026-06-15)'])
    expect(ISO_DAY.test(shown), shown).toBe(true)
  for (const shown of [
    'sprays/2026-06-15-upper.yaml',
    'rowbook mix --date 2026-06-15',
    'calibrated: 2026-06-15',
  ])
    expect(ISO_DAY.test(shown), shown).toBe(false)
})

test('one of a thing is not worded as many, whatever ends in a one', () => {
  for (const shown of ['1 days ago', 'in 1 weeks', '(1 rows)'])
    expect(ONE_AS_MANY.test(shown), shown).toBe(true)
  for (const shown of ['21 days', '0.1 days', '1 day', '10 1-day', '3-1 weeks'])
    expect(ONE_AS_MANY.test(shown), shown).toBe(false)
})
