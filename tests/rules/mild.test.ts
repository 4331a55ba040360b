import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { GRAVE, RULES } from '../../src/rules/index.ts'
import type { Rule } from '../../src/rules/rule.ts'
import { errorsOf } from '../../src/rules/season-errors.ts'
import { ledgerOf } from '../ledger/in-memory.ts'
import { MORE } from './more-slips.ts'
import { filesWith, MISTAKES } from './slips.ts'

const ERRORS = [...MISTAKES, ...MORE].filter(({ level }) => level === 'error')

test.each(ERRORS)('$file: $to is an error without the mild rules too', (slip) => {
  const ledger = ledgerOf(filesWith(slip))
  const found = [...ledger.findings, ...errorsOf({ ledger, asOf: '2026-10-20', season: 2026 })]
  expect(found.map(({ name }) => name)).toContain(slip.name)
})

test('no rule that is called mild stands in a file that names errors', async () => {
  const folder = new URL('../../src/rules/', import.meta.url)
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).map(
    (name) => new URL(name, folder),
  )
  const grave = files.filter(
    ({ href }) => href.endsWith('.ts') && readFileSync(new URL(href), 'utf8').includes("'error'"),
  )
  expect(grave.length).toBeGreaterThan(10)
  const found = await Promise.all(grave.map(({ pathname }) => import(pathname)))
  const rules = found.flatMap((module) => Object.values(module) as Rule[])
  expect(rules.filter((rule) => RULES.includes(rule) && !GRAVE.includes(rule))).toEqual([])
})
