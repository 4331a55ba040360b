import { expect, test } from 'vitest'
import { run } from './run.ts'

test.each([
  [['spray'], 'rowbook note spray'],
  [['samples', '--brix', '19'], 'rowbook note sample'],
  [['ready', 'pond'], 'rowbook ready --block pond'],
  [['ready', 'top terrace'], 'rowbook ready --block "top terrace"'],
  [['sugar', '18'], 'rowbook sugar --brix 18'],
  [['note'], 'rowbook note scouting  a round of looking for disease\n  rowbook note sample'],
  [['block'], 'rowbook note block'],
  [['product', '--name', 'x'], 'rowbook note product'],
  [['sugar', '18.5'], 'rowbook sugar --brix 18.5'],
  [['crop', 'pond'], 'rowbook crop --block pond'],
])('%j proposes the line that was meant', (argv, line) => {
  const { status, stdout, stderr } = run(argv)
  expect(status).toBe(2)
  expect(stdout).toBe('')
  expect(stderr).toContain(line)
})
