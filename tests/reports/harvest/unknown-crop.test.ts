import { expect, test } from 'vitest'
import { runHere } from '../../faults/in-process.ts'
import { makeLedger } from '../../ledger/make.ts'

const answer = async (files: Record<string, string>) => {
  const line = ['harvest', '--as-of', '2026-10-05', '--ledger', makeLedger(files)]
  return (await runHere(line)).out.split('\n\n')[0]!.replace(/\s+/g, ' ')
}

test('a crop that nobody counted is not called picked', async () => {
  expect(await answer({})).toMatch(/^No crop is known yet/)
})

test('where the last block is picked, nothing is left to pick', async () => {
  const picks = ['upper', 'lower'].map((block) => `- { date: 2026-09-29, block: ${block}, weight: 900 kg }\n`)
  expect(await answer({ 'seasons/2026/picks.yaml': picks.join('') })).toBe('Nothing is left to pick.')
})

test('where part of a block still hangs, it is left to pick', async () => {
  const picks =
    '- { date: 2026-09-29, block: lower, weight: 900 kg }\n- { date: 2026-09-29, block: upper, weight: 900 kg, rest: 20 % }\n'
  expect(await answer({ 'seasons/2026/picks.yaml': picks })).toMatch(
    /^Still to pick: 20 % of Upper\. No crop is known yet: count bunches and weigh some\./,
  )
})
