import { readFileSync } from 'node:fs'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { parse } from 'csv-parse/sync'
import { describe, expect, test } from 'vitest'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { PLAIN } from '../../../src/render/style.ts'
import { diaryCsv } from '../../../src/reports/diary/csv.ts'
import { FORM_RULES, type Form } from '../../../src/reports/diary/forms.ts'
import { diary } from '../../../src/reports/diary/report.ts'
import { renderDiary } from '../../../src/reports/diary/terminal.ts'
import { makeLedger, SITE } from '../../ledger/make.ts'

const FORMS = Object.keys(FORM_RULES) as Form[]

const SCHEMA = new URL('../../../src/reports/diary/diary.schema.json', import.meta.url)
const valid = new Ajv2020({ allErrors: true, validateFormats: false, strictTypes: false }).compile(
  JSON.parse(readFileSync(SCHEMA, 'utf8')),
)

const SPRAY = `date: 2026-06-14
time: 22:40-00:50 +1
blocks: [upper, lower]
rows: 1-5
sprayer: mounted
water: 300 L/ha
products:
  - { product: sulphur, rate: 3 kg/ha, for: powdery }
  - { product: copper, concentration: 5 g/L, for: downy }
stage: 65
weather: { wind: 1.8 m/s, from: SW, temperature: 17 C, humidity: 70 % }
operator: R.
certificate: C-17
`
const BARE = 'date: 2026-06-20\nblocks: [upper]\nproducts:\n  - { product: sulphur, rate: 2 kg/ha }\n'

function ask(
  form: Form,
  files: Record<string, string> = {},
  options: { from?: string; to?: string; asOf?: string } = {},
) {
  const { from = '2025-11-01', to = '2026-10-31', asOf = '2026-09-01' } = options
  const ledger = openLedger(makeLedger(files), { seasons: [2026] })
  expect(ledger.findings).toEqual([])
  return diary({ ledger, season: 2026, asOf, blocks: [...ledger.blocks.values()] }, { form, from, to })
}

const lacking = (result: ReturnType<typeof ask>, row = 0) =>
  result.data.rows[row]!.missing.map(({ field }) => field)
const SPRAYS = { 'seasons/2026/sprays/a.yaml': SPRAY }
const PLACED = {
  ...SPRAYS,
  'blocks/upper.yaml': `${SITE['blocks/upper.yaml']}location: parcel 118/2\n`,
  'blocks/lower.yaml': `${SITE['blocks/lower.yaml']}boundary: lower.geojson\n`,
  'blocks/lower.geojson': '{}',
}

describe('the record', () => {
  test('a row for each product on each block, with its own area, dose and total', () => {
    const { rows } = ask('eu', PLACED).data
    expect(rows.map(({ block, product, part }) => [block, product, part])).toEqual([
      ['upper', 'sulphur', 'rows 1-5'],
      ['upper', 'copper', 'rows 1-5'],
      ['lower', 'sulphur', 'rows 1-5'],
      ['lower', 'copper', 'rows 1-5'],
    ])
    // 5 of 20 rows of 100 m at 2 m; 5 of 10 rows of 50 m at 2 m
    expect(rows.map(({ area }) => area!.value)).toEqual([0.1, 0.1, 0.05, 0.05])
    expect(rows[1]).toMatchObject({
      dose: { value: 1.5, unit: 'kg/ha' },
      water: { value: 30, unit: 'L' },
      typeOfUse: 'area',
      cropCode: 'VITVI',
      authorisation: 'T-2',
      place: 'parcel 118/2',
      start: '22:40',
      end: '00:50 +1',
      reEntry: 24,
      reEntryUntil: '2026-06-16T00:50+02:00',
      pickFrom: '2026-07-07',
      file: 'seasons/2026/sprays/a.yaml',
      line: 9,
    })
    expect(rows[1]!.total!.value).toBeCloseTo(0.15, 12)
    expect(rows[2]!.place).toBe('outline in blocks/lower.geojson')
  })

  test('sprays outside the span or after the day of looking are left out', () => {
    const files = { ...SPRAYS, 'seasons/2026/sprays/b.yaml': BARE }
    expect(ask('full', files).data.rows).toHaveLength(5)
    expect(ask('full', files, { from: '2026-06-15' }).data.rows).toHaveLength(1)
    expect(ask('full', files, { to: '2026-06-19' }).data.rows).toHaveLength(4)
    expect(ask('full', files, { asOf: '2026-06-19' }).data.rows).toHaveLength(4)
    expect(ask('full', files, { asOf: '2026-06-20' }).data.rows).toHaveLength(5)
  })
})

describe('the form of the European Union', () => {
  test('holds every field of the annex of Implementing Regulation (EU) 2023/564', () => {
    const keys = FORM_RULES.eu.fields.map(({ key }) => key)
    const annex = [
      'typeOfUse',
      'productName',
      'authorisation',
      'date',
      'start',
      'dose',
      'place',
      'area',
      'crop',
      'cropCode',
      'stage',
    ] as const
    for (const key of annex) expect(keys).toContain(key)
    expect(keys).not.toContain('operator')
  })

  test('complete: says so, and keeps three years from the end of the year', () => {
    const { data } = ask('eu', PLACED)
    expect([data.complete, data.missing, data.keep.until]).toEqual([true, [], '2029-12-31'])
  })

  test('names the parcel and the authorisation number where they are not written', () => {
    const files = {
      ...SPRAYS,
      'products/sulphur.yaml': SITE['products/sulphur.yaml']!.replace('number: T-1, ', ''),
    }
    const result = ask('eu', files)
    expect(lacking(result)).toEqual(['authorisation', 'place'])
    expect(result.data.missing.map(({ write }) => write).join()).toContain('blocks/upper.yaml')
    expect(result.data.complete).toBe(false)
  })

  test('start time only where the product is bound to hours, stage only where the use is bound to stages', () => {
    const bound = {
      ...PLACED,
      'seasons/2026/sprays/a.yaml': BARE,
      'products/sulphur.yaml': `${SITE['products/sulphur.yaml']!.replace('interval: 7-14 d }', 'interval: 7-14 d, stages: 13-81 }')}hours: after bee flight\n`,
    }
    expect(lacking(ask('eu', bound))).toEqual(['start', 'stage'])
    expect(lacking(ask('eu', { ...PLACED, 'seasons/2026/sprays/a.yaml': BARE }))).toEqual([])
  })
})

test('the form of the United Kingdom asks for reason, times, water, wind and operator', () => {
  expect(lacking(ask('uk', { 'seasons/2026/sprays/a.yaml': BARE }))).toEqual([
    'start', 'end', 'reason', 'waterPerHa', 'operator', 'wind', 'windFrom',
  ]) // biome-ignore format: a list of fields reads better in few lines
  expect(ask('uk', SPRAYS).data.complete).toBe(true)
})

describe('the form of the United States', () => {
  test('asks for certificate, place, times and re-entry, and keeps two years', () => {
    const result = ask('us', { 'seasons/2026/sprays/a.yaml': BARE })
    expect(lacking(result)).toEqual(['start', 'end', 'place', 'operator', 'certificate'])
    expect(result.data.keep).toMatchObject({ years: 2, until: '2028-12-31' })
    expect(result.data.fields.find(({ key }) => key === 'authorisation')!.title).toBe(
      'EPA registration number',
    )
  })

  test.each([
    ['3.9 %', false],
    ['4.1 %', true],
  ])(
    'a spot of %s of a hectare around a tenth of an acre: size and certificate asked for, %s',
    (share, asked) => {
      const block = SITE['blocks/lower.yaml']!.replace('missing', '#').concat('area: 1 ha\n')
      const spot = BARE.replace('upper', 'lower').concat(`share: ${share}\nmethod: spot\ntime: 08:00-08:20\n`)
      const result = ask('us', { 'blocks/lower.yaml': block, 'seasons/2026/sprays/a.yaml': spot })
      expect(lacking(result).includes('certificate')).toBe(asked)
    },
  )

  test('re-entry of a mix is unknown as long as one product gives none', () => {
    const files = {
      ...SPRAYS,
      'products/copper.yaml': SITE['products/copper.yaml']!.replace('re_entry: 24 h\n', ''),
    }
    expect(lacking(ask('us', files))).toContain('reEntry')
    expect(ask('us', files).data.rows[0]!.reEntryUntil).toBeNull()
  })
})

describe('each form', () => {
  const sets = { complete: PLACED, bare: { 'seasons/2026/sprays/a.yaml': BARE }, empty: {} }
  test.each(
    FORMS.flatMap((form) => Object.entries(sets).map(([name, files]) => [form, name, files] as const)),
  )('%s, %s: the JSON is valid by the schema of the project', (form, _, files) => {
    const ok = valid(JSON.parse(JSON.stringify(ask(form, files))))
    expect(valid.errors ?? []).toEqual([])
    expect(ok).toBe(true)
  })

  test('the schema refuses a field that is neither there nor named as missing', () => {
    const report = JSON.parse(JSON.stringify(ask('eu', PLACED)))
    report.data.rows[0].authorisation = null
    expect(valid(report)).toBe(false)
    report.data.rows[0].authorisation = 'T-1'
    report.data.rows[0].cropCode = 'VITIS'
    expect(valid(report)).toBe(false)
  })

  test.each(FORMS)('%s prints the state of the law, its sources and the authority', (form) => {
    const text = renderDiary(ask(form, PLACED), { columns: 80, units: 'metric', paint: PLAIN })
    expect(text).toContain('Based on the law as of Nov 2025')
    expect(text).toContain('Sources:')
    expect(text.replaceAll('\n', ' ')).toContain(FORM_RULES[form].authority)
    expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80)
  })

  test.each(FORMS)(
    '%s as CSV: numbers are numbers, what is missing is named, formulas are defused',
    (form) => {
      const files = { ...PLACED, 'seasons/2026/sprays/a.yaml': SPRAY.replace('R.', '"=HYPERLINK(1)"') }
      const rows = parse(diaryCsv(ask(form, files), 'metric'), {
        columns: true,
        record_delimiter: '\r\n',
      }) as Record<string, string>[]
      expect(rows).toHaveLength(4)
      expect(rows[0]).toMatchObject({ date: '2026-06-14', product: 'Test sulphur', lacking: '' })
      if (form !== 'eu') expect(rows[0]!.operator).toBe("'=HYPERLINK(1)")
      if (form === 'eu')
        expect(rows[0]).toMatchObject({
          dose: '3',
          dose_unit: 'kg/ha',
          treated_ha: '0.1',
          crop_eppo: 'VITVI',
        })
    },
  )
})

test('a dose that cannot be worked out is named with its reason', () => {
  const area = SITE['blocks/upper.yaml']!.replace('rows: 20\nrow_length: 100 m\n', 'area: 0.4 ha\n')
  const result = ask('eu', { ...PLACED, 'blocks/upper.yaml': `${area}location: x\n` })
  expect(lacking(result)).toEqual(['dose', 'area'])
  expect(result.data.rows[0]!.missing[0]!.write).toContain('number of rows')
})
