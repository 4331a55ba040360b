import { spawnSync } from 'node:child_process'
import {
  chmodSync,
  chownSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { cacheFolder, readCacheFile, writeCacheFile } from '../../src/ledger/cache/cache-file.ts'
import { ledgerCopy } from '../commands/run.ts'
import { PROGRAM } from './processes.ts'

const newFolder = () => mkdtempSync(join(tmpdir(), 'rowbook-folder-'))
const modeOf = (path: string) => lstatSync(path).mode & 0o777

/** Runs a report, and lists the content of a folder afterwards. */
function asked(variables: Record<string, string>, { cwd, look }: { cwd: string; look: string }) {
  const { status, stdout, stderr } = spawnSync('node', [PROGRAM, 'totals', '--as-of', '2026-09-14'], {
    cwd,
    encoding: 'utf8',
    timeout: 30_000,
    env: { PATH: process.env.PATH, ...variables },
  })
  return { status, stdout, stderr, files: existsSync(look) ? readdirSync(look, { recursive: true }) : [] }
}

const root = ledgerCopy()
const plain = asked({ HOME: '', XDG_CACHE_HOME: '' }, { cwd: root, look: join(root, '.cache') })

describe('the folder in which things are kept between runs', () => {
  test('is readable by its owner only, and so are its files', () => {
    const cache = newFolder()
    chmodSync(cache, 0o755)
    const { files, ...answer } = asked({ XDG_CACHE_HOME: cache }, { cwd: root, look: join(cache, 'rowbook') })
    expect(answer).toMatchObject({ status: 0, stdout: plain.stdout, stderr: '' })
    expect(files.length).toBeGreaterThan(2)
    expect(modeOf(join(cache, 'rowbook'))).toBe(0o700)
    for (const file of files)
      expect([file, modeOf(join(cache, 'rowbook', String(file)))]).toEqual([file, 0o600])
  })

  test('a relative path is ignored: it would be in whatever folder is current', () => {
    const home = newFolder()
    const relative = { XDG_CACHE_HOME: '.cache', HOME: home }
    const inHome = asked(relative, { cwd: root, look: join(home, '.cache/rowbook') })
    expect(inHome.files.length).toBeGreaterThan(2)
    expect(existsSync(join(root, '.cache'))).toBe(false)
    for (const HOME of ['', 'home', '.'])
      expect(cacheFolder({ XDG_CACHE_HOME: 'cache', HOME, LOCALAPPDATA: 'local' })).toBe(null)
  })

  test.each([0o770, 0o707, 0o755, 0o777])(
    'others may look into it (%o), so nothing is taken from it nor kept',
    (mode) => {
      const cache = newFolder()
      const folder = join(cache, 'rowbook')
      mkdirSync(folder)
      chmodSync(folder, mode)
      expect(asked({ XDG_CACHE_HOME: cache }, { cwd: root, look: folder })).toEqual({ ...plain, files: [] })
    },
  )

  test('a link in its place is not followed', () => {
    const cache = newFolder()
    const elsewhere = newFolder()
    symlinkSync(elsewhere, join(cache, 'rowbook'))
    expect(asked({ XDG_CACHE_HOME: cache }, { cwd: root, look: elsewhere })).toEqual({ ...plain, files: [] })
  })

  test('where no folder can be made, the answer is the same, and as quick', () => {
    const file = join(newFolder(), 'file')
    writeFileSync(file, '')
    for (const XDG_CACHE_HOME of ['/proc/x', '/proc/x/y/z', file, '/dev/null/x'])
      expect(asked({ XDG_CACHE_HOME }, { cwd: root, look: join(XDG_CACHE_HOME, 'rowbook') })).toEqual({
        ...plain,
        files: [],
      })
  })

  test('nothing is cached inside the ledger', () => {
    const inside = ledgerCopy()
    const look = join(inside, '.kept/rowbook')
    const { files } = asked({ XDG_CACHE_HOME: join(inside, '.kept') }, { cwd: inside, look })
    expect(files.filter((name) => String(name).startsWith('ledger-'))).toEqual([])
  })
})

describe('a file of the cache', () => {
  const place = join(newFolder(), 'one')
  writeCacheFile(place, 'label', Buffer.from('content'))
  const read = () => readCacheFile(place, 'label')?.toString() ?? null

  test('is used only if it is complete, has the right label, and only the caller owns it and may write it', () => {
    expect(read()).toBe('content')
    expect(readCacheFile(place, 'labe')).toBe(null)
    for (const mode of [0o620, 0o602, 0o640, 0o666]) {
      chmodSync(place, mode)
      expect(read()).toBe(null)
    }
    chmodSync(place, 0o600)
    expect(read()).toBe('content')
  })

  test('is not followed where it is a link', () => {
    const link = `${place}-link`
    symlinkSync(place, link)
    expect(readCacheFile(link, 'label')).toBe(null)
  })

  test('is returned complete or not at all, wherever it is cut and whichever bit is flipped', () => {
    const whole = readFileSync(place)
    for (let length = 0; length < whole.length; length += 1) {
      writeFileSync(place, whole.subarray(0, length))
      expect(read()).toBe(null)
      writeFileSync(
        place,
        whole.map((byte, at) => (at === length ? byte ^ 4 : byte)),
      )
      expect(read()).toBe(null)
    }
    writeFileSync(place, Buffer.concat([whole, Buffer.from('.')]))
    expect(read()).toBe(null)
    writeFileSync(place, whole)
    expect(read()).toBe('content')
  })

  test('of another user is not used', () => {
    // Only root can give a file away.
    if (process.getuid?.() !== 0) return
    renameSync(place, `${place}-theirs`)
    chownSync(`${place}-theirs`, 12345, 12345)
    expect(readCacheFile(`${place}-theirs`, 'label')).toBe(null)
  })
})
