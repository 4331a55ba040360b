import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { toPlain } from '../../../src/ledger/yaml/plain.ts'
import { readYaml } from '../../../src/ledger/yaml/read-yaml.ts'

const read = (text: string) => readYaml({ file: 'x.yaml', text })
const plain = (text: string) => {
  const { node, findings } = read(text)
  expect(findings).toEqual([])
  return node && toPlain(node)
}

describe('what is read', () => {
  test.each([
    ['a: no', { a: 'no' }],
    ['a: off', { a: 'off' }],
    ['a: 007', { a: '007' }],
    ['a: 20.0', { a: '20.0' }],
    ['a: 1_000', { a: '1_000' }],
    ['a: 12:30', { a: '12:30' }],
    ['a: 2026-06-14', { a: '2026-06-14' }],
    ['a: 1,5', { a: '1,5' }],
    ['a: ~', { a: null }],
    ['a:', { a: null }],
    ['a: true', { a: true }],
    ['a: 21.5', { a: 21.5 }],
    ['a: [1, 2]\r\nb: x\r\n', { a: [1, 2], b: 'x' }],
    ['- { a: 1 }\n- { a: 2 }', [{ a: 1 }, { a: 2 }]],
    ['a: "%YAML 1.1"', { a: '%YAML 1.1' }],
  ])('%s', (text, value) => expect(plain(text)).toEqual(value))
})

describe('what is refused, and where', () => {
  test.each([
    ['a: &x 1\nb: *x', 'alias', 1],
    ['a: *nowhere', 'alias', 1],
    ['a: !!js/function "x"', 'tag', 1],
    ['a: !thing 1', 'tag', 1],
    ['%YAML 1.1\n---\na: no', 'directive', 1],
    ['a: 1\na: 2', 'duplicate-key', 2],
    ['<<: { a: 1 }', 'unknown-key', 1],
    ['__proto__: { polluted: 1 }', 'unknown-key', 1],
    ['constructor: 1', 'unknown-key', 1],
    ['a: .inf', 'not-a-number', 1],
    ['a: 1e999', 'not-a-number', 1],
    ['a:\n\tb: 1', 'tab-indent', 2],
    ['a: 1\n---\nb: 2', 'several-documents', 2],
    ['x: 1\n<<<<<<< HEAD\na: 1\n=======\na: 2\n>>>>>>> other\n', 'merge-conflict', 2],
    ['a: "\\e[31m"', 'control-character', 1],
    ['a: x\u001b[31m', 'control-character', 1],
    ['a: x\u0000', 'control-character', 1],
    ['a: \ufeffx', 'control-character', 1],
    ['a: 1\rb: 2', 'line-ends', 1],
    ['? [a, b]\n: 1', 'odd-key', 1],
    ['a: [1, 2', 'syntax', 1],
    ['['.repeat(100_000), 'too-deep', 1],
    [`${'{a: '.repeat(5000)}`, 'too-deep', 1],
  ])('%j', (text, name, line) => {
    const started = performance.now()
    const { node, findings } = read(text)
    expect(node).toBeNull()
    expect(findings[0]?.name).toBe(name)
    expect(findings[0]?.line).toBe(line)
    expect(performance.now() - started).toBeLessThan(1000)
  })

  test('a key that is written three times: the first line is named each time', () => {
    expect(read('a: 1\na: 2\na: 3').findings.map(({ message }) => message)).toEqual([
      '`a` is written twice, first on line 1',
      '`a` is written twice, first on line 1',
    ])
  })

  test('a map of too many keys, quickly', () => {
    const text = Array.from({ length: 20_000 }, (_, index) => `key${index}: 1`).join('\n')
    expect(read(text).findings.map(({ name }) => name)).toEqual(['too-many-keys'])
  })

  test('an alias bomb', () => {
    const lines = [
      'a: &a [x, x]',
      ...'bcdefghi'
        .split('')
        .map((key, index) => `${key}: &${key} [*${'abcdefghi'[index]}, *${'abcdefghi'[index]}]`),
    ]
    expect(read(lines.join('\n')).findings.every(({ name }) => name === 'alias')).toBe(true)
  })

  test('columns count characters, not bytes', () => {
    const { findings } = read('note: "ÄÖ😀", a: [')
    expect(findings[0]!.column).toBeLessThanOrEqual(18)
    expect(read('x: {"😀": 1, b: *q }').findings[0]).toMatchObject({ name: 'alias', column: 16 })
  })

  test('nothing changes the prototype', () => {
    read('__proto__: { polluted: 1 }')
    expect(({} as { polluted?: number }).polluted).toBeUndefined()
  })
})

describe('whatever the text', () => {
  const token = fc.constantFrom(
    '- ',
    'a: ',
    '\n',
    '  ',
    '{',
    '}',
    '[',
    ']',
    ',',
    '"',
    "'",
    '#',
    '&x ',
    '*x ',
    '!t ',
    '| \n',
    '> \n',
    '%',
    '---\n',
    '1',
    'é',
    '\t',
    '? ',
    ': ',
    '<<: ',
  )

  test('it is read, or refused at a place inside it, and never throws', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'binary', maxLength: 200 }),
          fc.array(token, { maxLength: 60 }).map((parts) => parts.join('')),
        ),
        (text) => {
          const { node, findings } = read(text)
          for (const { line, column } of findings) {
            const lines = text.split('\n')
            expect(line).toBeGreaterThanOrEqual(1)
            expect(line).toBeLessThanOrEqual(lines.length)
            expect(column).toBeGreaterThanOrEqual(1)
            expect(column).toBeLessThanOrEqual([...lines[line - 1]!].length + 1)
          }
          if (node) expect(node.end).toBeLessThanOrEqual(text.length)
        },
      ),
      { numRuns: 3000 },
    )
  })
})
