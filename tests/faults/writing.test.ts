import { spawnSync } from 'node:child_process'
import {
  appendFileSync,
  chmodSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { planWeatherImport, writeWeatherImport } from '../../src/ledger/import/weather.ts'
import { openLedger } from '../../src/ledger/read/open.ts'
import { createFiles } from '../../src/ledger/write/new-files.ts'
import { replaceFile, WriteFailed } from '../../src/ledger/write/write.ts'
import { lookAt, smallBook } from './book.ts'
import { fault, type Operation, watchedDisk } from './faulty-disk.ts'
import { PROGRAM } from './processes.ts'
import { boundByPermissions } from './refusing-disk.ts'

const FOLDER = 'seasons/2026/sprays'
const STEM = '2026-06-20-lower'
const TEXT =
  'date: 2026-06-20\nblocks: [lower]\nwater: 300 L/ha\nproducts:\n  - { product: sulphur, rate: 3 kg/ha, for: powdery }\n'
const FILE = `${FOLDER}/${STEM}.yaml`
const CODES = ['EIO', 'ENOSPC', 'EACCES', 'EROFS', 'EMFILE', 'EDQUOT']
const NEW = { folder: FOLDER, stem: STEM, text: TEXT }

/** Every file below a folder with its content, hidden ones too. */
function contents(root: string): Record<string, string> {
  const files = readdirSync(root, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile())
  return Object.fromEntries(
    files.map((entry) => {
      const path = join(entry.parentPath, entry.name)
      return [path.slice(root.length + 1), readFileSync(path, 'utf8')]
    }),
  )
}

const write = (root: string, disk?: Parameters<typeof createFiles>[1]) =>
  createFiles([{ root, ...NEW }], disk)[0]!

function outcome(action: () => string): { file: string } | { failed: WriteFailed } {
  try {
    return { file: action() }
  } catch (error) {
    if (error instanceof WriteFailed) return { failed: error }
    throw error
  }
}

/** After a fault: every older file is unchanged, and the new file is whole or absent. */
function expectOldOrNew(root: string, before: Record<string, string>, about: string): void {
  const { [FILE]: written, ...rest } = contents(root)
  const tidy = Object.fromEntries(Object.entries(rest).filter(([file]) => !file.includes('/.rowbook-')))
  expect(tidy, about).toEqual(before)
  expect([undefined, TEXT], about).toContain(written)
}

describe('F3: a fault at each call to the disk in turn, until a run meets none', () => {
  test.each(
    CODES.flatMap(
      (code) =>
        [
          [code, 'once'],
          [code, 'from then on'],
        ] as const,
    ),
  )('%s, %s', (code, mode) => {
    for (let at = 0; ; at += 1) {
      const root = smallBook()
      const before = contents(root)
      let tripped = false
      const { disk } = watchedDisk((_, index) => {
        if (index !== at && !(mode !== 'once' && index > at)) return undefined
        tripped = true
        return fault(code)
      })
      const result = outcome(() => write(root, disk))
      expectOldOrNew(root, before, `${code} at ${at}, ${mode}`)
      if ('failed' in result) {
        expect(result.failed.message).toContain(FILE)
        expect(result.failed.help).not.toBe('')
        expect(
          /nothing of it was written/.test(result.failed.message) && FILE in contents(root),
          `${code} ${at}`,
        ).toBe(false)
      } else expect(contents(root)[FILE]).toBe(TEXT)
      if (mode === 'once' && 'failed' in result && at > 0)
        expect(
          Object.keys(contents(root)).filter((file) => file.includes('.tmp')),
          `${code} at ${at}`,
        ).toEqual([])
      if (!tripped) {
        expect(result).toEqual({ file: FILE })
        expect(at).toBeGreaterThanOrEqual(8)
        break
      }
    }
  })
})

describe('F6: a second fault while cleaning up after the first', () => {
  test('each pair of calls', () => {
    let pairs = 0
    for (let first = 0; first < 8; first += 1)
      for (let second = first + 1; second < 10; second += 1) {
        const root = smallBook()
        const before = contents(root)
        const { disk } = watchedDisk((_, index) =>
          index === first || index === second ? fault('EIO') : undefined,
        )
        outcome(() => write(root, disk))
        expectOldOrNew(root, before, `${first} and ${second}`)
        pairs += 1
      }
    expect(pairs).toBeGreaterThanOrEqual(20)
  })
})

test.each([1, Math.floor(TEXT.length / 2), TEXT.length - 1])(
  'F4: a disk that takes %d bytes at a time',
  (most) => {
    const root = smallBook()
    const { disk, operations } = watchedDisk(({ call }) => (call === 'write' ? most : undefined))
    expect(write(root, disk)).toBe(FILE)
    expect(contents(root)[FILE]).toBe(TEXT)
    expect(operations.filter(({ call }) => call === 'write').length).toBe(Math.ceil(TEXT.length / most))
  },
)

test('F4: a disk that takes no bytes is a fault, not an endless loop', () => {
  const root = smallBook()
  const { disk } = watchedDisk(({ call }) => (call === 'write' ? 0 : undefined))
  expect(() => write(root, disk)).toThrow(WriteFailed)
})

describe('F7: the order of the calls', () => {
  const order = (operations: readonly Operation[]) => operations.map(({ call }) => call)

  test('written and synced under a hidden name in the same folder, then named, then the folder synced', () => {
    const root = smallBook()
    const { disk, operations } = watchedDisk(() => undefined)
    write(root, disk)
    expect(order(operations)).toEqual([
      'create', 'write', 'sync', 'close', 'link', 'unlink', 'openFolder', 'sync', 'close',
    ]) // biome-ignore format: one step after another
    const temporary = operations[0]!.path
    expect(temporary.startsWith(join(root, FOLDER, '.rowbook-'))).toBe(true)
    expect(operations[6]!.path).toBe(join(root, FOLDER))
  })

  test('a new folder is made and its parent synced before anything is written into it', () => {
    const root = smallBook()
    const { disk, operations } = watchedDisk(() => undefined)
    createFiles([{ root, ...NEW, folder: 'seasons/2027/sprays' }], disk)
    expect(order(operations).slice(0, 9)).toEqual([
      'mkdir', 'openFolder', 'sync', 'close', 'mkdir', 'openFolder', 'sync', 'close', 'create',
    ]) // biome-ignore format: one step after another
  })

  test('a file of our own is replaced by a rename', () => {
    const root = smallBook()
    const { disk, operations } = watchedDisk(() => undefined)
    replaceFile(root, '.rowbook/schema/spray.json', '{}\n', { disk })
    const tail = order(operations).slice(order(operations).indexOf('create'))
    expect(tail).toEqual(['create', 'write', 'sync', 'close', 'rename', 'openFolder', 'sync', 'close'])
  })
})

describe('a file system without hard links', () => {
  test.each(['EPERM', 'ENOTSUP', 'EMLINK'])('%s: still created exclusively and whole', (code) => {
    const root = smallBook()
    const { disk } = watchedDisk(({ call }) => (call === 'link' ? fault(code) : undefined))
    expect(write(root, disk)).toBe(FILE)
    expect(write(root, disk)).toBe(`${FOLDER}/${STEM}-2.yaml`)
    expect(contents(root)[FILE]).toBe(TEXT)
  })

  test('a fault while the full file replaces the empty one removes both', () => {
    const root = smallBook()
    const before = contents(root)
    const { disk } = watchedDisk(({ call }) =>
      call === 'link' ? fault('EPERM') : call === 'rename' ? fault('EIO') : undefined,
    )
    expect(() => write(root, disk)).toThrow(WriteFailed)
    expect(contents(root)).toEqual(before)
  })
})

describe('F8: files that killed runs left behind', () => {
  test('are never read, and are removed once they are an hour old, not earlier', () => {
    const root = smallBook()
    const names = Array.from({ length: 5 }, (_, index) => `.rowbook-${1000 + index}-0011223344a${index}.tmp`)
    const old = new Date(Date.now() - 2 * 3_600_000)
    for (const [index, name] of names.entries()) {
      const path = join(root, FOLDER, name)
      writeFileSync(path, 'date: 2026-06-')
      if (index < 3) utimesSync(path, old, old)
    }
    writeFileSync(join(root, FOLDER, '.rowbook-notes.tmp'), 'mine')
    expect(lookAt(root).findings.filter(({ level }) => level === 'error')).toEqual([])
    write(root)
    const left = readdirSync(join(root, FOLDER)).filter((name) => name.startsWith('.'))
    expect(left.sort()).toEqual([...names.slice(3), '.rowbook-notes.tmp'])
  })
})

describe('F12: obstacles', () => {
  test('nothing is written through a folder that is a link', () => {
    const root = smallBook()
    const outside = smallBook()
    const before = contents(outside)
    symlinkSync(join(outside, FOLDER), join(root, 'seasons/2026/outside'))
    expect(() => createFiles([{ root, ...NEW, folder: 'seasons/2026/outside' }])).toThrow(/link/)
    expect(contents(outside)).toEqual(before)
  })

  test('a name that exists is kept, whether a file, a folder, a broken link or a link elsewhere', () => {
    const root = smallBook()
    writeFileSync(join(root, FILE), 'mine')
    mkdirSync(join(root, FOLDER, `${STEM}-2.yaml`))
    symlinkSync('/nowhere/at/all', join(root, FOLDER, `${STEM}-3.yaml`))
    symlinkSync(join(root, 'vineyard.yaml'), join(root, FOLDER, `${STEM}-4.yaml`))
    const site = readFileSync(join(root, 'vineyard.yaml'), 'utf8')
    expect(write(root)).toBe(`${FOLDER}/${STEM}-5.yaml`)
    expect(readFileSync(join(root, FILE), 'utf8')).toBe('mine')
    expect(readFileSync(join(root, 'vineyard.yaml'), 'utf8')).toBe(site)
  })

  test('a file in place of a folder', () => {
    const root = smallBook({ 'seasons/2027': 'not a folder\n' })
    expect(() => createFiles([{ root, ...NEW, folder: 'seasons/2027/sprays' }])).toThrow(/not a folder/)
  })

  test('a folder that may not be written to', () => {
    const root = smallBook()
    chmodSync(join(root, FOLDER), 0o555)
    boundByPermissions([root], () => expect(() => write(root)).toThrow(/EACCES/))
  })

  test('the new file has the mode that the umask gives', () => {
    const root = smallBook()
    write(root)
    expect(statSync(join(root, FILE)).mode & 0o777).toBe(0o666 & ~process.umask())
  })
})

test('F14: the same entry again becomes a file of its own, and `check` says so', () => {
  const root = smallBook()
  const files = Array.from({ length: 3 }, () => write(root))
  expect(files).toEqual([FILE, `${FOLDER}/${STEM}-2.yaml`, `${FOLDER}/${STEM}-3.yaml`])
  expect(lookAt(root).findings.map(({ name }) => name)).toContain('entered-twice')
})

test('F5: a full disk stops all of the writing', () => {
  const root = smallBook()
  const before = contents(root)
  const long = `note: ${'x'.repeat(64 * 1024)}`
  const { status, stderr } = spawnSync(
    'bash',
    [
      '-c',
      'ulimit -f 8; trap "" XFSZ; exec node bin/rowbook.js note work --yes --ledger "$0" --as-of 2026-10-05 --block lower --job mowing --note "$1"',
      root,
      long,
    ],
    { encoding: 'utf8', env: { PATH: process.env.PATH, HOME: root, XDG_CACHE_HOME: join(root, '.cache') } },
  )
  expect(stderr).not.toMatch(/\n\s+at /)
  expect([status, stderr]).toEqual([2, expect.stringContaining('EFBIG')])
  const after = contents(root)
  // What was about to be written is noted beside the records, for `--undo`, which then finds nothing of it.
  for (const file of Object.keys(after)) if (/^\.(?:cache|rowbook\/kept)/.test(file)) delete after[file]
  expect(after).toEqual(before)
})

describe('F11: weather that another program changed between reading and writing', () => {
  const WEATHER = 'seasons/2026/weather.csv'
  const EXPORT = 'time,temperature_c\n2026-06-15T00:00,9\n'

  function planned(files: Parameters<typeof smallBook>[0] = {}) {
    const root = smallBook({ ...files, 'export.txt': EXPORT })
    const ledger = openLedger(root, { seasons: 'all' })
    return { root, ledger, plan: planWeatherImport(ledger, join(root, 'export.txt')) }
  }

  test.each<[string, (path: string) => void]>([
    ['a row more', (path) => appendFileSync(path, '2026-06-14T20:00,15.9,81,0,60,1.2\n')],
    [
      'one digit, the same length',
      (path) => writeFileSync(path, readFileSync(path, 'utf8').replace('17.2', '17.3')),
    ],
    ['taken away', (path) => rmSync(path)],
  ])('%s: refused, and what stands there stays', (_, change) => {
    const { root, ledger, plan } = planned()
    change(join(root, WEATHER))
    const before = contents(root)
    expect(() => writeWeatherImport(ledger, plan)).toThrow(/changed meanwhile/)
    expect(contents(root)).toEqual(before)
  })

  test('a file that was created meanwhile', () => {
    const { root, ledger, plan } = planned({ [WEATHER]: null })
    writeFileSync(join(root, WEATHER), 'time,temperature_c\n2026-01-01T00:00,1\n')
    const before = contents(root)
    expect(() => writeWeatherImport(ledger, plan)).toThrow(/changed meanwhile/)
    expect(contents(root)).toEqual(before)
  })

  test('the second season of an export cannot be written: the first is named, and a second try adds it once', () => {
    const { root, ledger } = planned({ [WEATHER]: null })
    const both = join(root, 'both.txt')
    writeFileSync(both, 'time,temperature_c\n2025-06-15T06:00,8\n2025-06-15T07:00,8\n2026-06-15T06:00,9\n')
    const plan = planWeatherImport(ledger, both)
    const { disk } = watchedDisk(({ call, path }) =>
      call === 'create' && path.includes('2026') ? fault('ENOSPC') : undefined,
    )
    expect(() => writeWeatherImport(ledger, plan, disk)).toThrow(
      /written before that: seasons\/2025\/weather\.csv/,
    )
    writeWeatherImport(ledger, planWeatherImport(openLedger(root, { seasons: 'all' }), both))
    const rows = (year: number) =>
      readFileSync(join(root, `seasons/${year}/weather.csv`), 'utf8').match(/^\d{4}-.*$/gm)
    expect([rows(2025), rows(2026)]).toEqual([
      ['2025-06-15T06:00,8', '2025-06-15T07:00,8'],
      ['2026-06-15T06:00,9'],
    ])
  })

  test('unchanged: the new rows follow the existing ones', () => {
    const { root, ledger, plan } = planned()
    const before = readFileSync(join(root, WEATHER), 'utf8')
    writeWeatherImport(ledger, plan)
    expect(readFileSync(join(root, WEATHER), 'utf8')).toBe(`${before}2026-06-15T00:00,9,,,,\n`)
  })
})

test('`check` only reads: no file of the ledger changes, not even its times', () => {
  const root = smallBook({ 'seasons/2026/work.yaml': '- { date: 2026-03-02, block: uper, job: pruning }\n' })
  const seen = () =>
    readdirSync(root, { recursive: true, encoding: 'utf8' })
      .sort()
      .map((file) => {
        const { mtimeMs, ctimeMs, mode, ino } = statSync(join(root, file))
        return [file, mtimeMs, ctimeMs, mode, ino]
      })
  const [before, files] = [contents(root), seen()]
  for (const more of [[], ['--json'], ['--season', '2026']]) {
    const { status } = spawnSync('node', [PROGRAM, 'check', '--ledger', root, ...more], {
      env: { PATH: process.env.PATH, XDG_CACHE_HOME: join(tmpdir(), 'rowbook-test-cache') },
    })
    expect(status).toBe(1)
  }
  expect(contents(root)).toEqual(before)
  expect(seen()).toEqual(files)
})
