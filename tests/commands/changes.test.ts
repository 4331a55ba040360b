import {
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeEach, describe, expect, test } from 'vitest'
import { GitBook, spray } from '../ledger/git-book.ts'
import { makeLedger } from '../ledger/make.ts'
import { run, runJson } from './run.ts'

const A = 'seasons/2026/sprays/2026-06-14-upper.yaml'
const B = 'seasons/2026/sprays/2026-06-15-lower.yaml'
const ON = ['--as-of', '2026-06-21']

function ask(book: GitBook, args: string[] = [], on = ON) {
  const { status, json } = runJson(['changes', ...args, ...on], { cwd: book.root })
  return { status, ...json.data }
}
const counts = ({ added, removed, corrected }: Record<string, unknown[]>) => [
  added!.length,
  removed!.length,
  corrected!.length,
]

let book: GitBook
beforeEach(() => {
  book = new GitBook().write({ [A]: spray('2026-06-14', 'upper'), [B]: spray('2026-06-15', 'lower') })
  book.commit('The book')
})

describe('no change in the ledger', () => {
  test.each<[string, (book: GitBook) => void]>([
    ['nothing touched', () => {}],
    ['a file renamed', (one) => one.git('mv', A, 'seasons/2026/sprays/2026-06-14-other-name.yaml')],
    [
      'comments and blank lines',
      (one) => one.write({ [A]: `# checked\n\n${spray('2026-06-14', 'upper')}# end\n` }),
    ],
    [
      'keys in another order, a list in block style, quotes',
      (one) =>
        one.write({
          [A]: 'products:\n  - for: powdery\n    rate: 3 kg/ha\n    product: sulphur\nstage: 65\noperator: "R."\nwater: 300 L/ha\nblocks:\n  - upper\nsprayer: mounted\ntime: 18:00-19:00\ndate: 2026-06-14\n',
        }),
    ],
    [
      'the same dose in another unit',
      (one) => one.write({ [A]: spray('2026-06-14', 'upper', 'sulphur', '3000 g/ha') }),
    ],
    [
      'entries moved into one file',
      (one) => {
        const list = [spray('2026-06-15', 'lower'), spray('2026-06-14', 'upper')]
          .map((text) => `- ${text.trimEnd().replaceAll('\n', '\n  ')}\n`)
          .join('')
        one.write({ [A]: null, [B]: null, 'seasons/2026/sprays.yaml': list })
      },
    ],
    ['Windows line ends', (one) => one.write({ [A]: spray('2026-06-14', 'upper').replaceAll('\n', '\r\n') })],
  ])('%s', (_, change) => {
    change(book)
    const data = ask(book)
    expect(counts(data)).toEqual([0, 0, 0])
    expect(data.effects).toEqual({ figures: [], findings: { appeared: [], gone: [] } })
    expect(run(['changes', ...ON], { cwd: book.root }).stdout).toMatch(/^No change in the records/)
  })
})

describe('what changed', () => {
  test('added: with what it does to sprays, copper, earliest harvest and findings', () => {
    book.write({ 'seasons/2026/sprays/c.yaml': spray('2026-06-19', 'upper', 'copper', '2 kg/ha') })
    const data = ask(book)
    expect(counts(data)).toEqual([1, 0, 0])
    expect(data.added[0]).toMatchObject({
      kind: 'spray',
      date: '2026-06-19',
      gist: 'copper 2 kg/ha',
      late: false,
    })
    const figure = (name: string) =>
      data.effects.figures.find((one: { figure: string }) => one.figure === name)
    expect(figure('sprays')).toMatchObject({ block: 'upper', season: 2026, from: 1, to: 2 })
    // 2 kg/ha of a product with 350 g/kg of copper on the whole block
    expect(figure('copper')).toMatchObject({ from: 0, to: expect.closeTo(0.7, 9), unit: 'kg/ha' })
    // 21 days, cautiously counted from the end of spraying
    expect(figure('legalFrom')).toMatchObject({ from: '2026-07-06', to: '2026-07-11' })
  })

  test('corrected: field by field, with units as written, wherever the entry now stands', () => {
    book.write({
      [A]: null,
      'seasons/2026/sprays.yaml': `- ${spray('2026-06-14', 'upper', 'sulphur', '8 kg/ha').replace('18:00', '17:30').trimEnd().replaceAll('\n', '\n  ')}\n`,
    })
    const data = ask(book)
    expect(counts(data)).toEqual([0, 0, 1])
    expect(data.corrected[0].fields).toEqual([
      { field: 'time', from: '18:00-19:00', to: '17:30-19:00' },
      { field: 'products.sulphur.rate', from: '3 kg/ha', to: '8 kg/ha' },
    ])
    expect(data.effects.findings.appeared.map(({ name }: { name: string }) => name)).toContain('over-rate')
    const { stdout } = run(['changes', ...ON], { cwd: book.root })
    expect(stdout).toContain('rate of sulphur: 3 kg/ha -> 8 kg/ha')
    expect(stdout).toContain('New findings')
  })

  test('a new name of a product makes no finding about it new', () => {
    book.write({ [A]: spray('2026-06-14', 'upper', 'sulphur', '8 kg/ha') }).commit('too much')
    const product = readFileSync(join(book.root, 'products/sulphur.yaml'), 'utf8')
    book.write({ 'products/sulphur.yaml': product.replace(/^name: .*$/m, 'name: Renamed') })
    const data = ask(book)
    expect(counts(data)).toEqual([0, 0, 1])
    expect(data.effects.findings).toEqual({ appeared: [], gone: [] })
    const { stdout } = run(['check', ...ON], { cwd: book.root })
    expect(stdout).toContain('8 kg/ha of Renamed is')
  })

  test('a date corrected is one correction, beside a new spray of the old day', () => {
    book.write({
      [A]: spray('2026-06-13', 'upper'),
      'seasons/2026/sprays/d.yaml': spray('2026-06-14', 'upper', 'copper', '1 kg/ha'),
    })
    const data = ask(book)
    expect(counts(data)).toEqual([1, 0, 1])
    expect(data.corrected[0].fields).toEqual([{ field: 'date', from: '2026-06-14', to: '2026-06-13' }])
  })

  test('removed, and a product corrected: every season it was used in is looked at', () => {
    book.write({
      [B]: null,
      'products/sulphur.yaml': readFileSync(join(book.root, 'products/sulphur.yaml'), 'utf8').replace(
        'before_harvest: 21 d',
        'before_harvest: 28 d',
      ),
    })
    const data = ask(book)
    expect(counts(data)).toEqual([0, 1, 1])
    expect(data.corrected[0]).toMatchObject({
      kind: 'product',
      id: 'sulphur',
      fields: [{ field: 'before_harvest', from: '21 d', to: '28 d' }],
    })
    expect(data.effects.figures).toContainEqual(
      expect.objectContaining({ block: 'upper', figure: 'legalFrom', from: '2026-07-06', to: '2026-07-13' }),
    )
  })

  test.each([
    ['2026-07-14', false],
    ['2026-07-15', true],
  ])('a spray of 14 June corrected on %s is marked: %s', (day, late) => {
    book.write({ [A]: spray('2026-06-14', 'upper', 'sulphur', '4 kg/ha') })
    const data = ask(book, [], ['--as-of', day])
    expect(data.corrected[0].late).toBe(late)
    expect(
      run(['changes', '--as-of', day], { cwd: book.root }).stdout.includes('Say why in the commit'),
    ).toBe(late)
  })

  test('between commits the day is that of the commit, not today', () => {
    book
      .write({ [A]: spray('2026-06-14', 'upper', 'sulphur', '4 kg/ha') })
      .commit('Correct', '2026-06-25T12:00:00Z')
    book
      .write({ [B]: spray('2026-06-15', 'lower', 'sulphur', '4 kg/ha') })
      .commit('Correct late', '2026-09-25T12:00:00Z')
    const { corrected } = ask(book, ['HEAD~2', 'HEAD'], ['--as-of', '2026-10-20'])
    expect(corrected.map((one: { daysAfter: number; late: boolean }) => [one.daysAfter, one.late])).toEqual([
      [11, false],
      [102, true],
    ])
  })
})

describe('histories', () => {
  test('a merge of two branches that both logged sprays', () => {
    book.git('checkout', '-q', '-b', 'phone')
    book.write({ 'seasons/2026/sprays/p.yaml': spray('2026-06-18', 'upper') }).commit('Phone')
    book.git('checkout', '-q', 'main')
    book.write({ 'seasons/2026/sprays/q.yaml': spray('2026-06-19', 'lower') }).commit('Laptop')
    book.git('merge', '-q', 'phone', '-m', 'Merge')
    expect(counts(ask(book, ['HEAD~1', 'HEAD']))).toEqual([1, 0, 0])
    expect(counts(ask(book, ['HEAD~2..HEAD']))).toEqual([2, 0, 0])
  })

  test('a squash says the same as the commits that it holds', () => {
    book.git('checkout', '-q', '-b', 'work')
    book.write({ 'seasons/2026/sprays/p.yaml': spray('2026-06-18', 'upper') }).commit('One')
    book
      .write({ 'seasons/2026/sprays/p.yaml': spray('2026-06-18', 'upper', 'sulphur', '4 kg/ha') })
      .commit('Two')
    const apart = ask(book, ['main', 'work'])
    book.git('checkout', '-q', 'main')
    book.git('merge', '-q', '--squash', 'work')
    book.commit('Squashed')
    const together = ask(book, ['HEAD~1', 'HEAD'])
    expect([together.added, together.effects]).toEqual([apart.added, apart.effects])
  })

  test('nothing committed yet: all is new, and it says so', () => {
    const unborn = new GitBook()
    const data = ask(unborn)
    expect(data.from).toMatchObject({ name: 'nothing yet', commit: null })
    expect([data.removed.length, data.corrected.length, data.effects]).toEqual([0, 0, null])
    expect(data.added.length).toBe(7)
    expect(run(['changes', '--message', ...ON], { cwd: unborn.root }).stdout).toMatch(/^Add /)
  })

  test('a detached HEAD', () => {
    book.write({ 'seasons/2026/sprays/p.yaml': spray('2026-06-18', 'upper') }).commit('One')
    book.git('checkout', '-q', '--detach', 'HEAD~1')
    expect(counts(ask(book, ['HEAD', 'main']))).toEqual([1, 0, 0])
    expect(counts(ask(book))).toEqual([0, 0, 0])
  })

  test('a ledger that is a folder of a larger repository, and a commit before it was there', () => {
    const inside = new GitBook('farms/east rows')
    inside.git('commit', '-q', '--allow-empty', '-m', 'Before')
    inside.commit('The book')
    inside.write({ [A]: spray('2026-06-14', 'upper') })
    expect(counts(ask(inside))).toEqual([1, 0, 0])
    expect(ask(inside, ['HEAD~1', 'HEAD']).why).toContain('no earlier records')
    expect(ask(inside, ['HEAD~1', 'HEAD']).added.length).toBe(7)
  })

  test('--since a day: from the last commit before it, by the clock of the vineyard', () => {
    book
      .write({ 'seasons/2026/sprays/p.yaml': spray('2026-06-18', 'upper') })
      .commit('One', '2026-06-22T21:59:00Z')
    book
      .write({ 'seasons/2026/sprays/q.yaml': spray('2026-06-19', 'lower') })
      .commit('Two', '2026-06-22T22:01:00Z')
    const on = ['--as-of', '2026-06-30']
    expect(counts(ask(book, ['--since', '2026-06-23'], on))).toEqual([1, 0, 0])
    expect(counts(ask(book, ['--since', '2026-06-22'], on))).toEqual([2, 0, 0])
    expect(ask(book, ['--since', '2020-01-01'], on).from.name).toBe('nothing yet')
  })

  test('a broken record is named and no figure is given; its repair can be told', () => {
    book.write({ [A]: '<<<<<<< HEAD\ndate: 2026-06-14\n=======\n' })
    const data = ask(book)
    expect([data.status, data.effects]).toEqual([1, null])
    expect(data.unread[0]).toMatchObject({ in: 'to', finding: { name: 'merge-conflict', file: A } })
    book.commit('Broken').write({ [A]: spray('2026-06-14', 'upper') })
    expect([ask(book).status, ask(book).added.length]).toEqual([0, 1])
  })
})

test('the answer is the same with and without the cache of earlier runs', () => {
  const cache = mkdtempSync(join(tmpdir(), 'rowbook-cache-'))
  const say = (args: string[] = [], on = ON) =>
    run(['changes', '--json', ...args, ...on], { cwd: book.root, env: { XDG_CACHE_HOME: cache } }).stdout
  const fresh = (args: string[] = [], on = ON) =>
    run(['changes', '--json', ...args, ...on], { cwd: book.root, env: { XDG_CACHE_HOME: '', HOME: '' } })
      .stdout
  book.write({ [A]: spray('2026-06-14', 'upper', 'sulphur', '4 kg/ha') })
  const first = say()
  expect([say(), fresh()]).toEqual([first, first])
  book.write({ [A]: spray('2026-06-14', 'upper', 'sulphur', '5 kg/ha') })
  expect([say(), say()]).toEqual([fresh(), fresh()])
  expect(say()).not.toBe(first)
  book.git('commit', '-q', '-a', '-m', 'Correct')
  expect(JSON.parse(say()).data.corrected).toHaveLength(0)
  expect([say(['HEAD~1', 'HEAD']), say(['HEAD~1', 'HEAD'])]).toEqual(Array(2).fill(fresh(['HEAD~1', 'HEAD'])))
  const later = ['--as-of', '2026-08-01']
  expect(say(['HEAD~1', 'HEAD'], later)).toBe(fresh(['HEAD~1', 'HEAD'], later))
})

test('--message: a subject of at most 72 characters, a blank line, then one line an entry', () => {
  book.write({ 'seasons/2026/sprays/p.yaml': spray('2026-06-18', 'upper', 'copper', '1 kg/ha') })
  const { status, stdout } = run(['changes', '--message', ...ON], { cwd: book.root })
  expect(status).toBe(0)
  const lines = stdout.split('\n')
  expect(lines[0]).toBe('Add spray 18 Jun 2026 upper')
  expect(lines[1]).toBe('')
  expect(lines[2]).toBe('- add spray 18 Jun 2026 upper: copper 1 kg/ha')
  expect(stdout).toContain('copper 0.00 -> 0.35 kg/ha')
  expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(72)
})

describe('safe in anybody’s repository', () => {
  test('nothing in the working tree or the index changes', () => {
    book.write({ [A]: spray('2026-06-14', 'upper', 'sulphur', '4 kg/ha') })
    const status = book.git('status', '--porcelain')
    const index = () => statSync(join(book.top, '.git/index')).mtimeMs
    const before = index()
    ask(book, ['HEAD', 'main'])
    ask(book)
    expect(index()).toBe(before)
    expect(book.git('status', '--porcelain')).toBe(status)
  })

  test('programs that the repository configures are not run', () => {
    const trap = `touch ${join(book.top, 'sprung')} #`
    for (const key of [
      'core.fsmonitor',
      'diff.external',
      'core.pager',
      'diff.x.textconv',
      'diff.x.command',
      'filter.x.clean',
      'filter.x.smudge',
      'gpg.program',
    ])
      book.git('config', key, trap)
    book.git('config', 'log.showSignature', 'true')
    book.write({
      '.gitattributes': '*.yaml diff=x filter=x\n',
      [A]: spray('2026-06-14', 'upper', 'sulphur', '4 kg/ha'),
    })
    expect(counts(ask(book, ['--since', '2026-06-01']))[0]).toBeGreaterThan(0)
    ask(book)
    ask(book, ['HEAD', 'HEAD'])
    expect(existsSync(join(book.top, 'sprung'))).toBe(false)
  })

  test.each(['--output=/tmp/x', '-h', 'HEAD:vineyard.yaml', 'a b', 'no-such-branch', '$(touch x)'])(
    'the revision %j is refused with a way out',
    (name) => {
      const { status, stdout, stderr } = run(['changes', '--', name, 'HEAD'], { cwd: book.root })
      expect([status, stdout]).toEqual([2, ''])
      expect(stderr).toMatch(/revision/)
      expect(readdirSync(book.root)).not.toContain('x')
    },
  )

  test('GIT_DIR of a hook or a shell does not lead elsewhere', () => {
    const other = new GitBook()
    other.commit('Other')
    book.write({ 'seasons/2026/sprays/p.yaml': spray('2026-06-18', 'upper') })
    const { stdout } = run(['changes', '--json', ...ON], {
      cwd: book.root,
      env: { GIT_DIR: join(other.top, '.git') },
    })
    expect(JSON.parse(stdout).data.added).toHaveLength(1)
  })

  test('a file of a revision that is larger than any ledger’s is named, and the others are read', () => {
    const large = 'seasons/2026/sprays/large.yaml'
    book.write({
      [large]: `# ${'x'.repeat(9 * 1024 * 1024)}\n`,
      'seasons/2026/sprays/p.yaml': spray('2026-06-18', 'upper'),
    })
    book.commit('A large one')
    const data = ask(book, ['HEAD~1', 'HEAD'])
    expect(data.unread[0].finding).toMatchObject({ name: 'file-too-large', file: large })
    expect(data.added).toHaveLength(1)
  })

  test('a link in a revision is refused, not followed', () => {
    symlinkSync('/etc/passwd', join(book.root, 'seasons/2026/sprays/z.yaml'))
    book.commit('A link')
    const data = ask(book, ['HEAD~1', 'HEAD'])
    expect(data.unread[0].finding.name).toBe('not-a-plain-file')
  })

  test('a git that ignores the signal to end is not waited for', () => {
    const path = mkdtempSync(join(tmpdir(), 'rowbook-slow-git-'))
    const script = `#!/bin/sh\nPATH=\${PATH#*:}\ngit "$@"\ncase "$*" in *cat-file*) sleep 30 ;; esac\n`
    writeFileSync(join(path, 'git'), script, { mode: 0o755 })
    const start = performance.now()
    const asked = ['changes', 'HEAD', ...ON]
    const { status, stderr } = run(asked, { cwd: book.root, env: { PATH: `${path}:${process.env.PATH}` } })
    expect([status, stderr]).toEqual([0, ''])
    expect(performance.now() - start).toBeLessThan(20_000)
  })

  test('a git that ends in the middle: one clear message, and no figure', () => {
    const path = mkdtempSync(join(tmpdir(), 'rowbook-dying-git-'))
    const script = `#!/bin/sh\nPATH=\${PATH#*:}\nread -r one; read -r two\nprintf '%s\\n' "$one" "$two" | git "$@"\nkill $$\n`
    writeFileSync(join(path, 'git'), script, { mode: 0o755 })
    const env = { PATH: `${path}:${process.env.PATH}` }
    const { status, stdout, stderr } = run(['changes', 'HEAD', ...ON], { cwd: book.root, env })
    expect([status, stdout, stderr.includes('git: SIGTERM')]).toEqual([2, '', true])
  })

  test('no repository, or no git: one clear message', () => {
    const root = makeLedger()
    const none = run(['changes'], { cwd: root })
    expect([none.status, none.stderr.includes('git init')]).toEqual([2, true])
    const path = mkdtempSync(join(tmpdir(), 'rowbook-no-git-'))
    symlinkSync(process.execPath, join(path, 'node'))
    const bare = run(['changes'], { cwd: book.root, env: { PATH: path } })
    expect([bare.status, bare.stderr.includes('git is not installed')]).toEqual([2, true])
  })
})
