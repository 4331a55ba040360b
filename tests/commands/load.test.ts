import { spawn, spawnSync } from 'node:child_process'
import { cpSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'

const project = fileURLToPath(new URL('../..', import.meta.url))

/** A copy of the built program with its compiled code changed, and a cache folder of its own. */
function program(change: (code: Buffer) => Buffer) {
  const home = mkdtempSync(join(tmpdir(), 'rowbook-load-'))
  for (const name of ['bin', 'dist']) cpSync(join(project, name), join(home, name), { recursive: true })
  const code = join(home, 'dist/code')
  for (const name of readdirSync(code))
    writeFileSync(join(code, name), change(readFileSync(join(code, name))))
  const env = { ...process.env, XDG_CACHE_HOME: join(home, 'cache') }
  const args = [join(home, 'bin/rowbook.js'), '--version']
  return { args, env, kept: join(home, 'cache/rowbook/code') }
}

const version = JSON.parse(readFileSync(join(project, 'package.json'), 'utf8')).version

describe('the compiled code beside the program', () => {
  test.each([
    [
      'with one bit changed',
      (code: Buffer) => code.map((byte, at) => (at === 200 ? byte ^ 1 : byte)) as Buffer,
    ],
    ['cut short', (code: Buffer) => code.subarray(0, code.length >> 1)],
    ['cut in its label', (code: Buffer) => code.subarray(0, 5)],
    ['empty', () => Buffer.alloc(0)],
    ['of another Node', (code: Buffer) => Buffer.concat([Buffer.from('v0.0.0'), code])],
  ])('%s is compiled anew into the cache, and the answer is the same', (_, change) => {
    const { args, env, kept } = program(change)
    for (const _round of [1, 2]) {
      const { status, stdout, stderr } = spawnSync(process.execPath, args, { env, encoding: 'utf8' })
      expect([status, stderr]).toEqual([0, ''])
      expect(stdout).toContain(version)
    }
    expect(readdirSync(kept, { recursive: true }).some((name) => String(name).endsWith('.code'))).toBe(true)
  })

  test('may be written by several processes at once', async () => {
    const { args, env, kept } = program(() => Buffer.alloc(0))
    const ends = [1, 2, 3].map(
      () => new Promise((end) => spawn(process.execPath, args, { env }).on('exit', end)),
    )
    expect(await Promise.all(ends)).toEqual([0, 0, 0])
    const names = readdirSync(kept, { recursive: true, encoding: 'utf8' })
    expect(names.filter((name) => /\.code\.\d+$/.test(name))).toEqual([])
  })
})
