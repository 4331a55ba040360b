import { spawnSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import ts from 'typescript'
import { describe, expect, test } from 'vitest'
import { readText } from '../../src/ledger/read/read-file.ts'
import { readYaml } from '../../src/ledger/yaml/read-yaml.ts'
import { judge } from '../../src/rules/index.ts'
import { AS_OF, lookAt, put, smallBook } from './book.ts'
import { runHere } from './in-process.ts'
import { PROGRAM, PROJECT } from './processes.ts'
import { times } from './size.ts'

/** Reports that print the names of records, in tables and sentences. */
const LAID_OUT = [
  'totals',
  'cover',
  'scouting',
  'ripeness',
  'window',
  'crop',
  'harvest',
  'label',
  'season',
  'today',
]

/** Time limit on a busy machine for work that takes tenths of a second on an idle one. */
const SOON_MS = 8000

const soon = <T>(work: () => T): T => {
  const started = performance.now()
  const result = work()
  expect(performance.now() - started).toBeLessThan(SOON_MS)
  return result
}

const steps = (count: number, line: string) =>
  Array.from({ length: count }, (_, at) => `${' '.repeat(at)}${line}`).join('\n')

/** Files of a few kilobytes to a megabyte that once took gigabytes, minutes or the whole stack. */
const FILES: Readonly<Record<string, () => string>> = {
  'maps in lists in maps on one line': () => 'a: [ '.repeat(1500),
  'the same over lines': () => 'a: [\n'.repeat(15_000),
  'the same, indented': () => ' a: [\n'.repeat(15_000),
  'lists of maps': () => '[a: '.repeat(1500),
  'keys behind keys': () => 'a: '.repeat(2000),
  'question marks': () => '? '.repeat(1500),
  dashes: () => '- '.repeat(1500),
  'ever deeper keys': () => steps(399, 'a:'),
  'ever deeper lists': () => steps(300, '- a:'),
  'ever deeper dashes': () => steps(399, '-'),
  'brackets that close nothing': () => `a: {}${'}'.repeat(1e6)}`,
  'a list of aliases': () => '- *a\n'.repeat(150_000),
  'aliases in brackets': () => `[${'*a,'.repeat(250_000)}]`,
  anchors: () => '- &a 1\n'.repeat(100_000),
  tags: () => '- !x 1\n'.repeat(100_000),
  'exclamation marks': () => '! '.repeat(5e5),
  commas: () => `[${','.repeat(1e6)}]`,
  colons: () => ': '.repeat(5e5),
  'empty pairs': () => `{${':,'.repeat(5e5)}}`,
  'open quotes': () => '"'.repeat(1e6),
  'empty block scalars': () => 'a: >\n'.repeat(2e5),
  'blank lines': () => `a:${'\n'.repeat(1e6)}`,
  spaces: () => `a: ${' '.repeat(1e6)}`,
  comments: () => '#\n'.repeat(5e5),
  documents: () => '---\n'.repeat(250_000),
  tabs: () => '\ta: 1\n'.repeat(150_000),
  directives: () => `${' \n'.repeat(250_000)}%YAML 1.2\n`,
  'a text of many lines': () => `name: "${'\n'.repeat(200_000)}"\n`,
  'entries that are none': () => '- 1\n'.repeat(250_000),
  'entries without a key': () => '- {}\n'.repeat(200_000),
  'a list of readings': () => `- { date: 2026-09-02, block: upper, brix: [${'18,'.repeat(300_000)}18] }\n`,
}

describe('H1: one file that could overwhelm a parser', () => {
  test.each(Object.entries(FILES))('%s: refused quickly', (_, make) => {
    const text = make()
    const { node, findings } = soon(() => readYaml({ file: 'x.yaml', text }))
    expect(findings.length).toBeLessThanOrEqual(node === null ? 10 : 0)
    const looked = soon(() => lookAt(smallBook({ 'seasons/2026/samples.yaml': text })))
    const told = looked.findings.filter(({ file }) => file.endsWith('samples.yaml'))
    expect(told.length).toBeGreaterThan(0)
    expect(told.length).toBeLessThan(500)
  })

  test.each([
    ['a record', 'blocks/upper.yaml', 1024 * 1024, 'x: 1\n'],
    ['weather', 'seasons/2026/weather.csv', 8 * 1024 * 1024, 'a,b\n'],
  ])('%s over its limit is not even read, and one at it is', (_, file, most, line) => {
    const text = line.repeat(Math.ceil(most / line.length))
    expect(readText(smallBook({ [file]: `${text}${line}` }), file).finding?.name).toBe('file-too-large')
    expect(readText(smallBook({ [file]: text.slice(0, most) }), file).text?.length).toBe(most)
  })

  test('the built program on the worst of them, without a stack trace and within its memory', () => {
    for (const name of ['brackets that close nothing', 'a list of aliases', 'entries that are none']) {
      const root = smallBook({ 'seasons/2026/samples.yaml': FILES[name]!() })
      const { status, stdout, stderr } = spawnSync(
        'node',
        ['--max-old-space-size=256', PROGRAM, 'check', '--ledger', root],
        { encoding: 'utf8', env: { PATH: process.env.PATH, HOME: mkdtempSync(join(tmpdir(), 'rowbook-')) } },
      )
      expect([status, stderr], stdout.slice(0, 500)).toEqual([1, ''])
    }
  })
})

/** For each field and option that is parsed, a long text that makes a badly written regular expression slow. */
const LONG = 150_000
const TEXTS = [
  ' '.repeat(LONG),
  `1${' '.repeat(LONG)}x`,
  '1'.repeat(LONG),
  `${'1'.repeat(LONG)} kg`,
  `${'1'.repeat(LONG)},${'1'.repeat(LONG)}`,
  `1 kg${' /'.repeat(LONG / 2)}`,
  `1${' -'.repeat(LONG / 2)}`,
  'a='.repeat(LONG / 2),
  `${'a.'.repeat(LONG / 2)}yaml`,
  ', '.repeat(LONG / 2),
  `north${' '.repeat(LONG)}south`,
  '-'.repeat(LONG),
  '<'.repeat(LONG),
]

describe('H2: long texts in fields that are parsed', () => {
  const FIELDS: readonly ((text: string) => Record<string, string>)[] = [
    (text) => ({
      'seasons/2026/samples.yaml': `- { date: 2026-09-02, block: upper, brix: 18, temperature: ${JSON.stringify(text)} }\n`,
    }),
    (text) => ({
      'seasons/2026/sprays/a.yaml': `date: ${JSON.stringify(text)}\ntime: ${JSON.stringify(text)}\nblocks: [upper]\nwater: ${JSON.stringify(text)}\nproducts:\n  - { product: sulphur, rate: ${JSON.stringify(text)}, for: ${JSON.stringify(text)} }\n`,
    }),
    (text) => ({
      'seasons/2026/sprays/a.yaml': `date: 2026-06-14\nblocks: [upper]\nwater: 300 L/ha\nweather: { from: ${JSON.stringify(text)} }\nproducts:\n  - { product: sulphur, rate: 3 kg/ha, for: powdery }\n`,
    }),
  ]

  test.each(TEXTS.map((text) => [`${text.slice(0, 12)}... of ${text.length}`, text]))('%j', (_, text) => {
    for (const files of FIELDS) soon(() => lookAt(smallBook(files(text))))
    const time = `time,temperature_c\n2026-06-14T17:00,17\n${text}\n2026-06-14T18:00${text},17\n`
    soon(() => lookAt(smallBook({ 'seasons/2026/weather.csv': time })))
  })

  const NAMED = [
    ['blocks/upper.yaml', 'name: Upper'],
    ['products/sulphur.yaml', 'name: Test sulphur'],
    ['sprayers/mounted.yaml', 'name: Mounted'],
    ['varieties/palava.yaml', 'name: Palava'],
    ['vineyard.yaml', 'name: Test Rows'],
  ] as const
  const namedFor = (length: number) => {
    const root = smallBook()
    for (const [file, name] of NAMED) {
      const text = readFileSync(join(root, file), 'utf8')
      expect(text).toContain(name)
      put(root, file, text.replace(name, `name: ${'Wide row '.repeat(length / 18)}${'x'.repeat(length / 2)}`))
    }
    return root
  }

  test('H7: a name too long for any table is reported at its place, and no report prints it', async () => {
    const root = namedFor(180_000)
    const told = soon(() => lookAt(root)).findings.filter(({ name }) => name === 'text-too-long')
    expect(told.map(({ file, line }) => [file, line])).toEqual(NAMED.map(([file]) => [file, 1]).sort())
  })

  test('H7: every report prints the longest name allowed quickly', async () => {
    const root = namedFor(990)
    for (const name of LAID_OUT) {
      const started = performance.now()
      const { out, fault } = await runHere([name, '--ledger', root, '--as-of', AS_OF], root)
      expect([name, fault, out !== '']).toEqual([name, null, true])
      expect(performance.now() - started).toBeLessThan(SOON_MS)
    }
  })

  test('on the page, in the terminal and in JSON', async () => {
    const note = `"${'x < y / '.repeat(20_000)}"`
    const root = smallBook({
      'seasons/2026/work.yaml': `- { date: 2026-03-02, block: upper, job: pruning, note: ${note} }\n`,
    })
    const started = performance.now()
    for (const more of [[], ['--json'], ['--html', '-']]) {
      const { status, err } = await runHere(['diary', '--ledger', root, '--as-of', AS_OF, ...more], root)
      expect([status, err]).toEqual([0, ''])
    }
    expect(performance.now() - started).toBeLessThan(SOON_MS)
  })
})

describe('H3: no call spreads a list whose length depends on the ledger', () => {
  test('in `push` and `unshift`', () => {
    const source = join(PROJECT, 'src')
    const found: string[] = []
    for (const file of readdirSync(source, { recursive: true, encoding: 'utf8' })) {
      if (!file.endsWith('.ts')) continue
      const text = readFileSync(join(source, file), 'utf8')
      const tree = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true)
      const visit = (node: ts.Node): void => {
        if (
          ts.isCallExpression(node) &&
          /\.(?:push|unshift)$/.test(node.expression.getText()) &&
          node.arguments.some(ts.isSpreadElement)
        )
          found.push(`${file}:${tree.getLineAndCharacterOfPosition(node.getStart()).line + 1}`)
        ts.forEachChild(node, visit)
      }
      visit(tree)
    }
    expect(found).toEqual([])
  })
})

describe('H4: time grows in proportion to the entries', () => {
  /** Entries a day or less apart, over as many seasons as they need. */
  const KINDS: Readonly<Record<string, (day: number) => string>> = {
    work: (at) => `block: upper, job: job ${at % 9}, hours: ${(at % 7) + 1}`,
    stages: (at) => `block: ${at % 2 ? 'upper' : 'lower'}, stage: ${[7, 11, 53, 61, 71, 81][at % 6]}`,
    scouting: (at) => `block: upper, looked_at: { leaves: 50 }, found: { downy: { leaves: ${at % 40} } }`,
    samples: (at) => `block: upper, brix: ${14 + (at % 80) / 10}`,
    picks: (at) => `block: upper, weight: ${(at % 500) + 100} kg`,
    sprays: (at) =>
      `blocks: [upper], water: 300 L/ha, products: [ { product: sulphur, rate: ${(at % 3) + 2} kg/ha, for: powdery } ]`,
    crop: (at) => `block: upper, bunches_per_vine: [${(at % 20) + 5}]`,
  }

  function many(kinds: readonly string[], count: number): string {
    const files: Record<string, string> = {}
    for (const kind of kinds)
      for (let season = 0; season * 4000 < count; season += 1) {
        const lines = Array.from({ length: Math.min(4000, count - season * 4000) }, (_, at) => {
          const day = new Date(Date.UTC(2000 + season, 0, 1 + (at % 270))).toISOString().slice(0, 10)
          return `- { date: ${day}, ${KINDS[kind]!(at)} }\n`
        })
        files[`seasons/${2000 + season}/${kind}.yaml`] = lines.join('')
      }
    return smallBook({ ...files, 'seasons/2026/sprays/2026-06-14-upper.yaml': null })
  }

  const judged = (root: string) => {
    const { ledger } = lookAt(root)
    const started = performance.now()
    judge({ ledger, asOf: AS_OF, seasons: new Set(ledger.seasons) })
    return performance.now() - started
  }

  /** Entries that rules compare with each other. */
  test.each([
    [['picks', 'samples', 'stages']],
    [['sprays', 'stages', 'picks']],
    [['sprays', 'work']],
    [['crop', 'stages']],
  ])('the rules over %j together', { timeout: 600_000 }, (kinds) => {
    const count = times(500, 10_000)
    const [few, more] = [judged(many(kinds, count)), judged(many(kinds, count * 4))]
    expect(more).toBeLessThan(Math.max(4000, few * 12))
  })

  test.each(Object.keys(KINDS))('the rules over %s', { timeout: 600_000 }, (kind) => {
    const count = times(1500, 20_000)
    const [few, more] = [judged(many([kind], count)), judged(many([kind], count * 4))]
    // Four times the entries may take twelve times as long, sorting and a busy machine included; sixteen is the square.
    expect(more).toBeLessThan(Math.max(4000, few * 12))
  })
})

describe('H5: where the current folder is gone', () => {
  test('a working folder that was deleted', () => {
    const { status, stderr } = spawnSync(
      'sh',
      ['-c', 'folder=$(mktemp -d); cd "$folder"; rmdir "$folder"; exec node "$0" today', PROGRAM],
      { encoding: 'utf8' },
    )
    expect([status, stderr]).toEqual([
      2,
      expect.stringMatching(/^rowbook: the folder .* was deleted.*\n {2}.*\n$/),
    ])
  })
})
