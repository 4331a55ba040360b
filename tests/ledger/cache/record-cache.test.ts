import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { ledgerCopy, run } from '../../commands/run.ts'

const REPORTS = [['check', '--json'], ['totals', '--json', '--season', '2026'], ['ready']]

/** The answers of the reports, with a cache folder of this content. */
function answers(root: string, cache: string): string[] {
  return REPORTS.map((report) => {
    const args = [...report, '--ledger', root, '--as-of', '2026-09-14']
    const { status, stdout, stderr } = run(args, { env: { XDG_CACHE_HOME: cache } })
    return `${report.join(' ')}: ${status}\n${stdout}${stderr}`
  })
}

const newFolder = () => mkdtempSync(join(tmpdir(), 'rowbook-cache-'))
const filesIn = (cache: string) =>
  readdirSync(join(cache, 'rowbook')).map((name) => join(cache, 'rowbook', name))

describe('records cached by an earlier run', () => {
  const root = ledgerCopy()
  const cache = newFolder()
  const cold = answers(root, cache)

  test('are written, and give the same answers, byte for byte', () => {
    expect(
      filesIn(cache).filter((file) => /ledger-\w+-(?:\d{4}|standing)$/.test(file)).length,
    ).toBeGreaterThan(1)
    expect(answers(root, cache)).toEqual(cold)
  })

  test('the answers are the same with each of their files damaged', () => {
    for (const damage of [
      (bytes: Buffer) => bytes.subarray(0, bytes.length >> 1),
      () => Buffer.alloc(0),
      // Nothing behind the head.
      (bytes: Buffer) => bytes.subarray(0, bytes.indexOf(10) + 1),
      (bytes: Buffer) => {
        bytes[Math.floor(bytes.length * 0.7)]! ^= 1
        return bytes
      },
      (bytes: Buffer) => Buffer.from(bytes.toString('latin1').replaceAll('9', '8'), 'latin1').subarray(1),
    ]) {
      for (const file of filesIn(cache)) writeFileSync(file, damage(readFileSync(file)))
      expect(answers(root, cache)).toEqual(cold)
    }
  }, 120_000)

  test('where they cannot be written, the answers are the same', () => {
    const blocked = newFolder()
    writeFileSync(join(blocked, 'rowbook'), 'a file where the folder should be')
    expect(answers(root, blocked)).toEqual(cold)
  })

  test('a change of one character in a file is noticed', () => {
    const file = join(root, 'products', readdirSync(join(root, 'products'))[0]!)
    writeFileSync(file, `${readFileSync(file, 'utf8')}surprise: 1\n`)
    const changed = answers(root, cache)
    expect(changed[0]).toContain('unknown-key')
    expect(changed).toEqual(answers(root, newFolder()))
  })
})
