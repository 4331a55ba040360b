import { readFileSync, writeFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { commandsIn, fencedBlocks, play, withPlayed } from './readme-samples.ts'

const README = new URL('../../README.md', import.meta.url)
const markdown = readFileSync(README, 'utf8')
const blocks = fencedBlocks(markdown)
const samples = [...new Set(blocks.filter(({ language }) => language === 'console').map(({ text }) => text))]

describe('README', () => {
  test('has samples, each with a command and what it prints', () => {
    expect(samples.length).toBeGreaterThan(3)
    for (const text of samples) expect(commandsIn(text).length).toBeGreaterThan(0)
  })

  test('shows what rowbook prints in `console` blocks only, where it is held to be true', () => {
    const others = blocks.filter(({ language }) => language !== 'console')
    expect(
      others.map(({ language }) => language).filter((word) => !/^(?:text|sql|yaml)$/.test(word)),
    ).toEqual([])
    expect(others.filter(({ text }) => /^\$ |\browbook \w/m.test(text))).toEqual([])
  })

  // `ROWBOOK_README=write npx vitest run tests/commands/readme.test.ts` writes the blocks anew.
  if (process.env.ROWBOOK_README === 'write')
    test('is written anew', () => {
      const played = new Map(samples.map((text) => [text, play(text)]))
      expect([...played.values()].flatMap(({ failed }) => failed)).toEqual([])
      writeFileSync(README, withPlayed(markdown, played))
    })
  else
    test.each(samples.map((text) => [commandsIn(text).at(-1)!.command, text] as const))(
      'prints whole, with exit status 0: %s',
      (_, text) => {
        const played = play(text)
        expect(played.failed).toEqual([])
        expect(played.text).toBe(text)
      },
    )
})
