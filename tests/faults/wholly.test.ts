import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { filesIn } from '../../src/commands/export/ledgers.ts'
import { writeHook } from '../../src/ledger/git/hook.ts'
import { openRepository } from '../../src/ledger/git/repository.ts'
import type { Disk } from '../../src/ledger/read/disk.ts'
import { newFile } from '../../src/ledger/write/new-files.ts'
import { writeOwnFile } from '../../src/ledger/write/own-file.ts'
import { layOut } from '../../src/ledger/write/starter-files.ts'
import { replaceFiles, WriteFailed } from '../../src/ledger/write/write.ts'
import { TABLES } from '../../src/reports/export/tables.ts'
import { flat } from '../commands/run.ts'
import { GitBook } from '../ledger/git-book.ts'
import { AS_OF, smallBook } from './book.ts'
import { fault, watchedDisk } from './faulty-disk.ts'
import { runHere } from './in-process.ts'
import { boundByPermissions } from './refusing-disk.ts'
import { stride } from './size.ts'

const CODES = ['ENOSPC', 'EROFS', 'EIO', 'EACCES', 'EDQUOT', 'EMFILE']
const folder = () => mkdtempSync(join(tmpdir(), 'rowbook-whole-'))
const below = (path: string) => readdirSync(path, { recursive: true, encoding: 'utf8' }).sort()

interface Writing {
  /** The folder that it writes to. */
  into: string
  write: (disk: Disk) => unknown
}

/** Commands that make several files, or a file in a place that the user names. */
const WRITINGS: Record<string, () => Writing | Promise<Writing>> = {
  start: () => {
    const into = folder()
    const files = {
      'vineyard.yaml': 'name: X\n',
      'blocks/a.yaml': 'name: A\n',
      '.rowbook/schema/a.json': '{}',
    }
    return { into, write: (disk) => layOut(join(into, 'new/ledger'), { shown: 'ledger', files }, disk) }
  },
  export: () => {
    const into = folder()
    const tables = ['sprays', 'blocks'].map((name) => TABLES.get(name)!)
    const how = { cwd: into, folder: 'a/b', tables, format: 'csv' as const }
    return {
      into,
      write: (disk) => filesIn(how, (sink) => tables.map((one) => sink(one, 'x'.repeat(9000))), disk),
    }
  },
  'diary --csv': () => {
    const into = folder()
    return { into, write: (disk) => newFile({ root: into, file: 'd.csv', shown: 'd.csv' }, 'a,b\r\n', disk) }
  },
  'start --hook': async () => {
    const book = new GitBook()
    const repository = await openRepository({ root: book.root, variables: process.env })
    return { into: join(book.root, '.git/hooks'), write: (disk) => writeHook(repository, disk) }
  },
}

const outcome = async (work: () => unknown) => {
  try {
    await work()
    return null
  } catch (error) {
    return error
  }
}

describe('W1: a full, read-only or failing disk, at each call in turn', () => {
  test.each(Object.keys(WRITINGS))('%s: all or nothing, and the next try works', async (name) => {
    for (const [nth, code] of CODES.entries())
      for (let at = nth % stride(CODES.length); ; at += stride(CODES.length)) {
        const { into, write } = await WRITINGS[name]!()
        const before = below(into)
        let tripped = false
        let looked = false
        const { disk } = watchedDisk((_, index) => {
          if (index !== at) return undefined
          tripped = true
          return fault(code)
        })
        const failed = await outcome(() => write(disk))
        if (failed) {
          looked = true
          expect(failed, `${name} ${code} at ${at}`).toBeInstanceOf(WriteFailed)
          expect((failed as WriteFailed).message).toContain(code)
          expect((failed as WriteFailed).help).not.toBe('')
          expect(below(into), `${name} ${code} at ${at}`).toEqual(before)
          expect(await outcome(() => write(watchedDisk(() => undefined).disk))).toBe(null)
        }
        expect(below(into).filter((file) => file.includes('.tmp'))).toEqual(
          tripped && !looked ? expect.anything() : [],
        )
        if (!tripped) break
      }
  })

  test('existing files are kept, and no new file is left half written', async () => {
    const root = folder()
    mkdirSync(join(root, 'blocks'))
    writeFileSync(join(root, 'blocks/a.yaml'), 'mine')
    const files = { 'vineyard.yaml': 'name: X\n', 'blocks/a.yaml': 'name: A\n' }
    expect(() => layOut(root, { shown: '.', files })).toThrow(
      'blocks/a.yaml is there already; nothing was written',
    )
    expect(below(root)).toEqual(['blocks', 'blocks/a.yaml'])
    expect(readFileSync(join(root, 'blocks/a.yaml'), 'utf8')).toBe('mine')
  })
})

describe('W2: through links, and over existing files', () => {
  test('start writes through no linked folder', async () => {
    const [root, outside] = [folder(), folder()]
    symlinkSync(outside, join(root, 'examples'))
    const { status, err } = await runHere(['start', root, '--example'], root)
    expect([status, flat(err)]).toEqual([2, expect.stringContaining('examples is a link')])
    expect([below(root), below(outside)]).toEqual([['examples'], []])
  })

  const toFolder = (root: string, to: string, ...more: string[]) =>
    runHere(['export', '--ledger', root, '--to', to, ...more], root)

  test.each<[string, (to: string, outside: string) => void]>([
    ['tables.json', (to) => writeFileSync(join(to, 'tables.json'), 'mine')],
    ['a link to a file outside', (to, outside) => symlinkSync(outside, join(to, 'tables.json'))],
    ['a link to nowhere', (to, outside) => symlinkSync(`${outside}-none`, join(to, 'tables.json'))],
    ['a table', (to) => writeFileSync(join(to, 'work.csv'), 'mine')],
  ])('export --to leaves %s as it is', async (_, plant) => {
    const [root, to] = [smallBook(), folder()]
    const outside = join(folder(), 'outside')
    writeFileSync(outside, 'mine')
    plant(to, outside)
    const before = below(to)
    const { status, err } = await toFolder(root, to)
    expect([status, flat(err)]).toEqual([2, expect.stringContaining('is there already; nothing was written')])
    expect([below(to), existsSync(`${outside}-none`)]).toEqual([before, false])
    expect(readFileSync(outside, 'utf8')).toBe('mine')
  })

  test('export --to a place below a file, or among records', async () => {
    const root = smallBook()
    for (const to of [join(root, 'vineyard.yaml/tables'), join(root, 'seasons/2026'), join(root, 'blocks')]) {
      const { status, err, fault: broken } = await toFolder(root, to)
      expect([status, broken], err).toEqual([2, null])
    }
    expect(readdirSync(join(root, 'blocks'))).toEqual(['lower.yaml', 'upper.yaml'])
  })

  test.each([['explain', 'potential-alcohol'], ['totals']])(
    '%s --html --force writes over no record of any ledger',
    async (...args) => {
      const [root, other] = [smallBook(), smallBook()]
      const links = folder()
      symlinkSync(join(other, 'seasons'), join(links, 'way-in'))
      const weather = readFileSync(join(other, 'seasons/2026/weather.csv'), 'utf8')
      for (const file of [join(other, 'seasons/2026/weather.csv'), join(links, 'way-in/2026/weather.csv')]) {
        const { status, err } = await runHere([...args, '--html', file, '--force', '--as-of', AS_OF], root)
        expect([status, flat(err)]).toEqual([2, expect.stringContaining('among the records')])
      }
      expect(readFileSync(join(other, 'seasons/2026/weather.csv'), 'utf8')).toBe(weather)
    },
  )
})

describe('W3: a table holds the rows asked for', () => {
  const rows = async (...args: string[]) => {
    const root = smallBook({
      'seasons/2025/samples.yaml': '- { date: 2025-09-02, block: lower, brix: 17.6 }\n',
      'seasons/2026/stages.yaml':
        '- { date: 2026-08-21, block: upper, stage: 81 }\n- { date: 2026-08-25, block: lower, stage: 81 }\n',
    })
    const { status, out } = await runHere(['export', ...args, '--format', 'jsonl'], root)
    expect(status).toBe(0)
    return out
      .split('\n')
      .filter(Boolean)
      .map((line) => JSON.parse(line))
  }

  test('of a season, up to a day, of a block', async () => {
    expect((await rows('samples')).length).toBe(3)
    expect((await rows('samples', '--season', '2025')).map(({ date }) => date)).toEqual(['2025-09-02'])
    expect((await rows('samples', '--as-of', '2026-09-02')).map(({ date }) => date).sort()).toEqual([
      '2025-09-02',
      '2026-09-02',
    ])
    expect((await rows('stages', '--block', 'lower')).map(({ block }) => block)).toEqual(['lower'])
    expect((await rows('sprays', '--block', 'lower')).length).toBe(0)
    expect((await rows('blocks', '--block', 'lower,upper')).length).toBe(2)
  })

  test.each([
    ['samples', '--season', 'nonsense'],
    ['samples', '--season', '20260'],
    ['samples', '--as-of', 'someday'],
    ['samples', '--block', 'nowhere'],
    ['samples', '--block', '../blocks/upper'],
    ['samples', '--json'],
    ['totals', '--json'],
    ['products', '--season', '2026'],
    ['varieties', '--block', 'upper'],
  ])('%s %s %s is refused and prints nothing', async (...args) => {
    const { status, out, err } = await runHere(['export', ...args], smallBook())
    expect([status, out], err).toEqual([2, ''])
  })
})

test('W1: a folder without permission, as the system refuses it', () => {
  const into = folder()
  chmodSync(into, 0o555)
  boundByPermissions([into], () => {
    expect(() => newFile({ root: into, file: 'd.csv', shown: 'd.csv' }, 'x')).toThrow(/EACCES/)
    const page = { cwd: into, file: 'p.html', text: 'x', mark: 'x', force: true }
    expect(() => writeOwnFile(page)).toThrow(
      'p.html could not be written (EACCES); nothing of it was written',
    )
  })
  expect(below(into)).toEqual([])
})

test('W4: replacing several files: a full disk stops it before any of them is replaced', () => {
  const root = folder()
  const files = ['a', 'b', 'c'].map((name) => ({ file: `schema/${name}.json`, text: 'new' }))
  mkdirSync(join(root, 'schema'))
  for (const { file } of files) writeFileSync(join(root, file), 'old')
  const held = () =>
    below(root).map((name) => name.endsWith('.json') && readFileSync(join(root, name), 'utf8'))
  for (let at = 1; at <= 3; at += 1) {
    let written = 0
    const { disk } = watchedDisk(({ call }) => {
      if (call === 'write') written += 1
      return call === 'write' && written === at ? fault('ENOSPC') : undefined
    })
    expect(() => replaceFiles(root, files, { disk })).toThrow(`${files[at - 1]!.file} could not be written`)
    expect(held()).toEqual([false, 'old', 'old', 'old'])
  }
  replaceFiles(root, files)
  expect(held()).toEqual([false, 'new', 'new', 'new'])
})
