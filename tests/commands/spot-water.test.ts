import { expect, test } from 'vitest'
import { spotWater } from '../../src/commands/prompts/spray-questions.ts'

const asked = {
  key: 'water',
  ask: '',
  why: '',
  read: (text: string) => ({ parts: [{ option: 'water', text }] }),
}

test.each([
  ['metric', '2 L'],
  ['us', '0.5 US gal'],
  ['imperial', '0.5 imp gal'],
] as const)('a spot on a %s site is asked for in the unit of its tanks', (units, example) => {
  const { ask, read } = spotWater(asked, units)
  expect(ask).toContain(`For example ${example}.`)
  expect(read('3').parts).toEqual([{ option: 'water', text: example.replace(/^[\d.]+/, '3') }])
  expect(read('30 gal/acre').fault).toBe(`Type what was used in all, like ${example}.`)
})
