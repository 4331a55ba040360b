import { expect, test } from 'vitest'
import { explain } from '../../../src/reports/explain/report.ts'

test('a figure is found by a command, a part of a topic and a word of the trade, and a slip by its nearest', () => {
  const names = (word: string) => explain(word).found?.map(({ name }) => name)
  expect(names('mix')).toContain('tank-fills')
  expect(names('resistance')).toContain('copper')
  expect(names('sugar')).toContain('brix')
  expect(explain('sugr').near).toBe('did you mean `sugar`?')
})
