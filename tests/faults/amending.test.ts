import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { type Disk, realDisk } from '../../src/ledger/read/disk.ts'
import { amendFile, KEPT, rememberNew } from '../../src/ledger/write/kept.ts'
import { createFiles } from '../../src/ledger/write/new-files.ts'
import { planUndo, takeBack } from '../../src/ledger/write/undo.ts'
import { WriteFailed } from '../../src/ledger/write/write.ts'
import { run } from '../commands/run.ts'
import { AS_OF, lookAt, smallBook } from './book.ts'
import { fault, watchedDisk } from './faulty-disk.ts'
import { startProgram } from './processes.ts'
import { stride, times } from './size.ts'

const FOLDER = 'seasons/2026/work'
const FILE = `${FOLDER}/2026-03-03-lower.yaml`
const OLD = 'date: 2026-03-03\nblock: lower\njob: mowing\nhours: 1 # by hand\n'
const NEW = OLD.replace('hours: 1', 'hours: 2')

/** A ledger with one entry that the program wrote last. */
function written(): string {
  const root = smallBook({ 'seasons/2026/work.yaml': null })
  const wanted = { root, folder: FOLDER, stem: '2026-03-03-lower', text: OLD }
  rememberNew(root, [wanted])
  expect(createFiles([wanted])).toEqual([FILE])
  return root
}

const textOf = (root: string, file: string) =>
  existsSync(join(root, file)) ? readFileSync(join(root, file), 'utf8') : null

/** Texts found under the entry's name or among the kept copies. */
const everywhere = (root: string) => [
  textOf(root, FILE),
  ...(existsSync(join(root, KEPT)) ? readdirSync(join(root, KEPT)) : [])
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => textOf(root, `${KEPT}/${name}`)),
]

/** The next run takes over the lock of a killed one; here the killed run is this process, so the lock is removed by hand. */
const unlock = (root: string) => rmSync(join(root, KEPT, '.rowbook-lock'), { force: true })

const amending = (root: string, disk?: Disk) => amendFile(root, { file: FILE, before: OLD, after: NEW }, disk)
const undoing = (root: string, disk?: Disk) => takeBack(root, planUndo(root), disk)
const undoingChange = (root: string, disk?: Disk) => takeBack(root, planUndo(root), disk)

describe.each<
  [string, (root: string, disk?: Disk) => unknown, (root: string) => void, string, string | null]
>([
  ['changing an entry', amending, () => {}, OLD, NEW],
  ['taking an entry back', undoing, () => {}, OLD, null],
  ['taking a change back', undoingChange, (root) => amending(root), NEW, OLD],
])('A1: %s, stopped at each call to the disk', (_, act, prepare, before, after) => {
  const calls = () => {
    const root = written()
    prepare(root)
    const { disk, operations } = watchedDisk(() => undefined)
    act(root, disk)
    return operations.length
  }
  test.each([
    ['one fault, and the run goes on', false],
    ['nothing works from then on, as after a kill', true],
  ])('%s', (_, isDead) => {
    const most = calls()
    expect(most).toBeGreaterThan(15)
    for (let at = 0; at < most; at += stride(3)) {
      const root = written()
      prepare(root)
      const { disk } = watchedDisk((_, call) =>
        call === at || (isDead && call > at) ? fault('EIO') : undefined,
      )
      let told: unknown = null
      try {
        act(root, disk)
      } catch (error) {
        told = error
      }
      if (told !== null) expect(told).toBeInstanceOf(WriteFailed)
      // Whole, old or new, and the old text is still somewhere.
      expect([before, after]).toContain(textOf(root, FILE))
      expect(everywhere(root)).toContain(before)
      expect(lookAt(root).findings.filter(({ level }) => level === 'error')).toEqual([])
      // The next run of either kind works, or says that there is nothing left to do.
      unlock(root)
      try {
        act(root)
      } catch (error) {
        expect(error).toBeInstanceOf(WriteFailed)
      }
      expect([before, after]).toContain(textOf(root, FILE))
      expect(everywhere(root)).toContain(before)
    }
  })
})

describe('A2: the program killed at a random moment', () => {
  test.each([
    ['--amend', times(6, 100)],
    ['--undo', times(6, 100)],
  ])('%s, %d times', async (what, count) => {
    const common = ['--ledger', '', '--as-of', AS_OF]
    const noting = [
      'note',
      'work',
      '--yes',
      '--date',
      '2026-03-03',
      '--block',
      'lower',
      '--job',
      'mowing',
      '--hours',
      '1',
    ]
    const acting = what === '--undo' ? ['note', '--undo'] : ['note', '--amend', FILE, '--hours', '2']
    const first = written()
    common[1] = first
    const whole = (await startProgram([...acting, ...common]).ended).milliseconds
    for (let number = 0; number < count; number++) {
      const root = smallBook({ 'seasons/2026/work.yaml': null })
      common[1] = root
      expect(run([...noting, ...common]).status).toBe(0)
      const before = textOf(root, FILE)!
      const running = startProgram([...acting, ...common])
      const timer = setTimeout(() => running.child.kill('SIGKILL'), whole * (0.5 + (number / count) * 0.6))
      await running.ended
      clearTimeout(timer)
      const after = what === '--undo' ? null : before.replace('hours: 1', 'hours: 2')
      expect([before, after]).toContain(textOf(root, FILE))
      expect(everywhere(root)).toContain(before)
      // A lock that the killed run left is taken over.
      const again = run([...acting, ...common])
      expect(again.stderr).not.toMatch(/\n\s+at /)
      expect(textOf(root, FILE)).toBe(after)
      expect(everywhere(root)).toContain(before)
    }
  })
})

test('A3: a change made in an editor after the entry was read is never overwritten or taken back', () => {
  const changed = `${OLD}note: from an editor\n`
  // While the lock is taken, and while a copy is kept.
  for (const moment of [0, 1])
    for (const act of [amending, undoing]) {
      const root = written()
      let links = 0
      const disk: Disk = {
        ...realDisk,
        link(from, to) {
          if (links === moment) writeFileSync(join(root, FILE), changed)
          links += 1
          realDisk.link(from, to)
        },
      }
      expect(() => act(root, disk)).toThrow(WriteFailed)
      expect(links).toBeGreaterThan(moment)
      expect(textOf(root, FILE)).toBe(changed)
    }
  const root = written()
  writeFileSync(join(root, FILE), changed)
  expect(() => planUndo(root)).toThrow(/is not as rowbook wrote it/)
  expect(textOf(root, FILE)).toBe(changed)
})

test('A4: where the last entry was never written, or was there before, nothing older is taken back', () => {
  const root = written()
  rememberNew(root, [{ folder: FOLDER, stem: '2026-03-04-lower', text: OLD }])
  expect(() => planUndo(root)).toThrow(/no longer there/)
  rememberNew(root, [{ folder: FOLDER, stem: '2026-03-03-lower', text: OLD }])
  expect(() => planUndo(root)).toThrow(/no longer there/)
  expect(textOf(root, FILE)).toBe(OLD)
})

test.each([
  [
    'a path elsewhere',
    { did: 'new', files: [{ folder: '../..', stem: 'x', hash: '0'.repeat(64), before: [] }] },
  ],
  [
    'a pattern for a name',
    { did: 'new', files: [{ folder: FOLDER, stem: '.*', hash: '0'.repeat(64), before: [] }] },
  ],
  [
    'a file that is no entry',
    {
      did: 'amended',
      file: 'vineyard.yaml',
      before: '0'.repeat(64),
      after: '0'.repeat(64),
      kept: `${KEPT}/x.yaml`,
    },
  ],
  ['nonsense', 'x'],
])('A5: what is planted in the note of the last entry is not followed: %s', (_, last) => {
  const root = written()
  writeFileSync(join(root, KEPT, 'last.json'), JSON.stringify(last))
  expect(() => planUndo(root)).toThrow(/no entry is known|no longer there/)
  expect(textOf(root, FILE)).toBe(OLD)
})

test('A7: an amendment that came too late leaves the first one, which can still be undone', () => {
  const root = written()
  amending(root)
  const late = () => amendFile(root, { file: FILE, before: OLD, after: OLD.replace('hours: 1', 'hours: 3') })
  expect(late).toThrow('was changed meanwhile; nothing was written')
  undoingChange(root)
  expect(textOf(root, FILE)).toBe(OLD)
})

test('A6: nothing is kept or changed through a link', () => {
  const root = smallBook({ [FILE]: OLD })
  const other = mkdtempSync(join(tmpdir(), 'rowbook-other-'))
  symlinkSync(other, join(root, '.rowbook'))
  expect(() => amending(root)).toThrow(WriteFailed)
  expect(readdirSync(other)).toEqual([])
  rmSync(join(root, '.rowbook'))
  mkdirSync(join(root, '.rowbook'))
  symlinkSync(other, join(root, KEPT))
  expect(() => amending(root)).toThrow(WriteFailed)
  expect(rememberNew(root, [{ folder: FOLDER, stem: '2026-03-03-lower', text: OLD }])).toBe(false)
  expect(readdirSync(other)).toEqual([])
  expect(textOf(root, FILE)).toBe(OLD)
})
