import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { COMMON_OPTIONS } from '../../src/commands/plumbing/command.ts'
import { ledgerCopy, run } from './run.ts'
import { COMMANDS } from './whole-table.ts'

describe('the manual', () => {
  const man = run(['manual', '--man']).stdout
  const all = run(['manual', '--all']).stdout

  test('has every command, option and example of the table', () => {
    // Commands are pasted whole, however many lines they stand on.
    const joined = (text: string) => text.replace(/ \\\n */g, ' ')
    const plain = joined(man.replace(/\\-/g, '-').replace(/\\e/g, '\\').replace(/\\&/g, ''))
    const reference = joined(all)
    for (const { name, options = [], examples } of COMMANDS) {
      expect(plain).toContain(`.SS ${name}`)
      for (const { flags } of options) expect(plain).toContain(`.B ${flags}`)
      for (const [line] of examples) {
        expect(plain).toContain(line)
        expect(reference).toContain(line)
      }
    }
    for (const { flags } of COMMON_OPTIONS) expect(plain).toContain(flags)
  })

  test('is roff whose lines begin with no request but known ones', () => {
    const requests = man.split('\n').flatMap((line) => /^[.'](\w*)/.exec(line)?.[1] ?? [])
    expect([...new Set(requests)].sort()).toEqual(
      ['B', 'I', 'PP', 'RE', 'RS', 'SH', 'SS', 'TH', 'TP', 'fi', 'nf'].sort(),
    )
  })

  test('names the nearest command', () => {
    const { status, stderr } = run(['manual', 'mixx'])
    expect([status, stderr.includes('did you mean `mix`?')]).toEqual([2, true])
  })
})

describe('rowbook alone', () => {
  test('says how to begin where there is no ledger', () => {
    const { status, stdout } = run([], { cwd: mkdtempSync(join(tmpdir(), 'rowbook-bare-')) })
    expect(status).toBe(0)
    expect(stdout).toContain('rowbook start')
  })

  test('says what comes first in a ledger', () => {
    const { status, stdout } = run([], { cwd: ledgerCopy() })
    expect(status).toBe(0)
    expect(stdout).toContain('Far Quillet')
    expect(stdout).toContain('rowbook today')
  })

  test('says to check a broken one', () => {
    const ledger = ledgerCopy()
    writeFileSync(join(ledger, 'blocks/broken.yaml'), 'name: [\n')
    const { status, stdout } = run([], { cwd: ledger })
    expect(status).toBe(0)
    expect(stdout).toMatch(/broken record[\s\S]*rowbook check/)
  })
})
