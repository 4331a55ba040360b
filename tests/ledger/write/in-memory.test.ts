import { expect, test } from 'vitest'
import { inMemory } from '../../../src/ledger/write/in-memory.ts'

test('an empty ledger lacks vineyard.yaml', () => {
  expect(inMemory({}).findings.map(({ name }) => name)).toContain('no-such-file')
})

test('a ledger in memory reads like one on disk', () => {
  const { findings, vineyard } = inMemory({
    'vineyard.yaml': 'name: Test Rows\nlatitude: 51.5\ntimezone: Europe/Berlin\n',
  })
  expect([findings, vineyard?.name]).toEqual([[], 'Test Rows'])
})
