import { describe, expect, test } from 'vitest'
import { filesWith, MISTAKES } from './slips.ts'
import { FILES, findings } from './sound-season.ts'

test('the sound season has no error, warning or hint', () => {
  expect(findings(FILES).map(({ name, file, line }) => [name, file, line])).toEqual([])
})

describe('one mistake at a time', () => {
  test.each(MISTAKES)('$file: $to gives $name', (slip) => {
    const { file, from, name, level, at } = slip
    expect(FILES[file]).toContain(from)
    const files = filesWith(slip)
    const hits = findings(files).filter((finding) => finding.name === name)
    const shown = hits.map((hit) => ({ level: hit.level, text: files[hit.file]!.split('\n')[hit.line - 1] }))
    expect(shown).toContainEqual({ level, text: expect.stringContaining(at) })
  })
})
