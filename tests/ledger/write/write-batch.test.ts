import { existsSync, mkdtempSync, readdirSync, readFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { type Disk, realDisk } from '../../../src/ledger/read/disk.ts'
import { createFiles } from '../../../src/ledger/write/new-files.ts'
import { WriteFailed } from '../../../src/ledger/write/write.ts'

const filesIn = (root: string) =>
  ['a', 'b', 'a'].map((stem) => ({ root, folder: 'seasons/2026/picks', stem, text: `text of ${stem}\n` }))

/** A disk on which the n-th call that changes something fails. */
function failingAt(n: number, code: string): { disk: Disk; calls: () => number } {
  let calls = 0
  const may =
    <A extends unknown[], R>(work: (...args: A) => R) =>
    (...args: A): R => {
      calls += 1
      if (calls === n) throw Object.assign(new Error(code), { code })
      return work(...args)
    }
  const disk: Disk = {
    ...realDisk,
    create: may(realDisk.create),
    write: may(realDisk.write),
    sync: may(realDisk.sync),
    link: may(realDisk.link),
    mkdir: may(realDisk.mkdir),
  }
  return { disk, calls: () => calls }
}

test('writes all files, and gives a second one of the same name a number', () => {
  const root = mkdtempSync(join(tmpdir(), 'rowbook-batch-'))
  const made = createFiles(filesIn(root))
  expect(made).toEqual(['a', 'b', 'a-2'].map((name) => `seasons/2026/picks/${name}.yaml`))
  expect(made.map((file) => readFileSync(join(root, file), 'utf8'))).toEqual(
    ['a', 'b', 'a'].map((stem) => `text of ${stem}\n`),
  )
  expect(readdirSync(join(root, 'seasons/2026/picks'))).toHaveLength(3)
})

test('whichever call fails, none of the files exists and nothing is left behind', () => {
  const whole = failingAt(0, '')
  createFiles(filesIn(mkdtempSync(join(tmpdir(), 'rowbook-batch-'))), whole.disk)
  for (let n = 1; n <= whole.calls(); n += 1) {
    const root = mkdtempSync(join(tmpdir(), 'rowbook-batch-'))
    expect(() => createFiles(filesIn(root), failingAt(n, 'ENOSPC').disk), `call ${n}`).toThrow(WriteFailed)
    const folder = join(root, 'seasons/2026/picks')
    expect(existsSync(folder) ? readdirSync(folder) : [], `call ${n}`).toEqual([])
  }
  expect(whole.calls()).toBeGreaterThan(10)
})
