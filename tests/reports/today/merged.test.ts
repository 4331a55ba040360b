import { expect, test } from 'vitest'
import { itemOf, type TodayDraft, type TodayFrom } from '../../../src/reports/today/item.ts'
import { merged } from '../../../src/reports/today/merged.ts'

const product = (id: string) => [id, { id, name: id, actives: [], uses: [] }] as const
const from = {
  season: 2026,
  asOf: '2026-06-20',
  ledger: {
    vineyard: { units: 'metric' },
    products: new Map([product('sulphur'), product('copper')]),
    sprays: [],
    sprayers: new Map(),
  },
} as unknown as TodayFrom

const walk = (block: string, urgency: TodayDraft['urgency']): TodayDraft => ({
  what: 'walk',
  blocks: [block],
  urgency,
  text: `Scout ${block}.`,
  next: `rowbook note scouting --block ${block}`,
})

test('the block of a line is the first of its blocks, and the one of its command', () => {
  const [item, ...others] = merged([walk('low', 'plan'), walk('top', 'soon')], from).map(itemOf)
  expect(others).toEqual([])
  expect(item).toMatchObject({
    block: 'top',
    blocks: ['top', 'low'],
    urgency: 'soon',
    text: 'Scout top. Scout low.',
    next: 'rowbook note scouting --block top',
  })
})

const cover = (
  block: string,
  { disease, products }: { disease: 'powdery' | 'downy'; products: string[] },
): TodayDraft => ({
  what: 'cover',
  blocks: [block],
  urgency: 'soon',
  text: `${disease} in ${block}.`,
  level: 'moderate',
  disease,
  tank: { products, diseases: [disease] },
  next: `rowbook mix --block ${block}`,
})

test('in a long list, a tank of two products is not taken for one with the first of them', () => {
  const items = merged(
    [
      ...(['find', 'keep-out', 'check', 'last-spray'] as const).map((what) => ({
        ...walk('top', 'now'),
        what,
        next: 'rowbook check',
      })),
      cover('top', { disease: 'powdery', products: ['sulphur'] }),
      cover('top', { disease: 'downy', products: ['copper'] }),
      cover('low', { disease: 'powdery', products: ['sulphur'] }),
    ],
    from,
  )
  const { next, also } = items.find(({ what }) => what === 'cover')!
  expect([next, ...(also ?? [])]).toEqual([
    'rowbook mix --block top --product "sulphur" --product "copper"',
    'rowbook mix --block low',
  ])
})
