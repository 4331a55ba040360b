import { mkdtempSync, readFileSync, utimesSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { keptPlaces, placeToTake, readKept, writeKept } from '../../../src/ledger/cache/kept-file.ts'

const folder = mkdtempSync(join(tmpdir(), 'rowbook-kept-'))
const placesOf = (about: string) => keptPlaces(folder, about, 'answer', 1024)
const headOf = (about: string) => Buffer.from(`${about}\n`)

const keep = (about: string, content: string) => {
  const place = placeToTake(placesOf(about), headOf(about))
  writeKept(place, headOf(about), content)
  return place
}
const kept = (about: string) =>
  placesOf(about)
    .map((place) => readKept(place, headOf(about))?.toString() ?? null)
    .filter((content) => content !== null)

/** Command lines that come to one first place, as one of some dozens of pairs does. */
const [first, ...others] = Array.from({ length: 20_000 }, (_, index) => `window --as-of ${index}`)
const together = others.filter(
  (about) => placesOf(about)[0] === placesOf(first!)[0] && placesOf(about)[1] !== placesOf(first!)[1],
)

test('two that come to one place are both kept, and each replaces its own', () => {
  const [second, third] = together as [string, string]
  const at = [keep(first!, 'one'), keep(second, 'two')]
  expect([kept(first!), kept(second)]).toEqual([['one'], ['two']])
  expect([keep(first!, 'one again'), keep(second, 'two again')]).toEqual(at)
  expect([kept(first!), kept(second)]).toEqual([['one again'], ['two again']])
  expect(kept(third)).toEqual([])
})

test('where both places are taken, the one written longest ago is', () => {
  const about = together[2]!
  const [a, b] = placesOf(about) as [string, string]
  for (const [old, young] of [
    [a, b],
    [b, a],
  ] as const) {
    for (const place of [a, b]) writeKept(place, headOf('of another'), 'other')
    utimesSync(old, 1000, 1000)
    utimesSync(young, 2000, 2000)
    expect(keep(about, 'mine')).toBe(old)
    expect(kept(about)).toEqual(['mine'])
  }
})

test('what is kept is given back whole or not at all, wherever its file ends', () => {
  const about = 'check'
  const place = keep(about, '[[1,1],[1,1]]')
  const whole = readFileSync(place)
  for (let length = 0; length <= whole.length; length += 1) {
    writeFileSync(place, whole.subarray(0, length))
    expect(kept(about)).toEqual(length < whole.length ? [] : ['[[1,1],[1,1]]'])
  }
  writeFileSync(place, Buffer.concat([whole, Buffer.from('[[')]))
  expect(kept(about)).toEqual([])
})
