import {
  appendFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { COMMANDS } from '../../src/commands/index.ts'
import { makeLedger } from '../ledger/make.ts'
import { ledgerCopy, type Ran, run } from './run.ts'

const newFolder = () => mkdtempSync(join(tmpdir(), 'rowbook-answers-'))
const ledgersIn = (cache: string) => join(cache, 'rowbook/ledgers')
const answersIn = (cache: string) =>
  readdirSync(ledgersIn(cache))
    .filter((name) => name.endsWith('-answer'))
    .map((name) => join(ledgersIn(cache), name))

/** No place for a cache is known, so that nothing is kept. */
const NOTHING_KEPT = { XDG_CACHE_HOME: '', HOME: '' }

const ARGUMENTS: Record<string, string[]> = {
  mix: [
    '--block',
    'top-terrace',
    '--product',
    'sulphur-80=3kg/ha',
    '--sprayer',
    'mounted',
    '--water',
    '300L/ha',
  ],
  compare: ['2025', '2026'],
  sugar: ['--brix', '21.5'],
}

describe('every report says the same bytes', () => {
  const root = ledgerCopy()
  // What changes says rests on a repository too: changes.test.ts holds its answers against each other.
  const kept = COMMANDS.filter(({ again, name }) => again && name !== 'changes').map(({ name }) => name)
  test.each(kept)(
    '%s, with nothing kept, with records kept, with its answer kept',
    (name) => {
      const args = [name, ...(ARGUMENTS[name] ?? []), '--ledger', root, '--as-of', '2026-09-14', '--json']
      const fresh = run(args, { env: NOTHING_KEPT })
      expect([0, 1]).toContain(fresh.status)
      const cache = newFolder()
      const again = () => run(args, { env: { XDG_CACHE_HOME: cache } })
      expect(again()).toEqual(fresh)
      expect(answersIn(cache).length).toBe(1)
      expect(again()).toEqual(fresh)
      for (const file of answersIn(cache)) rmSync(file)
      expect(again()).toEqual(fresh)
    },
    60_000,
  )
})

test('a report opens and lists nothing in the ledger that is not noted beside its answer', () => {
  const root = ledgerCopy()
  const cache = newFolder()
  const spy = join(newFolder(), 'spy.cjs')
  const log = `${spy}.log`
  writeFileSync(
    spy,
    `const fs = require('node:fs'), paths = []
     for (const name of ['openSync', 'readdirSync', 'readFileSync']) {
       const real = fs[name]
       fs[name] = (path, ...rest) => { paths.push(String(path)); return real(path, ...rest) }
     }
     process.on('exit', () => fs.writeFileSync(${JSON.stringify(log)}, paths.join('\\n')))\n`,
  )
  for (const name of ['check', 'ready', 'pressure', 'totals', 'today']) {
    const env = { XDG_CACHE_HOME: cache, NODE_OPTIONS: `--require ${spy}` }
    run([name, '--ledger', root, '--as-of', '2026-09-14'], { env })
    const [answer] = answersIn(cache)
    const noted = readFileSync(answer!, 'utf8')
    const opened = readFileSync(log, 'utf8')
      .split('\n')
      .filter((path) => path.startsWith(root))
      .map((path) => path.slice(root.length + 1).replace(/\/$/, ''))
    expect(opened.length).toBeGreaterThan(20)
    expect(opened.filter((path) => !noted.includes(`"${path}"]`))).toEqual([])
    rmSync(answer!)
  }
}, 60_000)

describe('an answer of an earlier run', () => {
  const cache = newFolder()
  const check = (root: string, options: string[] = [], env: Record<string, string> = {}): Ran =>
    run(['check', ...options, '--ledger', root, '--as-of', '2026-09-14'], {
      env: { XDG_CACHE_HOME: cache, ...env },
    })
  const SPRAY = 'seasons/2026/sprays/2026-06-14.yaml'
  const root = makeLedger({
    'products/odd.yaml': 'name: Odd\nsurprise: 1\n',
    'seasons/2026/samples.yaml': '- { date: 2026-09-01, block: top, brix: 19 }\n',
  })

  test('is what is printed, where all that it rests on is unchanged', () => {
    const before = check(root)
    const [file] = answersIn(cache)
    const whole = readFileSync(file!, 'utf8')
    writeFileSync(file!, whole.replaceAll('unknown-key', 'seen-before'))
    expect(check(root).stdout).toContain('seen-before')
    writeFileSync(file!, whole)
    expect(check(root)).toEqual(before)
  })

  test('is left aside where it is damaged, cut short or cannot be kept', () => {
    const before = check(root)
    for (const damage of [
      (bytes: Buffer) => bytes.map((byte, at) => (at === Math.floor(bytes.length * 0.7) ? byte ^ 1 : byte)),
      (bytes: Buffer) => bytes.subarray(0, 300),
      () => Buffer.alloc(0),
    ]) {
      for (const file of answersIn(cache)) writeFileSync(file, damage(readFileSync(file)))
      expect(check(root)).toEqual(before)
    }
    const blocked = newFolder()
    mkdirSync(join(blocked, 'rowbook'))
    writeFileSync(join(blocked, 'rowbook/ledgers'), 'a file where the folder should be')
    expect(check(root, [], { XDG_CACHE_HOME: blocked })).toEqual(before)
  }, 60_000)

  test('is not given for another width, unit, colour, language or day', () => {
    const plain = check(root)
    const fresh = (options: string[], env: Record<string, string>) => {
      const now = check(root, options, env)
      expect(now).toEqual(check(root, options, { ...env, ...NOTHING_KEPT }))
      return now
    }
    expect(fresh([], { COLUMNS: '120' }).stdout).not.toBe(plain.stdout)
    expect(fresh([], { NO_COLOR: '', FORCE_COLOR: '1' }).stdout).not.toBe(plain.stdout)
    expect(fresh(['--units', 'us'], {}).status).toBe(1)
    expect(check(root)).toEqual(plain)
  }, 60_000)

  test('is not given where anything in the ledger has changed', () => {
    const before = [check(root).stdout]
    const changed = (change: () => void) => {
      change()
      const now = check(root)
      expect(now).toEqual(check(root, [], NOTHING_KEPT))
      expect(check(root)).toEqual(now)
      expect(now.stdout).not.toBe(before.at(-1))
      before.push(now.stdout)
    }
    changed(() => appendFileSync(join(root, 'products/odd.yaml'), 'more: 2\n'))
    changed(() => writeFileSync(join(root, 'blocks/lost.yml'), 'name: lost\n'))
    changed(() => {
      mkdirSync(join(root, 'seasons/2026/sprays'), { recursive: true })
      writeFileSync(join(root, SPRAY), 'date: 2026-06-14\nblocks: [nowhere]\nproducts: []\n')
    })
    // Of the same length, so that only its content tells.
    changed(() => writeFileSync(join(root, SPRAY), 'date: 2026-06-14\nblocks: [nobody!]\nproducts: []\n'))
    changed(() => {
      renameSync(join(root, SPRAY), `${root}-outside.yaml`)
      symlinkSync(`${root}-outside.yaml`, join(root, SPRAY))
    })
    changed(() => rmSync(join(root, SPRAY)))
    changed(() => appendFileSync(join(root, 'vineyard.yaml'), 'unheard: of\n'))
    changed(() => writeFileSync(join(root, 'vineyard.yaml'), ''))
  }, 120_000)

  test('is not given where another ledger is the nearest now', () => {
    const outer = makeLedger({ 'inner/notes.txt': 'nothing' })
    const from = () =>
      run(['check', '--as-of', '2026-09-14'], { cwd: join(outer, 'inner'), env: { XDG_CACHE_HOME: cache } })
    const before = from()
    writeFileSync(join(outer, 'inner/vineyard.yaml'), 'name: Inner\n')
    expect(from().stdout).not.toBe(before.stdout)
    rmSync(join(outer, 'inner/vineyard.yaml'))
    expect(from()).toEqual(before)
    rmSync(join(outer, 'vineyard.yaml'))
    expect(from().status).toBe(2)
  })

  test('is not kept where it rests on more than the book', () => {
    const own = newFolder()
    const forecast = join(newFolder(), 'forecast.csv')
    writeFileSync(forecast, 'date,min_c,max_c,rain_mm\n2026-09-15,8,19,0\n')
    const env = { XDG_CACHE_HOME: own }
    run(['window', '--ledger', ledgerCopy(), '--as-of', '2026-09-14', '--forecast', forecast], { env })
    run(['pressure', '--weather', forecast, '--latitude', '50'], { env })
    run(['check', '--ledger', '/dev/null/nowhere'], { env })
    run(['check', '--sesaon', '2026'], { env })
    expect(answersIn(own)).toEqual([])
  })
})
