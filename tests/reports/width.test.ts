import { expect, test } from 'vitest'
import { SINGULAR } from '../../src/records/kinds.ts'
import { words } from '../../src/render/columns.ts'
import { renderTable } from '../../src/render/table.ts'
import { wrap, wrapCommand } from '../../src/render/text.ts'
import { COMMANDS } from '../commands/whole-table.ts'
import { NEEDED, runHere } from '../faults/in-process.ts'
import { bookIn, lengthened } from './own-books.ts'
import { linesOf, type Walked, walk } from './walk.ts'

const DAY = '2026-09-14'
const SUMMER = '2026-07-30'

const tooWide = (walked: readonly Walked[]) =>
  walked.flatMap(({ line, out }) =>
    out.split('\n').flatMap((row) => ([...row].length > 80 ? [`${line}: ${row}`] : [])),
  )

test.each([
  ['the first example', bookIn('metric', 'far-quillet'), DAY],
  [
    'it with US records and long names and ids',
    lengthened(bookIn('us', 'far-quillet', { records: true })),
    SUMMER,
  ],
  ['the second with long names and ids', lengthened(bookIn('metric', 'tansy-corner')), SUMMER],
])('nothing that %s prints is wider than a screen', async (_, root, day) => {
  expect(tooWide(await walk(root, linesOf(root), day))).toEqual([])
})

test('the checks before picking use all of a wide screen', async () => {
  const { out } = await runHere(
    ['ready', '--block', 'top-terrace'],
    bookIn('metric', 'far-quillet'),
    DAY,
    120,
  )
  const widest = (text: string) => Math.max(...text.split('\n').map((row) => [...row].length))
  expect(widest(out)).toBeLessThanOrEqual(120)
  expect(widest(out.slice(out.indexOf('  records '), out.indexOf('  crop ')))).toBeGreaterThan(100)
})

test('no help, page of the manual, explanation or error is wider than a screen', async () => {
  const root = bookIn('metric', 'far-quillet')
  const explained = JSON.parse((await runHere(['explain', '--json'])).out) as {
    data: { explained: { name: string }[] }
  }
  const lines = [
    ['--help'],
    ['manual'],
    ['manual', '--man'],
    ['manual', '--all'],
    ['explain'],
    ...COMMANDS.map(({ name }) => [name, '--help']),
    ...Object.values(SINGULAR).map((kind) => ['note', kind, '--help']),
    ...explained.data.explained.map(({ name }) => ['explain', name]),
    ...WRONG,
  ]
  expect(lines.length).toBeGreaterThan(250)
  const walked: Walked[] = []
  for (const args of lines) {
    const { out, err } = await runHere(args, root, DAY)
    walked.push({ line: args.join(' '), out: out + err })
  }
  expect(tooWide(walked)).toEqual([])
})

/** Commands whose output is read by an editor or a shell. */
const FOR_PROGRAMS = new Set(['schema', 'completion'])

/** Command lines that are refused with long messages. */
const WRONG = [
  ['export'],
  ['mix', '--dose', 'sulphur=3 kg/ha', '--water', '12L'],
  ['mix', '--dose', `${'a-long-name-of-a-product-'.repeat(4)}=3 kg/hectare`],
  ['mix', '--block', 'no-such-block-of-a-very-long-name-that-nobody-would-type-by-hand-but-some-do'],
  ['totals', '--no-such-option-of-a-very-long-name-that-nobody-would-type-by-hand-but-some-do'],
  ['note', 'spray', '--block', 'top-terrace', '--rows', 'from the gate to the walnut tree beside the brook'],
  ['harvest', '--helpers', 'x.html', '--as-of', SUMMER],
  ['spray'],
  ['export', 'no-such-table'],
  ['explain', 'no-such-figure'],
  ...COMMANDS.filter(({ name }) => !FOR_PROGRAMS.has(name)).map(({ name }) => [
    name,
    ...(NEEDED[name] ?? []),
    '--ledger',
    '/a/folder/that/is/not/there'.repeat(4),
  ]),
]

test('a long command is wrapped so that a shell reads the same words', () => {
  const line =
    'rowbook mix --block a --block b --product "sulphur-80=3 kg/ha" --water "300 L/ha" --sprayer mounted'
  expect(wrapCommand(line, 60)).toBe(
    '  rowbook mix --block a --block b \\\n    --product "sulphur-80=3 kg/ha" --water "300 L/ha" \\\n    --sprayer mounted',
  )
  expect(wrapCommand(line, 110)).toBe(`  ${line}`)
  const quoted = `rowbook note work --note 'it --rained, and the gate'\\''s hinge' --job "leaf --removal"`
  expect(wrapCommand(quoted, 56)).toBe(
    `  rowbook note work \\\n    --note 'it --rained, and the gate'\\''s hinge' \\\n    --job "leaf --removal"`,
  )
  const words = (text: string) => text.replace(/\\\n/g, '').split(/ +/).filter(Boolean)
  for (let columns = 30; columns < 110; columns++) {
    expect(words(wrapCommand(line, columns))).toEqual(words(line))
    expect(
      Math.max(
        ...wrapCommand(line, columns)
          .split('\n')
          .map((row) => row.length),
      ),
    ).toBeLessThanOrEqual(columns)
  }
})

test('a word longer than a line is cut, after a hyphen or a slash where it has one', () => {
  expect(wrap('see seasons/2026/sprays/2026-06-14-upper.yaml', 24)).toBe(
    'see seasons/2026/sprays/\n2026-06-14-upper.yaml',
  )
  expect(wrap('x'.repeat(45), 20)).toBe(`${'x'.repeat(20)}\n${'x'.repeat(20)}\n${'x'.repeat(5)}`)
})

test('a table wraps only where the screen is too narrow', () => {
  const why = 'protection was washed off by rain '.repeat(2).trim()
  const columns = [words('block', () => 'Top Terrace', 10), words('why', () => why)]
  const [narrow, wide] = [40, 120].map((screen) => renderTable([{}], columns, screen).trimEnd().split('\n'))
  expect(wide).toEqual(['block        why', `Top Terrace  ${why}`])
  expect(narrow!.length).toBeGreaterThan(2)
  expect(narrow!.every((row) => row.length <= 40)).toBe(true)
})
