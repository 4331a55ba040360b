import { describe, expect, it } from 'vitest'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { stemOf } from '../../../src/ledger/write/entry-file.ts'
import type { SeasonKind } from '../../../src/records/kinds.ts'
import { PLAIN } from '../../../src/render/style.ts'
import { makeDraft } from '../../../src/reports/note/draft.ts'
import { missingOf } from '../../../src/reports/note/missing.ts'
import { note } from '../../../src/reports/note/report.ts'
import { renderNote } from '../../../src/reports/note/terminal.ts'
import { makeLedger } from '../../ledger/make.ts'

const open = (files: Record<string, string | null> = {}) => openLedger(makeLedger(files), { seasons: 'all' })
const ONE_BLOCK = { 'blocks/lower.yaml': null }

function draft(
  kind: SeasonKind,
  typed: Record<string, string[]>,
  files = {},
  blocks: string[] = [],
  like?: string,
) {
  return makeDraft({
    ledger: open(files),
    kind,
    asOf: '2026-06-24',
    blocks,
    typed: new Map(Object.entries(typed)),
    like,
  })
}

function judged(text: Record<string, string[]>, files: Record<string, string | null> = {}) {
  const ledger = open(files)
  const { entry } = makeDraft({
    ledger,
    kind: 'sprays',
    asOf: '2026-06-24',
    blocks: ['upper'],
    typed: new Map(Object.entries(text)),
  })
  return note({ ledger, kind: 'sprays', season: 2026, asOf: '2026-06-24', entry })
}

describe('a draft', () => {
  it('is of today, of the only block and by the only sprayer, and of none where there are several', () => {
    expect(draft('sprays', {}, ONE_BLOCK).entry).toEqual({
      date: '2026-06-24',
      blocks: ['upper'],
      sprayer: 'mounted',
    })
    expect(draft('samples', {}).entry).toEqual({ date: '2026-06-24' })
    expect(draft('sprays', {}, { 'sprayers/two.yaml': 'name: Two\ntank: 15 L\n' }).entry).toEqual({
      date: '2026-06-24',
    })
  })

  it('has its keys in the order of the format, whatever the order typed', () => {
    const { entry } = draft(
      'sprays',
      { note: ['x'], humidity: ['70%'], wind: ['2m/s'], product: ['sulphur=3kg/ha'], time: ['18:00'] },
      {},
      ['upper'],
    )
    expect(Object.keys(entry)).toEqual(['date', 'time', 'blocks', 'sprayer', 'products', 'weather', 'note'])
    expect(entry.weather).toEqual({ humidity: '70 %', wind: '2 m/s' })
  })

  it('reports every fault with its option', () => {
    const { faults } = draft('sprays', { wind: ['2'], date: ['x'], product: ['sulphur=3'] })
    expect(faults.map(({ option }) => option).sort()).toEqual(['date', 'product', 'wind'])
  })

  it('asks for the block where several entries of the day named are alike', () => {
    const files = {
      'seasons/2026/stages.yaml':
        '- { date: 2026-06-01, block: upper, stage: 61 }\n- { date: 2026-06-01, block: lower, stage: 60 }\n',
    }
    expect(draft('stages', {}, files, [], '2026-06-01').faults[0]?.fault.help).toContain('--block')
    expect(draft('stages', {}, files, ['lower'], '2026-06-01').entry.block).toBe('lower')
  })
})

describe('what is missing', () => {
  it('is each required field, then what one of several must give', () => {
    expect(missingOf('picks', { date: '2026-06-24' }).map(({ option }) => option)).toEqual([
      'block',
      'weight',
    ])
    expect(missingOf('crop', { date: '2026-06-24', block: 'upper', at: 'lag' })[0]).toMatchObject({
      option: null,
    })
    expect(missingOf('stages', { date: '2026-06-24', block: 'upper', stage: 65 })).toEqual([])
  })
})

describe('what follows from a spray', () => {
  const product = (change: [string, string]) => ({
    'products/sulphur.yaml':
      `name: S\nform: WG\nkind: fungicide\nactives: [ { name: sulphur } ]\nuses:\n  - { against: powdery, rate: 2-6 kg/ha, interval: 7-14 d }\n  - { against: mites, rate: 2-6 kg/ha, interval: 10-14 d, before_harvest: 35 d }\nbefore_harvest: 21 d\nre_entry: 24 h\n`.replace(
        ...change,
      ),
  })
  const same: [string, string] = ['', '']

  it('counts re-entry in hours from the end, and the pick by both readings', () => {
    const { follows } = judged(
      { time: ['18:00-19:10'], product: ['sulphur=3kg/ha'], for: ['powdery'] },
      product(same),
    ).report.data
    expect(follows).toMatchObject({
      timed: true,
      reEntry: { until: '2026-06-25T19:10+02:00', hours: 24 },
      pick: { calendar: '2026-07-15', cautious: '2026-07-16', days: 21 },
      next: [{ product: 'sulphur', date: '2026-07-01', days: 7 }],
      missing: [],
    })
  })

  it('takes the longest of the uses meant: those named, or all', () => {
    const days = (typed: Record<string, string[]>) => {
      const { follows } = judged({ product: ['sulphur=3kg/ha'], ...typed }, product(same)).report.data
      return [follows?.pick?.days, follows?.next[0]?.days]
    }
    expect(days({ for: ['powdery'] })).toEqual([21, 7])
    expect(days({ for: ['mites'] })).toEqual([35, 10])
    expect(days({})).toEqual([35, 10])
  })

  it('gives no date at all where the new entry is over the label, by its dose or with what was sprayed before', () => {
    const overLabel = { reEntry: null, pick: null, overLabel: [{ product: 'sulphur' }] }
    const over = (rate: string, files: Record<string, string> = {}) =>
      judged({ product: [`sulphur=${rate}`], for: ['powdery'] }, { ...product(same), ...files })
    const dose = over('20kg/ha')
    expect(dose.report.data.follows).toMatchObject(overLabel)
    const shown = renderNote(dose, { columns: 1000, units: 'metric', paint: PLAIN })
    expect(shown).toMatch(/^Over the label: .*Do not pick or re-enter/m)
    expect(shown).not.toMatch(/Pick from|Keep out until|Again from/)
    const twice = over('5kg/ha', {
      'seasons/2026/sprays.yaml':
        '- { date: 2026-06-22, blocks: [upper], water: 300 L/ha, products: [ { product: sulphur, rate: 5 kg/ha, for: powdery } ] }\n',
    })
    expect(twice.report.data.follows).toMatchObject(overLabel)
    expect(over('6kg/ha').report.data.follows).toMatchObject({ overLabel: [], pick: { days: 21 } })
  })

  it('says what the label does not, and gives no date for it', () => {
    const { follows } = judged(
      { product: ['sulphur=3kg/ha'], for: ['powdery'] },
      product(['before_harvest: 21 d\nre_entry: 24 h\n', '']),
    ).report.data
    expect(follows).toMatchObject({ timed: false, reEntry: null, pick: null })
    expect(follows?.missing).toEqual([
      'the pre-harvest interval (PHI) of S',
      'the re-entry interval (REI) of S',
    ])
  })
})

describe('the name of the file', () => {
  const ledger = open()

  it('is the date and the blocks, short however many they are', () => {
    expect(stemOf({ date: '2026-06-24', block: 'upper' }, ledger)).toBe('2026-06-24-upper')
    expect(stemOf({ date: '2026-06-24', blocks: ['upper', 'lower'] }, ledger)).toBe('2026-06-24-upper-lower')
    const many = Array.from({ length: 20 }, (_, index) => `block-${index}`)
    expect(stemOf({ date: '2026-06-24', blocks: many }, ledger)).toBe('2026-06-24-20-blocks')
  })
})

describe('an entry that names a missing record', () => {
  it('is reported at its place in the file to be written', () => {
    const { all, readable } = judged({ product: ['sulpher=3kg/ha'], time: ['18:00-19:00'] })
    expect(readable).toBe(true)
    expect(all[0]).toMatchObject({
      name: 'unknown-product',
      level: 'error',
      file: 'seasons/2026/sprays/2026-06-24-upper.yaml',
      line: 7,
    })
    expect(all[0]?.help).toContain('`sulphur`')
  })
})
