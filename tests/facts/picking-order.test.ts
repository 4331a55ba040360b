import { expect, test } from 'vitest'
import { pickingOrder } from '../../src/facts/picking/order.ts'

type One = Parameters<typeof pickingOrder>[0][number]
const one = (block: string, more: Partial<One>): One => ({
  block,
  verdict: 'ready',
  gates: [],
  legalFrom: null,
  turns: null,
  advice: null,
  danger: { level: 'low', reasons: [], unknown: [], tissue: 'fruit' },
  picked: null,
  over: false,
  ...more,
})
const danger = (level: 'low' | 'moderate' | 'high' | 'unknown'): One['danger'] => ({
  level,
  reasons: [],
  unknown: [],
  tissue: 'fruit',
})
const order = (...all: One[]) => pickingOrder(all).map(({ block }) => block)

test('blocks that can be picked today are ordered by danger of rot', () => {
  expect(
    order(
      one('calm', {}),
      one('unsure', { danger: danger('unknown') }),
      one('wet', { danger: danger('high') }),
    ),
  ).toEqual(['wet', 'unsure', 'calm'])
})

test('blocks with a date are ordered by date, whatever their danger, after those that can be picked', () => {
  const late = one('late', { verdict: 'wait', turns: '2026-10-02', danger: danger('high') })
  const early = one('early', { verdict: 'wait', turns: '2026-09-20' })
  expect(order(late, early, one('now', {}))).toEqual(['now', 'early', 'late'])
  const same = one('same', { verdict: 'wait', turns: '2026-10-02' })
  expect(order(same, late)).toEqual(['late', 'same'])
})

test('blocks that are not ready and have no date are left out', () => {
  expect(order(one('stopped', { verdict: 'stop' }), one('now', {}))).toEqual(['now'])
})

test('where picking is only to be weighed for rot, a block does not come before what is ready', () => {
  const weighed = one('weighed', {
    verdict: 'stop',
    advice: { what: 'weigh-picking-now', reasons: ['botrytis rises'] },
  })
  const now = one('now', { advice: { what: 'pick-now-and-sort', reasons: ['botrytis rises'] } })
  expect(
    pickingOrder([weighed, one('ready', {}), now]).map(({ block, reasons }) => [block, reasons[0]]),
  ).toEqual([
    ['now', 'rot argues for picking now'],
    ['ready', 'nothing recorded holds it back'],
    ['weighed', 'weigh picking now and sorting'],
  ])
})
