import { expect, test } from 'vitest'
import { makeLedger } from '../ledger/make.ts'
import { run } from './run.ts'

test('--timings says on stderr where the time went, and changes nothing of the answer', () => {
  const args = ['totals', '--ledger', makeLedger(), '--as-of', '2026-09-01', '--json']
  const plain = run(args)
  // In a process of its own, whose start is part of the sum.
  const timed = run([...args, '--timings'], { env: {} })
  expect([timed.status, timed.stdout]).toEqual([plain.status, plain.stdout])
  const laps = [...timed.stderr.matchAll(/^ +([\d.]+) ms {2}(.+)$/gm)].map(([, took, what]) => [
    what,
    Number(took),
  ])
  expect(laps.map(([what]) => what)).toContain('reading the ledger')
  const sum = laps.slice(0, -1).reduce((total, [, took]) => total + Number(took), 0)
  expect(Math.abs(sum - Number(laps.at(-1)![1]))).toBeLessThan(1)
})
