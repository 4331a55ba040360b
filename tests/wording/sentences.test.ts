import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { COMMANDS } from '../commands/whole-table.ts'
import { runHere } from '../faults/in-process.ts'
import { linesOf, walk } from '../reports/walk.ts'
import { countWords, sentencesOf, TOO_LONG, tooLong } from './sentences.ts'

/** So wide that no sentence is broken over two lines. */
const WIDE = 2000

/** Ids and names of blocks and products of a ledger. */
const namesIn = (root: string): string[] =>
  ['blocks', 'products', 'sprayers'].flatMap((kind) =>
    readdirSync(join(root, kind))
      .filter((file) => file.endsWith('.yaml'))
      .flatMap((file) => [
        file.replace('.yaml', ''),
        /^name: (.*)$/m.exec(readFileSync(join(root, kind, file), 'utf8'))![1]!,
      ]),
  )

test.each([
  ['far-quillet', ['2026-07-16', '2026-09-14']],
  ['tansy-corner', ['2026-07-12']],
])('no sentence of any report of %s is too long', async (example, days) => {
  const root = `examples/${example}`
  const names = namesIn(root)
  const found = new Map<string, string>()
  for (const day of days)
    for (const { line, out } of await walk(root, linesOf(root), day, WIDE))
      for (const sentence of tooLong(out, names))
        if (!SOURCES.test(sentence)) found.set(sentence, `${line}: ${sentence}`)
  expect([...found.values()]).toEqual([])
})

/** A list of publications, by their titles. */
const SOURCES = /^Sources: |Commission Implementing Regulation|\bCFR\b/

type Explained = { name: string; what: string; formula?: string; limits?: string; choices?: string }

/** Where the next equation of a formula begins. */
const EQUATION = /[;.] (?=[^;.]+ = )/

test('no sentence of the help, of what a finding says or of what is explained is too long', async () => {
  const { out } = await runHere(['explain', '--json'])
  const { explained } = JSON.parse(out).data as { explained: Explained[] }
  expect(explained.length).toBeGreaterThan(200)
  const helps = await Promise.all(
    COMMANDS.map(
      async ({ name }) => [name, (await runHere([name, '--help'], '/', undefined, WIDE)).out] as const,
    ),
  )
  const said = readFileSync('tests/rules/said.txt', 'utf8').replace(
    /^(?:#|seasons|\S+\.\w+:| *(?:write the unit|units here): (?:[\w/ ]+, ){5}).*$/gm,
    '',
  )
  const texts = [
    ...explained.flatMap(({ name, what, formula = '', limits = '', choices = '' }) =>
      [what, ...formula.split(EQUATION), limits, choices].map((text) => [name, text] as const),
    ),
    ...helps,
    ['a finding', said] as const,
  ]
  const faults = texts.flatMap(([name, text]) => tooLong(text, []).map((sentence) => `${name}: ${sentence}`))
  expect(faults).toEqual([])
})

test('a sentence is counted by its words; figures, days, names and commands are one each', () => {
  const names = ['Top Terrace', 'Kiln Bank']
  expect(
    sentencesOf(
      'Pick Top Terrace and Kiln Bank on Sat 3 Oct, 1 690 kg. Run `rowbook ready --all` first.',
      names,
    ),
  ).toEqual(['Pick Name on Day, Figure.', 'Run Command first.'])
  expect(countWords('Pick Name on Day, Figure.')).toBe(5)
  expect(sentencesOf('To do (or not): one; two', [])).toEqual(['To do', 'one', 'two', 'or not'])
  const long = `${'word '.repeat(TOO_LONG - 1)}end.`
  expect(tooLong(`Short. ${long}`.replace('word', 'Word'), [])).toHaveLength(1)
})
