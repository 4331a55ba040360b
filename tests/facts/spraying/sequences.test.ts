import { describe, expect, test } from 'vitest'
import {
  applications,
  byBlockAndProduct,
  dosePath,
  groupedBy,
  isJudged,
  type JudgedLedger,
  judged,
  overlap,
  productPath,
  statedTargets,
} from '../../../src/facts/judged.ts'
import { ripeningSeen } from '../../../src/facts/ripeness/ripening.ts'
import { sequences } from '../../../src/facts/spraying/group-sequence.ts'
import { stageSequences } from '../../../src/rules/slips/stage-sequence.ts'
import { type Files, label } from '../../rules/limits/both-sides.ts'
import { bookOf, sprayed } from '../book.ts'

const SULPHUR = 'product: sulphur, rate: 3 kg/ha, for: powdery'
const COPPER = 'product: copper, rate: 1 kg/ha, for: downy'
const book = (
  sprays: string,
  files: Files = {},
  of: { asOf?: string; seasons?: number[] } = {},
): JudgedLedger => {
  const ledger = bookOf(sprays, files)
  return { ledger, asOf: of.asOf ?? '2026-10-20', seasons: new Set(of.seasons ?? ledger.seasons) }
}
const lastYear = { 'seasons/2025/sprays.yaml': sprayed('2025-06-10', [SULPHUR]) }

describe('what is judged', () => {
  const days = (of?: { asOf?: string; seasons?: number[] }) =>
    judged(
      book(sprayed('2026-06-10', [SULPHUR]) + sprayed('2026-07-10', [SULPHUR]), lastYear, of),
      'sprays',
    ).map(({ date }) => date)
  test('entries of the requested seasons, up to and including the day of the report', () => {
    expect(days()).toEqual(['2025-06-10', '2026-06-10', '2026-07-10'])
    expect(days({ seasons: [2026] })).toEqual(['2026-06-10', '2026-07-10'])
    expect(days({ asOf: '2026-07-10', seasons: [2026] })).toHaveLength(2)
    expect(days({ asOf: '2026-07-09', seasons: [2026] })).toHaveLength(1)
    expect(isJudged(book('[]', {}, { seasons: [2026] }), { season: 2025 })).toBe(false)
    expect(isJudged(book('[]', {}, { seasons: [2026] }), { season: 2026 })).toBe(true)
  })

  test('applications are of all seasons up to the day, whatever the day of the report', () => {
    const whole = book(sprayed('2026-06-10', [SULPHUR, COPPER]), lastYear, { seasons: [2026] })
    const of = (asOf: string) =>
      applications({ ...whole, asOf }).map(({ spray, product }) => `${spray.date} ${product.id}`)
    expect(of('2026-06-09')).toEqual(['2025-06-10 sulphur'])
    expect(of('2026-06-10')).toEqual(['2025-06-10 sulphur', '2026-06-10 sulphur', '2026-06-10 copper'])
    const other = { ...whole, ledger: { ...whole.ledger, sprays: [] } }
    expect(applications(other)).toEqual([])
  })

  test('applications already calculated do not include later sprays', () => {
    const growing = book(sprayed('2026-06-10', [SULPHUR]) + sprayed('2026-07-10', [COPPER]))
    const last = growing.ledger.sprays.pop()!
    expect(applications(growing)).toHaveLength(1)
    growing.ledger.sprays.push(last)
    expect(applications(growing)).toHaveLength(2)
    growing.ledger.sprays = [last]
    expect(applications(growing).map(({ product }) => product.id)).toEqual(['copper'])
  })

  test('the place of a dose and a product, and their targets', () => {
    const all = applications(
      book(
        sprayed('2026-06-10', [
          SULPHUR,
          'product: copper, amount: 1 kg',
          'product: copper, concentration: 3 g/L',
        ]),
      ),
    )
    expect(all.map(dosePath)).toEqual([
      ['products', 0, 'rate'],
      ['products', 1, 'amount'],
      ['products', 2, 'concentration'],
    ])
    expect(productPath(all[1]!)).toEqual(['products', 1, 'product'])
    expect(all.map(statedTargets)).toEqual([['powdery'], undefined, undefined])
  })

  test('rows in common overlap; no rows named means all rows', () => {
    const rows = (low: number, high: number) => ({ rows: { low, high, unit: '' } })
    expect([overlap(rows(1, 5), rows(5, 9)), overlap(rows(5, 9), rows(1, 5))]).toEqual([true, true])
    expect([overlap(rows(1, 5), rows(6, 9)), overlap(rows(6, 9), rows(1, 5))]).toEqual([false, false])
    expect([overlap({}, rows(1, 5)), overlap(rows(1, 5), {}), overlap({}, {})]).toEqual([true, true, true])
  })

  test('groups keep the order of their first members', () => {
    expect([...groupedBy([3, 1, 4, 1, 5], (one) => (one % 2 ? 'odd' : 'even'))]).toEqual([
      ['odd', [3, 1, 1, 5]],
      ['even', [4]],
    ])
    const lists = byBlockAndProduct(
      applications(
        book(sprayed('2026-06-10', [SULPHUR, COPPER], '', 'upper, lower') + sprayed('2026-07-01', [SULPHUR])),
      ),
    )
    expect(lists.map((list) => list.map(({ block, product }) => `${block.id} ${product.id}`))).toEqual([
      ['upper sulphur', 'upper sulphur'],
      ['upper copper'],
      ['lower sulphur'],
      ['lower copper'],
    ])
  })
})

test('sprays against one disease on one block in one season, with their groups', () => {
  const files = {
    ...lastYear,
    'products/extra.yaml': label({
      actives: '{ name: a, group: "3" }, { name: b, group: "11" }, { name: c }, { name: d, group: "3" }',
    }),
    'products/wetter.yaml': label({ kind: 'adjuvant', actives: '{ name: a, group: "3" }' }),
  }
  const extra = 'product: extra, rate: 1 kg/ha, for: powdery'
  const found = sequences(
    book(
      sprayed('2026-06-10', [SULPHUR, extra, COPPER]) +
        sprayed('2026-07-10', [extra, 'product: wetter, rate: 1 kg/ha, for: powdery'], '', 'upper, lower'),
      files,
      { seasons: [2026] },
    ),
  )
  const told = found
    .filter(({ sprays }) => sprays.length > 0)
    .map(({ disease, sprays }) => [
      disease,
      ...sprays.map(
        ({ applications: some, groups }) => `${some.map(({ product }) => product.id)}: ${groups}`,
      ),
    ])
  expect(told).toEqual([
    ['powdery', 'sulphur,extra: M02,3,11', 'extra: 3,11'],
    ['downy', 'copper: M01'],
    ['powdery', 'extra: 3,11'],
  ])
})

const seen = (date: string, stage: number, block = 'upper') =>
  `- { date: ${date}, block: ${block}, stage: ${stage} }\n`

test('stages of a block from all kinds of entry, oldest first, the lower one first on the same day', () => {
  const walk = (date: string, stage: string) =>
    `- { date: ${date}, block: upper, looked_at: { bunches: 9 }, found: {}${stage} }\n`
  const list = (of?: { asOf?: string; seasons?: number[] }) =>
    [
      ...stageSequences(
        book(
          sprayed('2026-06-10', [SULPHUR], 'stage: 65', 'upper, lower') + sprayed('2026-06-20', [SULPHUR]),
          {
            ...lastYear,
            'seasons/2025/stages.yaml': seen('2025-06-01', 61),
            'seasons/2026/stages.yaml':
              seen('2026-05-01', 13) +
              seen('2026-07-10', 77) +
              seen('2026-07-20', 77) +
              seen('2026-10-21', 91),
            'seasons/2026/scouting.yaml':
              walk('2026-06-05', ', stage: 61') +
              walk('2026-07-10', ', stage: 75') +
              walk('2026-07-11', '') +
              walk('2026-07-20', ', stage: 79'),
          },
          of,
        ),
      ),
    ].map(
      ([key, stages]) => `${key}: ${stages.map(({ date, stage }) => `${date.slice(5)} ${stage}`).join(', ')}`,
    )
  expect(list()).toEqual([
    'upper 2025: 06-01 61',
    'upper 2026: 05-01 13, 06-05 61, 06-10 65, 07-10 75, 07-10 77, 07-20 77, 07-20 79',
    'lower 2026: 06-10 65',
  ])
  expect(list({ seasons: [2025], asOf: '2026-05-01' })).toEqual(['upper 2025: 06-01 61'])
  expect(list({ seasons: [2026], asOf: '2026-05-01' })).toEqual(['upper 2026: 05-01 13'])
  expect(list({ seasons: [2026], asOf: '2026-10-21' })[0]).toMatch(/10-21 91$/)
})

test('the first ripening seen on the block in the season', () => {
  const stages =
    seen('2026-08-01', 79) + seen('2026-08-10', 81) + seen('2026-08-20', 85) + seen('2026-08-05', 83, 'lower')
  const files = { 'seasons/2026/stages.yaml': stages, 'seasons/2025/stages.yaml': seen('2025-08-02', 89) }
  const first = (block: string, season = 2026, asOf = '2026-10-20') =>
    ripeningSeen(book('[]', files, { asOf }))({ block, season })?.date
  expect([first('upper'), first('lower'), first('upper', 2025), first('wide')]).toEqual([
    '2026-08-10',
    '2026-08-05',
    '2025-08-02',
    undefined,
  ])
  expect([first('upper', 2026, '2026-08-10'), first('upper', 2026, '2026-08-09')]).toEqual([
    '2026-08-10',
    undefined,
  ])
})
