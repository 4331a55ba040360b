import { execFileSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { hostname, tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { whileLocked } from '../../src/ledger/write/lock.ts'
import { run } from '../commands/run.ts'
import { GitBook, spray } from '../ledger/git-book.ts'
import { smallBook } from './book.ts'
import { startProgram } from './processes.ts'
import { times } from './size.ts'

describe('L1: two imports of weather at once', () => {
  test('every import that reports rows as written has them in the file', async () => {
    for (let round = 0; round < times(3, 60); round += 1) {
      const root = smallBook()
      const exports = [15, 16, 17, 18].map((day) => {
        const file = join(root, `export-${day}.txt`)
        const rows = Array.from(
          { length: 24 },
          (_, hour) => `2026-06-${day}T${String(hour).padStart(2, '0')}:00,9`,
        )
        writeFileSync(file, `time,temperature_c\n${rows.join('\n')}\n`)
        return { day, file }
      })
      const ended = await Promise.all(
        exports.map(async ({ day, file }) => {
          const args = ['import', 'weather', file, '--yes', '--ledger', root, '--as-of', '2026-10-05']
          return { day, ...(await startProgram(args).ended) }
        }),
      )
      const stands = readFileSync(join(root, 'seasons/2026/weather.csv'), 'utf8')
      for (const { day, status, stderr } of ended) {
        const rows = stands.split('\n').filter((line) => line.startsWith(`2026-06-${day}T`))
        expect([status, rows.length], stderr).toEqual(status === 0 ? [0, 24] : [2, 0])
        if (status !== 0) expect(stderr).toMatch(/another rowbook is writing|was changed meanwhile/)
      }
      expect(ended.some(({ status }) => status === 0)).toBe(true)
      expect(readdirSync(join(root, 'seasons/2026')).filter((name) => name.startsWith('.'))).toEqual([])
    }
  })

  test('a lock keeps others out during the work, and is gone when the work ends or fails', () => {
    const folder = mkdtempSync(join(tmpdir(), 'rowbook-lock-'))
    whileLocked(folder, 'x', () => {
      expect(() => whileLocked(folder, 'x', () => expect.unreachable())).toThrow(
        'another rowbook is writing x',
      )
    })
    expect(() =>
      whileLocked(folder, 'x', () => {
        throw new Error('failed')
      }),
    ).toThrow('failed')
    expect(readdirSync(folder)).toEqual([])
  })

  test.each([
    ['of a process that is gone', `${2 ** 22 + 1} ${hostname()}\n`, true],
    ['of a process that runs', `${process.pid} ${hostname()}\n`, false],
    ['of another machine', '1 elsewhere\n', false],
    ['of nobody', '', false],
  ])('a lock %s', (_, text, isFree) => {
    const folder = mkdtempSync(join(tmpdir(), 'rowbook-lock-'))
    writeFileSync(join(folder, '.rowbook-lock'), text)
    const work = () => whileLocked(folder, 'x', () => 'done')
    if (isFree) expect(work()).toBe('done')
    else expect(work).toThrow('another rowbook is writing x')
    expect(readdirSync(folder)).toEqual(isFree ? [] : ['.rowbook-lock'])
  })
})

test('G3: a shallow clone says that its history ends too early, until the rest is fetched', () => {
  const book = new GitBook().write({ 'seasons/2026/sprays/a.yaml': spray('2026-06-14', 'upper') })
  book.commit('One')
  book.write({ 'seasons/2026/sprays/b.yaml': spray('2026-06-15', 'upper') })
  book.commit('Two')
  const clone = join(mkdtempSync(join(tmpdir(), 'rowbook-shallow-')), 'clone')
  execFileSync('git', ['clone', '-q', '--depth', '1', `file://${book.root}`, clone], { stdio: 'ignore' })
  const ask = () => run(['changes', '--since', '2020-01-01', '--as-of', '2026-10-05'], { cwd: clone })
  const short = ask()
  expect([short.status, short.stdout]).toEqual([2, ''])
  expect(short.stderr).toContain('git fetch --unshallow')
  execFileSync('git', ['fetch', '-q', '--unshallow'], { cwd: clone, stdio: 'ignore' })
  expect(ask().status).toBe(0)
})

test('G4: the hook is installed and runs in a folder with a line break in its name', () => {
  const book = new GitBook()
  const folder = join(book.root, "far\n'quillet'")
  const { status, stderr } = run(['start', folder, '--name', 'Far Quillet', '--hook'], { cwd: book.root })
  expect([status, stderr]).toEqual([0, ''])
  const bin = mkdtempSync(join(tmpdir(), 'rowbook-bin-'))
  writeFileSync(join(bin, 'rowbook'), '#!/bin/sh\npwd\n', { mode: 0o755 })
  const hook = join(book.root, '.git/hooks/pre-commit')
  const env = { PATH: `${bin}:${process.env.PATH}` }
  expect(execFileSync(hook, { cwd: book.root, env, encoding: 'utf8' })).toBe(`${folder}\n`)
})
