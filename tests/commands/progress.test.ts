import { expect, test } from 'vitest'
import { Progress } from '../../src/commands/plumbing/progress.ts'

/** A progress whose clock is set by hand, and what it has said. */
function watched(isTerminal = true) {
  const said: string[] = []
  let now = 500
  const progress = new Progress(
    (text) => said.push(text),
    () => isTerminal,
    () => now,
  )
  return { progress, said, at: (time: number) => (now = time) }
}

test('is silent for a second of work, wherever the clock stood when it began', () => {
  const { progress, said, at } = watched()
  progress.tell('reading, 1 files')
  at(1499)
  progress.tell('reading, 2 files')
  expect(said).toEqual([])
  at(1500)
  progress.tell('reading, 3 files')
  expect(said).toEqual(['\rreading, 3 files ...\x1b[K'])
})

test('speaks five times a second at most, and takes its word away once', () => {
  const { progress, said, at } = watched()
  for (let time = 0; time <= 2000; time += 10) {
    at(time)
    progress.tell(`reading, ${time} files`)
  }
  expect(said.length).toBe(6)
  progress.clear()
  progress.clear()
  expect(said.at(-1)).toBe('\r\x1b[K')
  expect(said.length).toBe(7)
})

test('says nothing into a pipe or a file, not even a clearing', () => {
  const { progress, said, at } = watched(false)
  progress.tell('reading')
  at(60_000)
  progress.tell('reading')
  progress.clear()
  expect(said).toEqual([])
})

test('work after an answer begins anew', () => {
  const { progress, said, at } = watched()
  progress.tell('reading')
  at(2000)
  progress.clear()
  progress.tell('reading')
  expect(said).toEqual([])
})
