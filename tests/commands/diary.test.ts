import { readFileSync } from 'node:fs'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { parse } from 'csv-parse/sync'
import { describe, expect, test } from 'vitest'
import { monthOf } from '../../src/records/spoken-date.ts'
import { FORM_RULES, type Form } from '../../src/reports/diary/forms.ts'
import { makeLedger } from '../ledger/make.ts'
import { run, runJson } from './run.ts'

const SCHEMA = new URL('../../src/reports/diary/diary.schema.json', import.meta.url)
const valid = new Ajv2020({ allErrors: true, validateFormats: false, strictTypes: false }).compile(
  JSON.parse(readFileSync(SCHEMA, 'utf8')),
)
const BOOK = ['--ledger', 'examples/far-quillet', '--as-of', '2026-09-14']
const bare = makeLedger({
  'seasons/2026/sprays/a.yaml':
    'date: 2026-06-20\nblocks: [upper]\nproducts:\n  - { product: sulphur, rate: 2 kg/ha }\nnote: "<b>&"\n',
})
const BARE = ['--ledger', bare, '--as-of', '2026-09-14']

describe.each(Object.keys(FORM_RULES) as Form[])('diary --form %s', (form) => {
  test('the same uses in the terminal, as CSV and as JSON by the project’s schema', () => {
    const { status, json } = runJson(['diary', '--form', form, ...BOOK])
    expect([status, valid(json), valid.errors]).toEqual([0, true, null])
    const { stdout } = run(['diary', '--form', form, ...BOOK, '--csv', '-'])
    const rows = parse(stdout, { columns: true, record_delimiter: '\r\n' }) as Record<string, string>[]
    expect(rows.map(({ date, product }) => [date, product])).toEqual(
      json.data.rows.map((row: Record<string, string>) => [row.date, row.productName]),
    )
    const printed = run(['diary', '--form', form, ...BOOK]).stdout
    expect(printed).toMatch(/^(?:No field that rowbook checks is empty|Not complete): /)
    expect(printed.replaceAll('\n', ' ')).toContain(`law as of ${monthOf(FORM_RULES[form].lawOf)}`)
  })

  test('the page holds every field of the form, names what is missing, the keeping and the law', () => {
    const page = run(['diary', '--form', form, ...BARE, '--html', '-']).stdout
    for (const { title } of FORM_RULES[form].fields) expect(page).toContain(`>${title}</th>`)
    const lacking = runJson(['diary', '--form', form, ...BARE]).json.data.rows[0].missing.length
    expect(page.match(/<strong>missing<\/strong>/g) ?? []).toHaveLength(lacking)
    expect(lacking).toBeGreaterThan(0)
    expect(page).toContain('Not complete')
    expect(page).toContain(`Keep ${FORM_RULES[form].keepYears} years`)
    expect(page).toContain(`law as of ${monthOf(FORM_RULES[form].lawOf)}`)
  })
})

test('until dry, and an interval that ends at midnight, are said in words', () => {
  const said = (reEntry: string, time = '') => {
    const sulphur = readFileSync(`${bare}/products/sulphur.yaml`, 'utf8').replace('re_entry: 24 h', reEntry)
    const spray = `date: 2026-06-20\n${time}blocks: [upper]\nproducts:\n  - { product: sulphur, rate: 2 kg/ha }\n`
    const ledger = makeLedger({ 'products/sulphur.yaml': sulphur, 'seasons/2026/sprays/a.yaml': spray })
    const { stdout } = run(['diary', '--form', 'full', '--ledger', ledger, '--as-of', '2026-09-14'])
    expect(stdout).not.toContain('00:00')
    return stdout.replace(/\s+/g, ' ')
  }
  expect(said('re_entry: until dry')).toContain(
    'Re-entry interval (REI) until dry: keep out until the spray is dry, at the earliest the end of Sat 20 Jun.',
  )
  expect(said('re_entry: 24 h')).toContain('REI) 24 h: keep out until the end of Sun 21 Jun.')
  expect(said('re_entry: 24 h', 'time: 18:00-19:30\n')).toContain('keep out until Sun 21 Jun 19:30.')
})

test('usage errors say what to type', () => {
  for (const args of [
    ['--form', 'xx'],
    ['--from', '2026-07-01', '--to', '2026-06-01'],
    ['--json', '--csv', '-'],
    ['--html', '-', '--csv', '-'],
    ['--keep', '0'],
    ['--from', '2026-02-30'],
  ]) {
    const { status, stdout, stderr } = run(['diary', ...args, ...BOOK])
    expect([args, status, stdout]).toEqual([args, 2, ''])
    expect(stderr.length).toBeGreaterThan(20)
  }
})

test('a span without sprays says so', () => {
  const { status, stdout } = run([
    'diary',
    '--form',
    'eu',
    ...BOOK,
    '--from',
    '2026-01-01',
    '--to',
    '2026-01-31',
  ])
  expect([status, stdout.startsWith('No sprays from 1 Jan 2026 to 31 Jan 2026.')]).toEqual([0, true])
})
