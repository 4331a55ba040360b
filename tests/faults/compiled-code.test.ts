import { spawn, spawnSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import Module from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { PROGRAM } from './processes.ts'

const newFolder = () => mkdtempSync(join(tmpdir(), 'rowbook-code-'))
const codeIn = (cache: string) => {
  const name = readdirSync(join(cache, 'rowbook')).find((one) => one.startsWith('code-'))!
  return join(cache, 'rowbook', name)
}
const ask = (cache: string, ...args: string[]) => {
  const env = { PATH: process.env.PATH, XDG_CACHE_HOME: cache }
  const { status, stdout, stderr } = spawnSync('node', [PROGRAM, ...args], { env, encoding: 'utf8' })
  return [status, stdout, stderr]
}
/** The kinds of command line that ran the cached code. */
const kinds = (cache: string) => readFileSync(codeIn(cache), 'latin1').slice(0, 400)

describe.skipIf('enableCompileCache' in Module)('what V8 compiled of the program', () => {
  test('is cached for each kind of command line, and written again only for a new kind', () => {
    const cache = newFolder()
    const first = ask(cache, 'explain', 'copper')
    const kept = readFileSync(codeIn(cache))
    expect(ask(cache, 'explain', 'copper')).toEqual(first)
    expect(readFileSync(codeIn(cache)).equals(kept)).toBe(true)
    ask(cache, 'sugar', '--brix', '21')
    expect(kinds(cache)).toContain('explain,sugar\n')
    expect(readFileSync(codeIn(cache)).length).toBeGreaterThan(kept.length)
    // A wrong command line adds no kind.
    expect(ask(cache, 'shugar')[0]).toBe(2)
    expect(kinds(cache)).toContain('explain,sugar\n')
  })

  test.each([
    ['with one bit changed', (code: Buffer) => code.map((byte, at) => (at === 20_000 ? byte ^ 1 : byte))],
    ['cut short', (code: Buffer) => code.subarray(0, code.length >> 1)],
    ['cut in its label', (code: Buffer) => code.subarray(0, 5)],
    ['empty', () => Buffer.alloc(0)],
    ['of another build', (code: Buffer) => Buffer.concat([Buffer.from('// 0'), code.subarray(4)])],
  ])('%s is made anew, and the answer is the same', (_, change) => {
    const cache = newFolder()
    const first = ask(cache, 'explain', 'copper')
    const whole = readFileSync(codeIn(cache))
    writeFileSync(codeIn(cache), change(whole))
    expect(ask(cache, 'explain', 'copper')).toEqual(first)
    expect(Math.abs(readFileSync(codeIn(cache)).length - whole.length)).toBeLessThan(2000)
  })

  test('may be written by several processes at once', async () => {
    const cache = newFolder()
    const env = { PATH: process.env.PATH, XDG_CACHE_HOME: cache }
    const ends = ['--version', '--help', 'sugar'].map(
      (word) =>
        new Promise((end) =>
          spawn('node', [PROGRAM, word, ...(word === 'sugar' ? ['--brix', '20'] : [])], { env }).on(
            'exit',
            end,
          ),
        ),
    )
    expect(await Promise.all(ends)).toEqual([0, 0, 0])
    expect(readdirSync(join(cache, 'rowbook'))).toHaveLength(1)
  })
})
