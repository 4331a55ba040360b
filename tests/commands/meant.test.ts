import { expect, test } from 'vitest'
import { run } from './run.ts'

test.each([
  [['spray'], 'rowbook note spray'],
  [['samples', '--brix', '19'], 'rowbook note sample'],
  [['ready', 'pond'], 'rowbook ready --block pond'],
  [['ready', 'top terrace'], 'rowbook ready --block "top terrace"'],
  [['sugar', '18'], 'rowbook sugar --brix 18'],
  [['note'], 'rowbook note KIND, where KIND is spray, scouting'],
])('%j proposes the line that was meant', (argv, line) => {
  const { status, stdout, stderr } = run(argv)
  expect(status).toBe(2)
  expect(stdout).toBe('')
  expect(stderr).toContain(line)
})
