import { spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { GitBook, spray } from '../ledger/git-book.ts'
import { makeLedger } from '../ledger/make.ts'
import { run, runJson } from './run.ts'

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
  })

  test('a hook that stands is left as it is; outside of a repository nothing is written', () => {
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
