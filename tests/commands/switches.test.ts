import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { runHere } from '../faults/in-process.ts'

const LEDGER = fileURLToPath(new URL('../../examples/far-quillet', import.meta.url))

test('a switch is taken wherever it stands, once or twice', async () => {
  const plain = ['today', '--as-of', '2026-06-24', '--ledger', LEDGER]
  const { out } = await runHere(plain)
  for (const line of [
    [...plain, '--no-color'],
    ['today', '--no-color', ...plain.slice(1)],
    [...plain, '--no-color', '--no-color'],
  ])
    expect(await runHere(line)).toMatchObject({ status: 0, out, err: '' })
  const json = await runHere([...plain, '--json', '--json'])
  expect(json).toMatchObject({ status: 0, err: '' })
})
