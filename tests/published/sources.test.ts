import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
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

test('every row names a source that a reader can look up, with its year, and says how it was obtained', () => {
  expect([...new Set(collected.flatMap(faultsOf))]).toEqual([])
})

test('no text of the project sends a reader to notes that are not in it', () => {
  const project = fileURLToPath(new URL('../..', import.meta.url))
  const files = ['src', 'tests', 'examples'].flatMap((folder) =>
    readdirSync(join(project, folder), { recursive: true, encoding: 'utf8' }).map((file) =>
      join(folder, file),
    ),
  )
  const texts = ['README.md', 'DEVELOPERS.md', ...files].filter((file) =>
    /\.(?:m?[jt]s|md|ya?ml)$/.test(file),
  )
  expect(texts.length).toBeGreaterThan(500)
  const here = /^tests\/published\/(?:rows|sources\.test)\.ts$/
  const named = texts
    .filter((file) => !here.test(file))
    .filter((file) =>
      /\breferences\/\w+\.md|\bDESIGN\.md\b|['(\s]S(?:D|-)?\d{1,2}[:,)]/.test(
        readFileSync(join(project, file), 'utf8'),
      ),
    )
  expect(named).toEqual([])
})

test('README names every way in which a source is known', () => {
  const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8').replace(/\s+/g, ' ')
  const [said] = /says how it was obtained:.*?`--sources`/.exec(readme) ?? ['']
  for (const words of ['read', 'second-hand', 'worked out here', 'from memory', 'common practice, no source'])
    expect(said).toContain(words)
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
  [{ id: 'dose', source: 'Ozkan, undated, year not known', basis: 'read' as const }],
  [{ id: 'dose', source: 'Ozkan 2021 via a magazine', basis: 'read' as const }],
  [{ id: 'dose', source: 'Ozkan 2021, as printed by a magazine', basis: 'read' as const }],
  [{ id: 'dose', source: 'Ozkan 2021; the rest common practice, no source', basis: 'read' as const }],
  [{ id: 'dose', source: 'worked out here by hand', basis: 'derived' as const }],
  [{ id: 'dose', source: 'Ozkan 2021', basis: 'second-hand' as const }],
  [{ id: 'dose', source: 'Ozkan 2021', basis: 'common practice' as const }],
])('%j would be found', (row) => expect(faultsOf(row)).toHaveLength(1))
