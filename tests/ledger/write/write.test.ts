import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Disk, realDisk } from '../../../src/ledger/read/disk.ts'
import { listLedger } from '../../../src/ledger/read/folder.ts'
import { createFiles } from '../../../src/ledger/write/new-files.ts'
import { replaceFile, WriteFailed } from '../../../src/ledger/write/write.ts'

const newRoot = () => mkdtempSync(join(tmpdir(), 'rowbook-write-'))
const TEXT = 'date: 2026-06-14\nnote: çömlek\n'
const job = (root: string, text = TEXT) => ({
  root,
  folder: 'seasons/2026/sprays',
  stem: '2026-06-14-upper',
  text,
})

type Call = keyof Disk

/** A disk that records its calls, and on which call number `at` fails, and all later ones if `sticky`. */
function faulty({ at, code, sticky = false }: { at: number; code: string; sticky?: boolean }) {
  const calls: Call[] = []
  const wrap =
    <A extends unknown[], R>(name: Call, call: (...args: A) => R) =>
    (...args: A): R => {
      calls.push(name)
      if (calls.length === at || (sticky && calls.length > at)) throw Object.assign(new Error(code), { code })
      return call(...args)
    }
  const disk = Object.fromEntries(
    Object.entries(realDisk).map(([name, call]) => [name, wrap(name as Call, call as () => unknown)]),
  ) as unknown as Disk
  return { disk, calls }
}

const entries = (root: string): string[] => {
  try {
    return readdirSync(join(root, 'seasons/2026/sprays'))
  } catch {
    return []
  }
}
const named = (root: string) => entries(root).filter((name) => !name.startsWith('.'))

const createFile = (wanted: ReturnType<typeof job>, disk?: Disk) => createFiles([wanted], disk)[0]!

describe('one new file', () => {
  it('writes the whole text under the requested name, and makes the folders', () => {
    const root = newRoot()
    expect(createFile(job(root))).toBe('seasons/2026/sprays/2026-06-14-upper.yaml')
    expect(readFileSync(join(root, 'seasons/2026/sprays/2026-06-14-upper.yaml'), 'utf8')).toBe(TEXT)
    expect(entries(root)).toEqual(['2026-06-14-upper.yaml'])
  })

  it('uses the next free name, and overwrites nothing', () => {
    const root = newRoot()
    const files = ['one: 1\n', 'two: 2\n', 'three: 3\n'].map((text) => createFile(job(root, text)))
    expect(files.map((file) => file.slice(-16))).toEqual([
      '-06-14-upper.yaml'.slice(-16),
      '6-14-upper-2.yaml'.slice(-16),
      '6-14-upper-3.yaml'.slice(-16),
    ])
    expect(files.map((file) => readFileSync(join(root, file), 'utf8'))).toEqual([
      'one: 1\n',
      'two: 2\n',
      'three: 3\n',
    ])
  })

  it('syncs the text before it has its name, and the folder after', () => {
    const root = newRoot()
    createFile(job(root))
    const { disk, calls } = faulty({ at: 0, code: '' })
    createFile(job(root), disk)
    const steps = calls.filter((call) => call !== 'standing' && call !== 'readdir')
    expect(steps).toEqual([
      'create',
      'write',
      'sync',
      'close',
      'link',
      'link',
      'unlink',
      'openFolder',
      'sync',
      'close',
    ])
  })

  it('continues where the disk takes only part of the text', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), (most) => {
        const root = newRoot()
        const write: Disk['write'] = (handle, bytes, from) =>
          realDisk.write(handle, bytes.subarray(0, Math.min(bytes.length, from + most)), from)
        const file = createFile(job(root), { ...realDisk, write })
        expect(readFileSync(join(root, file), 'utf8')).toBe(TEXT)
      }),
      { numRuns: 40 },
    )
  })

  for (const sticky of [false, true])
    for (const code of ['EIO', 'ENOSPC', 'EACCES', 'EROFS', 'EMFILE'])
      it(`leaves all or nothing where ${sticky ? 'every call from one on fails' : 'one call fails'} with ${code}`, () => {
        let clean = false
        for (let at = 1; !clean && at < 60; at += 1) {
          const root = newRoot()
          const { disk, calls } = faulty({ at, code, sticky })
          let failed: unknown = null
          try {
            createFile(job(root), disk)
          } catch (error) {
            failed = error
          }
          clean = calls.length < at
          if (failed !== null) expect(failed).toBeInstanceOf(WriteFailed)
          for (const name of named(root))
            expect(readFileSync(join(root, 'seasons/2026/sprays', name), 'utf8')).toBe(TEXT)
          if (failed === null) expect(named(root)).toHaveLength(1)
          if (!sticky && failed !== null)
            expect(entries(root).filter((name) => name.endsWith('.tmp'))).toEqual([])
        }
        expect(clean).toBe(true)
      })

  it('works without hard links, and still overwrites nothing', () => {
    const root = newRoot()
    const link = () => {
      throw Object.assign(new Error('EPERM'), { code: 'EPERM' })
    }
    const disk = { ...realDisk, link }
    expect(createFile(job(root, 'one: 1\n'), disk)).toMatch(/upper\.yaml$/)
    expect(createFile(job(root, 'two: 2\n'), disk)).toMatch(/upper-2\.yaml$/)
    expect(entries(root)).toEqual(['2026-06-14-upper-2.yaml', '2026-06-14-upper.yaml'])
    const full: Disk['write'] = () => {
      throw Object.assign(new Error('ENOSPC'), { code: 'ENOSPC' })
    }
    expect(() => createFile(job(root), { ...disk, write: full })).toThrow(/ENOSPC/)
    expect(entries(root)).toHaveLength(2)
  })

  it('writes through no link', () => {
    const root = newRoot()
    const outside = newRoot()
    symlinkSync(outside, join(root, 'seasons'))
    expect(() => createFile(job(root))).toThrow(/is a link or not a folder/)
    expect(readdirSync(outside)).toEqual([])
  })

  it('removes files that a killed run left over an hour ago, keeps newer ones, and readers see neither', () => {
    const root = newRoot()
    const folder = join(root, 'seasons/2026/sprays')
    mkdirSync(folder, { recursive: true })
    const [old, young] = ['.rowbook-1-abcdef012345.tmp', '.rowbook-2-abcdef012345.tmp']
    for (const name of [old!, young!, '.other.tmp']) writeFileSync(join(folder, name), 'date: 20')
    const before = new Date(Date.now() - 2 * 3_600_000)
    utimesSync(join(folder, old!), before, before)
    createFile(job(root))
    expect(entries(root).sort()).toEqual(['.other.tmp', young, '2026-06-14-upper.yaml'].sort())
    expect(listLedger(root).seasonal.map(({ file }) => file)).toEqual([
      'seasons/2026/sprays/2026-06-14-upper.yaml',
    ])
    expect(listLedger(root).findings).toEqual([])
  })
})

describe('replaceFile', () => {
  it('replaces a file, and keeps the old one where the disk fails', () => {
    const root = newRoot()
    replaceFile(root, '.rowbook/schema/spray.json', '{}\n')
    const write: Disk['write'] = () => {
      throw Object.assign(new Error('ENOSPC'), { code: 'ENOSPC' })
    }
    expect(() =>
      replaceFile(root, '.rowbook/schema/spray.json', '{"a":1}\n', { disk: { ...realDisk, write } }),
    ).toThrow(/full|ENOSPC/)
    expect(readFileSync(join(root, '.rowbook/schema/spray.json'), 'utf8')).toBe('{}\n')
    replaceFile(root, '.rowbook/schema/spray.json', '{"a":1}\n')
    expect(readFileSync(join(root, '.rowbook/schema/spray.json'), 'utf8')).toBe('{"a":1}\n')
    expect(readdirSync(join(root, '.rowbook/schema'))).toEqual(['spray.json'])
  })
})
