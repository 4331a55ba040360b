import { mkdirSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { filesOnDisk } from '../../src/ledger/read/files.ts'
import { flat } from '../commands/run.ts'
import { COMMANDS } from '../commands/whole-table.ts'
import { AS_OF, smallBook } from './book.ts'
import { NEEDED, runHere, WRITERS } from './in-process.ts'
import { withRefusals } from './refusing-disk.ts'
import { times } from './size.ts'

const CODES = ['EACCES', 'EIO', 'EMFILE', 'ESTALE', 'EPERM']

/** Commands that answer from the whole ledger; the others are asked without one. */
const WITHOUT = new Set(['sugar', 'calibrate', 'explain', 'schema', 'completion', 'export', 'mix', 'manual'])
const REPORTS = COMMANDS.map(({ name }) => name).filter((name) => !WITHOUT.has(name) && !WRITERS.has(name))

const PICK = ['note', 'pick', '--block', 'upper', '--weight', '900 kg', '--date', '2026-06-20', '--yes']

/** A pick six days after a spray that forbids it for 21. */
const early = (root: string) => runHere([...PICK, '--ledger', root, '--as-of', '2026-06-20'], root)

describe('U1: a folder that cannot be listed is not taken for empty', () => {
  const folders = [
    '',
    'blocks',
    'varieties',
    'products',
    'sprayers',
    'seasons',
    'seasons/2026',
    'seasons/2026/sprays',
  ]
  const asked = REPORTS.filter((name) => !['changes', 'compare', 'season'].includes(name))

  test.each(folders)('%j: no report is given, and the folder is named', async (folder) => {
    const root = smallBook()
    for (const [at, name] of asked.entries()) {
      if (at % times(3, 1) !== folders.indexOf(folder) % times(3, 1)) continue
      const code = CODES[at % CODES.length]!
      const { status, out, err, fault } = await withRefusals(
        (call, path) => (call === 'readdirSync' && path === join(root, folder) ? code : null),
        () => runHere([name, ...(NEEDED[name] ?? []), '--ledger', root, '--as-of', AS_OF], root),
      )
      expect([name, status, out, fault], err).toEqual([name, 2, '', null])
      expect(err).toContain(`${folder || 'the ledger folder'} can't be read: `)
      expect(err).toContain(code)
    }
  })

  test('a pick keeps its error of the interval, or is not written at all', async () => {
    expect((await early(smallBook())).err + (await early(smallBook())).out).toContain(
      'inside-days-before-harvest',
    )
    for (const code of CODES) {
      const root = smallBook()
      const told = await withRefusals(
        (call, path) => (call === 'readdirSync' && path.endsWith('/sprays') ? code : null),
        () => early(root),
      )
      expect([told.status, told.out]).toEqual([2, ''])
      expect(told.err).toContain('seasons/2026/sprays')
      expect(
        filesOnDisk(root)
          .list('seasons/2026')
          .map(({ name }) => name),
      ).not.toContain('picks')
    }
  })

  test('a folder that is not there is empty', () => {
    expect(filesOnDisk(smallBook()).list('seasons/2031')).toEqual([])
  })

  test('a name that vanishes while its folder is listed does not empty the folder', async () => {
    const root = smallBook()
    // Disks that don't say what a name is are asked of each one, and then the fault is of that call.
    const list = withRefusals(
      (call) => (call === 'readdirSync' ? 'ENOENT' : null),
      async () => filesOnDisk(root).list('blocks'),
    )
    await expect(list).rejects.toThrow("blocks can't be read")
  })
})

describe('U2: weather that cannot be read is not taken for a season without weather', () => {
  const WEATHER = 'seasons/2026/weather.csv'
  const NEEDING = ['heat', 'pressure', 'cover', 'today', 'ready', 'window']

  test.each(NEEDING)('%s says so', async (name) => {
    for (const [at, call] of (['openSync', 'readSync'] as const).entries()) {
      const root = smallBook()
      const code = CODES[at]!
      const { status, out, err } = await withRefusals(
        (one, path) => (one === call && path === join(root, WEATHER) ? code : null),
        () => runHere([name, '--ledger', root, '--as-of', AS_OF], root),
      )
      expect([status, out], err).toEqual([2, ''])
      expect(flat(err)).toMatch(new RegExp(`${WEATHER}.*can't be read.*${code}`))
    }
  })

  test.each<[string, (path: string) => void]>([
    ['too large', (path) => truncateSync(path, 9 * 1024 * 1024)],
    ['in UTF-16', (path) => writeFileSync(path, Buffer.from('\ufefftime,temperature_c\n', 'utf16le'))],
    ['without a column of time', (path) => writeFileSync(path, 'temperature_c,rain_mm\n17.2,0\n')],
  ])('%s', async (_, spoil) => {
    const root = smallBook()
    spoil(join(root, WEATHER))
    const { status, out, err } = await runHere(['heat', '--ledger', root, '--as-of', AS_OF], root)
    expect([status, out], err).toEqual([2, ''])
    expect(err).toContain(WEATHER)
    const check = await runHere(['check', '--ledger', root, '--as-of', AS_OF], root)
    expect([check.status, check.out.includes(WEATHER)]).toEqual([1, true])
  })

  test('of an earlier season too, where a report compares with it', async () => {
    const root = smallBook({ 'seasons/2025/weather.csv': 'time,temperature_c\n2025-06-14T17:00,17.2\n' })
    const { status, err } = await withRefusals(
      (call, path) => (call === 'openSync' && path.includes('2025/weather') ? 'EIO' : null),
      () => runHere(['heat', '--ledger', root, '--as-of', AS_OF], root),
    )
    expect([status, err.includes('seasons/2025/weather.csv')]).toEqual([2, true])
  })
})

describe('U3: the ledger itself', () => {
  test('a folder that cannot be opened is not taken for one without a ledger', async () => {
    const root = smallBook()
    for (const args of [['today'], [], ['today', '--ledger', root]]) {
      const { status, out, err } = await withRefusals(
        (call, path) => (call === 'lstatSync' && path.endsWith('vineyard.yaml') ? 'EACCES' : null),
        () => runHere(args, root),
      )
      expect([status, out]).toEqual([2, ''])
      expect(flat(err)).toContain(`the folder ${root} can't be read: permission denied (EACCES)`)
    }
  })

  test('a vineyard.yaml that cannot be read is not taken for missing', async () => {
    const root = smallBook()
    for (const args of [['today'], [], ['check']]) {
      const { status, out, err } = await withRefusals(
        (call, path) => (call === 'openSync' && path.endsWith('vineyard.yaml') ? 'EACCES' : null),
        () => runHere(args, root),
      )
      expect([status, out]).toEqual([2, ''])
      expect(err).toContain("vineyard.yaml: the file can't be read: permission denied (EACCES)")
    }
  })

  test('export of many: a ledger that cannot be read is named as left out', async () => {
    const root = smallBook()
    const members = `${root}-members`
    mkdirSync(members)
    symlinkSync(root, join(members, 'one'))
    symlinkSync(smallBook(), join(members, 'two'))
    const args = ['export', 'sprays', '--ledgers', members]
    const lost = await withRefusals(
      (call, path) => (call === 'readdirSync' && path === join(members, 'two', 'seasons') ? 'EIO' : null),
      () => runHere(args, members),
    )
    expect([lost.status, lost.err]).toEqual([
      1,
      expect.stringContaining("left out: two: seasons can't be read"),
    ])
    const blind = await withRefusals(
      (call, path) => (call === 'lstatSync' && path.includes('two/vineyard') ? 'EIO' : null),
      () => runHere(args, members),
    )
    expect([blind.status, blind.out]).toEqual([2, ''])
  })

  test('the outline of a block', async () => {
    const block =
      'name: L\nvariety: palava\narea: 1 ha\nrow_spacing: 2 m\nvine_spacing: 1 m\nboundary: lower.geojson\n'
    const root = smallBook({ 'blocks/lower.yaml': block, 'blocks/lower.geojson': '{}' })
    const { status, err } = await withRefusals(
      (call, path) => (call === 'realpathSync' && path.endsWith('.geojson') ? 'EACCES' : null),
      () => runHere(['check', '--ledger', root, '--as-of', AS_OF], root),
    )
    expect([status, err.includes('blocks/lower.geojson')]).toEqual([2, true])
  })
})
