import { existsSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, describe, expect, it, test } from 'vitest'
import { startQuestions } from '../../src/commands/prompts/start-questions.ts'
import { run, runJson } from './run.ts'
import { asks, hasTmux, NO_TMUX, Terminal } from './terminal.ts'

let terminal: Terminal | null = null
afterEach(() => terminal?.close())

function open(folder: string): Terminal {
  terminal = new Terminal(folder)
  return terminal
}

const answer = async (at: Terminal, question: string, ...typed: string[]) => {
  for (const text of typed) {
    await at.see(asks(question))
    at.type(text)
  }
}

describe.skipIf(!hasTmux)(`start in a terminal${hasTmux ? '' : ` (skipped: ${NO_TMUX})`}`, () => {
  it('asks five questions and for the block, and makes nothing up', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'rowbook-start-'))
    const at = open(folder)
    at.type('rowbook start mine --timezone Europe/Amsterdam')
    await answer(at, 'What is your vineyard called?', 'Brook Rows')
    await answer(at, 'Where is it?', 'north', '52,1', "52°06'N 5.6E")
    await answer(at, 'Which units should reports print?', 'feet', '')
    await answer(at, 'What is your first block called?', '?', 'Slope')
    await answer(at, 'Which sprayer do you have', 'knapsack', 'knapsack 15')
    await answer(at, 'Which variety?', 'Solaris')
    await answer(at, 'What colour are the berries', 'white')
    await answer(at, 'How big is it?', '180 vines')
    await answer(at, 'How far is it from row to row', '2.2 m and 1.2 m')
    await answer(at, 'How many vines are missing', '')
    await answer(at, 'In which year', '')
    await at.see('Not written yet: blocks/slope.yaml')
    expect(existsSync(join(folder, 'mine'))).toBe(false)
    await answer(at, 'Write it? Type y or n.', '')
    await at.see("Your vineyard's records are in mine")
    const root = join(folder, 'mine')
    expect(readFileSync(join(root, 'vineyard.yaml'), 'utf8')).toMatch(
      /name: "Brook Rows"\nlatitude: 52.1 .*\nlongitude: 5.6 .*\ntimezone: Europe\/Amsterdam\nunits: metric/,
    )
    expect(readdirSync(root).filter((name) => !name.startsWith('.'))).toEqual([
      'blocks',
      'sprayers',
      'varieties',
      'vineyard.yaml',
    ])
    const { status, json } = runJson(['check', '--ledger', root])
    expect([status, json.findings]).toEqual([0, []])
    expect(json.data.records).toMatchObject({ blocks: 1, varieties: 1, sprayers: 1, products: 0, sprays: 0 })
    const due = run(['today', '--ledger', root, '--as-of', '2026-06-10'])
    expect(due.stdout).toBe(
      'Nothing is recorded yet. Begin with the growth stage.\n  rowbook note stage --block slope\n',
    )
  })

  it('goes back across all questions, shows the files, and writes none against a no', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'rowbook-start-'))
    const at = open(folder)
    at.type('rowbook start mine --timezone Europe/Amsterdam --units metric')
    await answer(at, 'What is your vineyard called?', 'Brook Rows')
    // South by a slip: the time zone lies in the north.
    await answer(at, 'Where is it?', '-52.1')
    await answer(at, 'What is your first block called?', 'Slope')
    await answer(at, 'Which sprayer do you have', '')
    await answer(at, 'Slope: Which variety?', '<')
    await answer(at, 'Which sprayer do you have', '<')
    await answer(at, 'What is your first block called?', '-')
    await answer(at, 'Which sprayer do you have', 'knapsack 15')
    await at.see(
      /Not written yet: vineyard\.yaml[\s\S]*latitude: -52\.1[\s\S]*is not in the time zone[\s\S]*sprayers\/knapsack\.yaml/,
    )
    await answer(at, 'Write it? Type y or n. [y]', '<')
    await answer(at, '[knapsack 15]', '')
    await answer(at, 'Write it? Type y or n. [y]', 'perhaps', 'no')
    await at.see(
      "rowbook start mine --name 'Brook Rows' --latitude -52.1 --units metric --timezone Europe/Amsterdam --yes",
    )
    await at.see("rowbook note sprayer --ledger mine --name knapsack --tank '15 L'")
    expect(existsSync(join(folder, 'mine'))).toBe(false)
  })

  it('writes nothing when left, and says how to go on', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'rowbook-start-'))
    const at = open(folder)
    at.type('rowbook start mine')
    await answer(at, 'What is your vineyard called?', 'Brook Rows')
    await answer(at, 'Where is it?', '52.1')
    await at.see(asks('Which units should reports print?'))
    at.press('C-c')
    await at.see("rowbook start mine --name 'Brook Rows' --latitude 52.1")
    expect(existsSync(join(folder, 'mine'))).toBe(false)
  })
})

test('without a terminal no latitude is made up: the file and every report say that it is missing', () => {
  const root = join(mkdtempSync(join(tmpdir(), 'rowbook-start-')), 'mine')
  const made = run(['start', root, '--name', 'Brook Rows'])
  expect(made.status).toBe(0)
  expect(made.stdout.replace(/\s+/g, ' ')).toContain('The latitude is missing, and no report runs without it')
  expect(made.stdout).toMatch(/Next:\n +cd .*\n(?: .*\n)? *rowbook check .*latitude/)
  const text = readFileSync(join(root, 'vineyard.yaml'), 'utf8')
  expect(text).not.toMatch(/^latitude/m)
  const { status, json } = runJson(['check', '--ledger', root])
  expect([
    status,
    json.findings.map(({ name, message }: { name: string; message: string }) => [name, message]),
  ]).toEqual([1, [['missing-key', '`latitude` is missing']]])
  for (const report of ['today', 'heat', 'pressure']) {
    const refused = run([report, '--ledger', root])
    expect([refused.status, refused.stdout + refused.stderr]).toEqual([
      1,
      expect.stringContaining('`latitude` is missing'),
    ])
  }
  writeFileSync(join(root, 'vineyard.yaml'), text.replace('# latitude: 52.1', 'latitude: -41.5'))
  expect(run(['check', '--ledger', root]).stdout).toContain('0 errors')
})

/** Reads an answer to one of the questions of `start`. */
const read = (key: string, text: string, units: 'metric' | 'us' = 'metric') =>
  startQuestions({ folder: 'x', timezone: 'UTC', typed: new Set(), units })
    .find((question) => question.key === key)!
    .read(text)

test.each([
  ['52.1', { latitude: '52.1' }],
  ['52.1, 5.6', { latitude: '52.1', longitude: '5.6' }],
  ['-41.5 174', { latitude: '-41.5', longitude: '174' }],
  ['41.5 S, 174 E', { latitude: '-41.5', longitude: '174' }],
  ['52.1N', { latitude: '52.1' }],
  ["52°06'N 1°30'W", { latitude: '52.1', longitude: '-1.5' }],
  ["N 52° 06', W 1° 30'", { latitude: '52.1', longitude: '-1.5' }],
  ['S41.5 E174', { latitude: '-41.5', longitude: '174' }],
  ['41.5 south, 174 east', { latitude: '-41.5', longitude: '174' }],
  ["52º06'30''N", { latitude: '52.10833' }],
  ["52°06'30\"N 5°36'W", { latitude: '52.10833', longitude: '-5.6' }],
])('a place written %s is read', (text, place) => {
  const { parts } = read('latitude', text)
  expect(Object.fromEntries(parts!.map(({ option, text }) => [option, text]))).toEqual(place)
})

test.each([
  ['', 'Type the latitude'],
  ['52,1', 'like 52.1.'],
  ['52,1 N', 'like 52.1.'],
  ['52,1; 5,6', 'like 52.1.'],
  ['here', 'Type the latitude'],
  ['95', 'No place has latitude 95.'],
  ['52 200', 'No place has longitude 200.'],
])('a place written %j is refused with what to type', (text, fault) => {
  expect(read('latitude', text).fault).toContain(fault)
})

test.each([
  ['knapsack 15 L', 'metric', ['knapsack', '15 L']],
  ['Solo, 4 gal', 'us', ['Solo', '4 US gal']],
  ['12', 'metric', ['Sprayer', '12 L']],
  ['15 litres', 'metric', ['Sprayer', '15 L']],
] as const)('a sprayer written %s (%s) is read', (text, units, [name, tank]) => {
  expect(read('sprayer', text, units).parts).toEqual([
    { option: 'sprayer', text: name },
    { option: 'tank', text: tank },
  ])
})

test.each(['knapsack', 'knapsack 0 L', 'knapsack 15 m'])('a sprayer written %s is refused', (text) => {
  expect(read('sprayer', text).fault).toContain('like knapsack 15 L.')
})
