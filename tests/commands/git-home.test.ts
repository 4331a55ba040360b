import { spawnSync } from 'node:child_process'
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { GitBook, spray } from '../ledger/git-book.ts'
import { makeLedger } from '../ledger/make.ts'
import { flat, run, runJson } from './run.ts'

const ON = ['--as-of', '2026-06-30']
const BIN = fileURLToPath(new URL('../../bin/rowbook.js', import.meta.url))

describe('check --changed', () => {
  test('tells only of files that differ, judged with all the rest', () => {
    const book = new GitBook().write({
      'seasons/2026/sprays/a.yaml': spray('2026-06-14', 'upper', 'sulphur', '8 kg/ha'),
    })
    book.commit('With a fault of old')
    expect(run(['check', '--changed', ...ON], { cwd: book.root }).status).toBe(0)
    book.write({ 'seasons/2026/sprays/b.yaml': spray('2026-06-15', 'lower', 'sulphur', '9 kg/ha') })
    const { status, json } = runJson(['check', '--changed', ...ON], { cwd: book.root })
    expect(status).toBe(1)
    expect([...new Set(json.findings.map(({ file }) => file))]).toEqual(['seasons/2026/sprays/b.yaml'])
    expect(runJson(['check', ...ON], { cwd: book.root }).json.data.errors).toBeGreaterThan(json.data.errors)
    book.commit('Another')
    expect(run(['check', '--changed', ...ON], { cwd: book.root }).status).toBe(0)
    expect(run(['check', '--changed', 'HEAD~1', ...ON], { cwd: book.root }).status).toBe(1)
  })

  test('without commits everything is looked at; without git it says so', () => {
    const book = new GitBook().write({
      'seasons/2026/sprays/a.yaml': spray('2026-06-14', 'upper', 'sulphur', '8 kg/ha'),
    })
    expect(run(['check', '--changed', ...ON], { cwd: book.root }).status).toBe(1)
    const none = run(['check', '--changed', ...ON], { cwd: makeLedger() })
    expect([none.status, none.stderr.includes('no history')]).toEqual([2, true])
  })
})

describe('check --staged', () => {
  const A = 'seasons/2026/sprays/a.yaml'
  const staged = (book: GitBook, env = {}) => runJson(['check', '--staged', ...ON], { cwd: book.root, env })

  test('judges what would be committed, not the files in the folder', () => {
    const book = new GitBook()
    book.commit('The book')
    book.write({ [A]: spray('2026-06-14', 'upper', 'sulphur', '8 kg/ha') })
    book.git('add', '.')
    book.write({ [A]: spray('2026-06-14', 'upper') })
    const wrong = staged(book)
    expect([wrong.status, wrong.json.findings[0]]).toMatchObject([1, { name: 'over-rate', file: A }])
    expect(run(['check', '--staged', ...ON], { cwd: book.root }).stdout).toContain('rate: 8 kg/ha')
    expect(run(['check', ...ON], { cwd: book.root }).status).toBe(0)
    book.git('add', '.')
    book.write({ [A]: spray('2026-06-14', 'upper', 'sulphur', '8 kg/ha'), 'blocks/new.yaml': 'name: [\n' })
    expect(staged(book).status).toBe(0)
    expect(run(['check', ...ON], { cwd: book.root }).status).toBe(1)
  })

  test('a file of which only the name was added is not in the commit yet; an empty one is', () => {
    const book = new GitBook()
    book.commit('The book')
    book.write({ [A]: spray('2026-06-14', 'upper', 'sulphur', '8 kg/ha') })
    book.git('add', '-N', A)
    // Nothing that the repository configures may run, as a filter would that git asks about a file of the folder.
    const ran = join(book.top, 'ran')
    writeFileSync(join(book.top, '.git/info/attributes'), '*.yaml filter=x\n')
    book.git('config', 'filter.x.clean', `touch '${ran}'; cat`)
    expect(staged(book)).toMatchObject({ status: 0, json: { findings: [] } })
    expect(existsSync(ran)).toBe(false)
    book.git('config', '--unset', 'filter.x.clean')
    const other = 'blocks/none.yaml'
    book.write({ [other]: '' })
    book.git('add', other)
    const { status, json } = staged(book)
    expect(status).toBe(1)
    expect([...new Set(json.findings.map(({ file }) => file))]).toEqual([other])
    book.git('add', A)
    expect(staged(book).json.findings.map(({ file }) => file)).toContain(A)
  })

  test('the index that git made for this commit is read', () => {
    const book = new GitBook()
    book.commit('The book')
    book.write({ [A]: spray('2026-06-14', 'upper', 'sulphur', '8 kg/ha') })
    const index = join(book.top, '.git/other-index')
    copyFileSync(join(book.top, '.git/index'), index)
    book.git('add', '.')
    expect(staged(book).status).toBe(1)
    expect(staged(book, { GIT_INDEX_FILE: index }).status).toBe(0)
  })

  test('a removed record is reported where something still names it', () => {
    const book = new GitBook().write({ [A]: spray('2026-06-14', 'upper') })
    book.commit('The book')
    book.git('rm', '-q', 'products/sulphur.yaml')
    for (const option of ['--staged', '--changed']) {
      const { status, json } = runJson(['check', option, ...ON], { cwd: book.root })
      expect(status).toBe(1)
      expect(json.findings).toMatchObject([{ name: 'unknown-product', file: A }])
    }
  })

  test('nothing staged, no ledger staged, a merge left open, and --changed beside it', () => {
    const book = new GitBook()
    const none = run(['check', '--staged', ...ON], { cwd: book.root })
    expect([none.status, none.stderr.includes('nothing was checked')]).toEqual([0, true])
    book.write({ [A]: spray('2026-06-14', 'upper') })
    book.git('add', 'seasons')
    expect(run(['check', '--staged', ...ON], { cwd: book.root }).stderr).toContain('without vineyard.yaml')
    book.commit('The book')
    expect(staged(book).json.data).toMatchObject({ errors: 0, warnings: 0 })
    book.git('checkout', '-q', '-b', 'other')
    book.write({ [A]: spray('2026-06-14', 'upper', 'sulphur', '4 kg/ha') }).commit('Four')
    book.git('checkout', '-q', 'main')
    book.write({ [A]: spray('2026-06-14', 'upper', 'sulphur', '5 kg/ha') }).commit('Five')
    expect(() => book.git('merge', '-q', 'other')).toThrow()
    const open = run(['check', '--staged', ...ON], { cwd: book.root })
    expect([open.status, open.stderr]).toEqual([2, expect.stringContaining(`a merge left ${A} open`)])
    const conflict = runJson(['check', ...ON], { cwd: book.root })
    expect(conflict.json.findings).toMatchObject([{ name: 'merge-conflict', file: A }])
    expect(run(['check', '--staged', '--changed', ...ON], { cwd: book.root }).status).toBe(2)
  })
})

describe('start --hook', () => {
  test('git refuses a commit with a fault, and takes a sound one; the ledger may be a folder of a larger repository', () => {
    const book = new GitBook("farms/nell's rows")
    book.commit('The book')
    expect(run(['start', '.', '--hook'], { cwd: book.root }).status).toBe(0)
    const hook = join(book.top, '.git/hooks/pre-commit')
    expect(statSync(hook).mode & 0o111).not.toBe(0)
    const path = join(book.top, 'path')
    mkdirSync(path)
    symlinkSync(BIN, join(path, 'rowbook'))
    const commit = () =>
      spawnSync(
        'git',
        ['-c', 'user.name=A', '-c', 'user.email=a@example.org', 'commit', '-q', '-a', '-m', 'x'],
        {
          cwd: book.top,
          env: { PATH: `${path}:${process.env.PATH}`, HOME: book.top },
          encoding: 'utf8',
        },
      )
    book.write({ 'seasons/2026/sprays/a.yaml': 'date: 2026-06-31\n' })
    book.git('add', 'farms')
    const refused = commit()
    expect([refused.status, `${refused.stdout}${refused.stderr}`.includes('bad-date')]).toEqual([1, true])
    book.write({ 'seasons/2026/sprays/a.yaml': spray('2026-06-14', 'upper') })
    expect(commit().status).toBe(0)
    // What is not staged has no say, whether it is right or wrong.
    const plain = () =>
      spawnSync('git', ['-c', 'user.name=A', '-c', 'user.email=a@example.org', 'commit', '-q', '-m', 'x'], {
        cwd: book.top,
        env: { PATH: `${path}:${process.env.PATH}`, HOME: book.top },
        encoding: 'utf8',
      })
    book.write({ 'seasons/2026/sprays/b.yaml': 'date: 2026-06-31\n' })
    book.git('add', 'farms')
    book.write({ 'seasons/2026/sprays/b.yaml': spray('2026-06-15', 'lower') })
    const unstaged = plain()
    expect([unstaged.status, unstaged.stderr]).toEqual([1, expect.stringContaining('git add it again')])
    book.git('add', 'farms')
    book.write({ 'seasons/2026/sprays/b.yaml': 'date: 2026-06-31\n' })
    expect(plain().status).toBe(0)
  })

  test('it goes where git looks for hooks, but not where other repositories may share them', () => {
    const book = new GitBook('rows')
    book.git('config', 'core.hooksPath', 'tools/hooks')
    const written = run(['start', '.', '--hook'], { cwd: book.root })
    expect([written.status, written.stdout.includes('tools/hooks/pre-commit')]).toEqual([0, true])
    expect(existsSync(join(book.top, 'tools/hooks/pre-commit'))).toBe(true)
    expect(existsSync(join(book.top, '.git/hooks/pre-commit'))).toBe(false)
    const shared = mkdtempSync(join(tmpdir(), 'rowbook-hooks-'))
    for (const folder of [shared, '/dev/null']) {
      book.git('config', 'core.hooksPath', folder)
      const refused = run(['start', '.', '--hook'], { cwd: book.root })
      expect([refused.status, flat(refused.stderr).includes('outside of this repository')]).toEqual([2, true])
    }
    symlinkSync(shared, join(book.top, 'linked'))
    book.git('config', 'core.hooksPath', 'linked')
    expect(run(['start', '.', '--hook'], { cwd: book.root }).status).toBe(2)
    expect(readdirSync(shared)).toEqual([])
  })

  test('an existing hook is left as it is; outside a repository nothing is written', () => {
    const book = new GitBook()
    const hook = join(book.top, '.git/hooks/pre-commit')
    mkdirSync(join(book.top, '.git/hooks'), { recursive: true })
    writeFileSync(hook, 'mine')
    const { status, stderr } = run(['start', '.', '--hook'], { cwd: book.root })
    expect([status, stderr.includes('there already'), readFileSync(hook, 'utf8')]).toEqual([2, true, 'mine'])
    const root = makeLedger()
    expect(run(['start', '.', '--hook'], { cwd: root }).status).toBe(2)
    expect(existsSync(join(root, '.git'))).toBe(false)
  })
})

test('start tells git to keep one kind of line end, and does not overwrite existing attributes', () => {
  const top = mkdtempSync(join(tmpdir(), 'rowbook-attributes-'))
  const git = (...args: string[]) => spawnSync('git', args, { cwd: top, encoding: 'utf8' }).stdout
  expect(run(['start', 'hill'], { cwd: top }).status).toBe(0)
  git('init', '-q')
  const asked = ['check-attr', 'text', 'eol', '--', 'hill/vineyard.yaml', 'hill/seasons/2026/weather.csv']
  expect(
    git(...asked)
      .trim()
      .split('\n'),
  ).toEqual([
    'hill/vineyard.yaml: text: set',
    'hill/vineyard.yaml: eol: lf',
    'hill/seasons/2026/weather.csv: text: set',
    'hill/seasons/2026/weather.csv: eol: lf',
  ])
  mkdirSync(join(top, 'other'))
  writeFileSync(join(top, 'other/.gitattributes'), '* -text\n')
  expect(run(['start', 'other'], { cwd: top })).toMatchObject({
    status: 2,
    stderr: expect.stringContaining('.gitattributes is there already'),
  })
  expect(readFileSync(join(top, 'other/.gitattributes'), 'utf8')).toBe('* -text\n')
  expect(readdirSync(join(top, 'other'))).toEqual(['.gitattributes'])
})
