import { expect, test } from 'vitest'
import { inMemory } from '../../../src/ledger/write/in-memory.ts'

test('a ledger that holds nothing lacks the file of its vineyard', () => {
  expect(inMemory({}).findings.map(({ name }) => name)).toContain('no-such-file')
})

test('a vineyard that is not written yet reads like one that is', () => {
  const { findings, vineyard } = inMemory({
    'vineyard.yaml': 'name: Test Rows\nlatitude: 51.5\ntimezone: Europe/Berlin\n',
  })
  expect([findings, vineyard?.name]).toEqual([[], 'Test Rows'])
})
