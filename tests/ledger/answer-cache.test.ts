import {
  appendFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { ledgerCopy, run } from '../commands/run.ts'

const newFolder = () => mkdtempSync(join(tmpdir(), 'rowbook-answers-'))
const answersIn = (cache: string) =>
  readdirSync(join(cache, 'rowbook/ledgers'))
    .filter((name) => /-check/.test(name))
    .map((name) => join(cache, 'rowbook/ledgers', name))

/** What check says of a ledger, as data and as text, of all and of one season. */
function answers(root: string, cache: string, asOf = '2026-09-14'): string[] {
  return [['--json'], ['--season', '2026'], []].map((options) => {
    const { status, stdout, stderr } = run(['check', ...options, '--ledger', root, '--as-of', asOf], {
      env: { XDG_CACHE_HOME: cache },
    })
    return `${status}\n${stdout}${stderr}`
  })
}

describe('the answer of check kept from an earlier run', () => {
  const root = ledgerCopy()
  writeFileSync(join(root, 'products/odd.yaml'), 'name: Odd\nsurprise: 1\n')
  const cache = newFolder()
  const cold = answers(root, cache)
  const sameAsFresh = (asOf?: string) => {
    const warm = answers(root, cache, asOf)
    expect(warm).toEqual(answers(root, newFolder(), asOf))
    return warm
  }

  test('is kept for each choice of seasons, and printed in the same bytes', () => {
    expect(answersIn(cache).length).toBe(2)
    expect(cold[0]).toContain('unknown-key')
    expect(answers(root, cache)).toEqual(cold)
  })

  test('is what is printed, where all that it rests on is unchanged', () => {
    const [file] = answersIn(cache).filter((name) => name.endsWith('-check'))
    const whole = readFileSync(file!, 'utf8')
    writeFileSync(file!, whole.replaceAll('unknown-key', 'seen-before'))
    expect(answers(root, cache)[0]).toContain('seen-before')
    writeFileSync(file!, whole)
  })

  test('is left aside where it is damaged or cut short', () => {
    for (const file of answersIn(cache)) {
      const bytes = readFileSync(file)
      bytes[Math.floor(bytes.length * 0.7)]! ^= 1
      writeFileSync(file, bytes)
    }
    expect(answers(root, cache)).toEqual(cold)
    for (const file of answersIn(cache)) writeFileSync(file, readFileSync(file).subarray(0, 300))
    expect(answers(root, cache)).toEqual(cold)
  })

  test('may be impossible to keep', () => {
    const blocked = newFolder()
    mkdirSync(join(blocked, 'rowbook'))
    writeFileSync(join(blocked, 'rowbook/ledgers'), 'a file where the folder should be')
    expect(answers(root, blocked)).toEqual(cold)
  })

  test('is not taken for another day', () => {
    expect(sameAsFresh('2025-05-01')).not.toEqual(cold)
    expect(sameAsFresh()).toEqual(cold)
  })

  test('is not taken where a record, the weather or the list of files has changed', () => {
    const before = [cold]
    const differs = () => {
      const now = sameAsFresh()
      for (const one of before) expect(now).not.toEqual(one)
      before.push(now)
    }
    const weather = readdirSync(root, { recursive: true, encoding: 'utf8' }).find((name) =>
      name.endsWith('2026/weather.csv'),
    )
    appendFileSync(join(root, weather!), 'no such hour,1\n')
    differs()
    appendFileSync(join(root, 'products/odd.yaml'), 'more: 2\n')
    differs()
    writeFileSync(join(root, 'blocks/lost.yml'), 'name: lost\n')
    differs()
    rmSync(join(root, 'products/odd.yaml'))
    differs()
  }, 120_000)
})
