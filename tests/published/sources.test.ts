import { readdirSync, readFileSync } from 'node:fs'
import { expect, test, vi } from 'vitest'
import { faultsOf, type PublishedRow } from './rows.ts'

const { collected } = vi.hoisted(() => ({ collected: [] as PublishedRow[] }))
vi.mock('./rows.ts', async (original) => ({
  ...(await original<object>()),
  published(rows: PublishedRow[]) {
    collected.push(...rows)
    // A suite without a test is a fault to the runner.
    test('has rows', () => expect(rows.length).toBeGreaterThan(0))
  },
}))

// Files that ran in this worker before are loaded anew, so that their rows are collected here.
vi.resetModules()
for (const file of readdirSync(new URL('.', import.meta.url)).sort()) {
  const text = readFileSync(new URL(file, import.meta.url), 'utf8')
  if (file.endsWith('.test.ts') && /from '\.\/rows\.ts'/.test(text) && file !== 'sources.test.ts')
    await import(`./${file}`)
}

test('every row names a source that a reader can look up, with its year, and says how it was had', () => {
  expect([...new Set(collected.flatMap(faultsOf))]).toEqual([])
})

test('README tells the number of the rows, to the hundred below', () => {
  const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8')
  const [, told] = /over (\d[\d,]*) checks/.exec(readme) ?? []
  expect(Number(told?.replace(',', ''))).toBe(Math.floor(collected.length / 100) * 100)
})

test.each([
  [{ id: 'S12 dose', source: 'Ozkan 2021', basis: 'read' as const }],
  [{ id: 'dose', source: 'notes of 2021', basis: 'derived' as const }],
  [{ id: 'dose', source: 'Ozkan 2021, from memory', basis: 'read' as const }],
  [{ id: 'dose', source: 'Ozkan, Ohio State', basis: 'read' as const }],
  [{ id: 'dose', source: 'Ozkan 2021', basis: 'second-hand' as const }],
  [{ id: 'dose', source: 'Ozkan 2021', basis: 'common practice' as const }],
])('%j would be found', (row) => expect(faultsOf(row)).toHaveLength(1))
