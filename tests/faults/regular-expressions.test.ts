import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { analyse } from 'scslre'
import ts from 'typescript'
import { expect, test, vi } from 'vitest'
import { PROJECT } from './processes.ts'

interface Written {
  place: string
  source: string
  flags: string
}

const SOURCE = join(PROJECT, 'src')

const files = readdirSync(SOURCE, { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.ts'))
  .sort()

/** Every regular expression literal of a file, and the places where one is built from strings. */
function expressionsIn(file: string): { written: Written[]; made: string[] } {
  const text = readFileSync(join(SOURCE, file), 'utf8')
  const tree = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true)
  const written: Written[] = []
  const made: string[] = []
  const visit = (node: ts.Node): void => {
    const place = () => `${file}:${tree.getLineAndCharacterOfPosition(node.getStart()).line + 1}`
    if (ts.isRegularExpressionLiteral(node)) {
      const [, source, flags] = /^\/(.*)\/([a-z]*)$/s.exec(node.text)!
      written.push({ place: place(), source: source!, flags: flags! })
    }
    if (ts.isNewExpression(node) && node.expression.getText() === 'RegExp') {
      const isConstant =
        ts.isVariableDeclaration(node.parent) && ts.isSourceFile(node.parent.parent.parent.parent)
      made.push(isConstant ? file : `${place()} makes one while it runs`)
    }
    ts.forEachChild(node, visit)
  }
  visit(tree)
  return { written, made }
}

const found = files.map(expressionsIn)

/** Why an expression takes more than linear time: two parts match the same stretch, or it tries from every start. */
function slow({ place, source, flags }: Written): string[] {
  const { reports } = analyse({ source, flags: flags.replace('d', '') })
  return reports.map(({ type, exponential }) => `${place} /${source}/ ${exponential ? 'exponential' : type}`)
}

test('E1: the checker finds slow expressions and passes others', () => {
  const of = (source: string, flags = '') => slow({ place: 'x', source, flags }).length > 0
  expect(of('^(a+)+$')).toBe(true)
  expect(of('\\s*\\n\\s*', 'g')).toBe(true)
  expect(of('^(\\d+),?(\\d+)(.*)$')).toBe(true)
  expect(of('^\\d+,\\d+$')).toBe(false)
})

test('E1: every regular expression of the program takes linear time', () => {
  const written = found.flatMap(({ written }) => written)
  expect(written.length).toBeGreaterThan(150)
  expect(written.flatMap(slow)).toEqual([])
})

test('E1: also those built when a module is loaded', async () => {
  const makers = found.flatMap(({ made }) => made)
  expect(makers.filter((one) => one.includes('while it runs'))).toEqual([])
  const made: Written[] = []
  // Other tests of this process have loaded the modules already.
  vi.resetModules()
  const real = globalThis.RegExp
  globalThis.RegExp = new Proxy(real, {
    construct(target, args, newTarget) {
      const place = String(new Error().stack).split('\n')[2]!.trim()
      const one = Reflect.construct(target, args, newTarget) as RegExp
      if (place.includes('/src/')) made.push({ place, source: one.source, flags: one.flags })
      return one
    },
  })
  try {
    for (const file of new Set(makers)) await import(join(SOURCE, file))
  } finally {
    globalThis.RegExp = real
  }
  expect(made.length).toBe(makers.length)
  expect(made.flatMap(slow)).toEqual([])
})
