import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type KeptFinding, KeptFindings } from '../../src/ledger/cache/kept-findings.ts'
import { filesOnDisk } from '../../src/ledger/read/files.ts'
import { openLedger } from '../../src/ledger/read/open.ts'
import { SEASON_KINDS, STANDING_KINDS } from '../../src/records/kinds.ts'
import { judge, RULES } from '../../src/rules/index.ts'
import { Recall } from '../../src/rules/recall.ts'
import { ledgerCopy } from '../commands/run.ts'
import { put, smallBook } from '../faults/book.ts'
import { mutationsOf } from '../faults/mutate.ts'
import { times } from '../faults/size.ts'

const AS_OF = '2026-09-14'

/** An example of two seasons, which some findings look across. */
const root = ledgerCopy()
rmSync(join(root, 'seasons/2024'), { recursive: true })

const open = (place: string, findings?: Pick<KeptFindings, 'of' | 'keep'>) =>
  openLedger(place, { seasons: 'all' }, { ...filesOnDisk(place), ...(findings ? { findings } : {}) })

interface On {
  asOf: string
  seasons: ReadonlySet<number>
}
const whole: On = { asOf: AS_OF, seasons: new Set([2025, 2026]) }

describe('what rules found in an earlier run', () => {
  const folder = mkdtempSync(join(tmpdir(), 'rowbook-recall-'))

  /** What is found with all that earlier calls kept, and how many rules were run for it. */
  function again(on: On = whole) {
    const kept = new KeptFindings(folder, 'test', root)
    let ran = 0
    const keep = (rule: string, found: KeptFinding) => {
      ran += 1
      kept.keep(rule, found)
    }
    const findings = judge({ ledger: open(root, { of: (rule) => kept.of(rule), keep }), ...on })
    kept.save()
    return { findings, ran }
  }
  const anew = (on: On = whole) => judge({ ledger: open(root), ...on })

  test('is said again of a book that is as it was, and no rule is run', () => {
    // One rule looks at the outlines of blocks, which are no records, and so is always run.
    expect(again()).toEqual({ findings: anew(), ran: RULES.length - 1 })
    expect(again()).toEqual({ findings: anew(), ran: 0 })
  })

  test('a change runs the rules that look at it, and no others', () => {
    const samples = 'seasons/2026/samples'
    const file = `${samples}/${readdirSync(join(root, samples))[0]}`
    put(root, file, `${readFileSync(join(root, file), 'utf8')}# looked through\n`)
    const { ran } = again()
    expect(ran).toBeGreaterThan(0)
    expect(ran).toBeLessThan(RULES.length / 4)
  })

  test('another day and other seasons are judged anew', () => {
    for (const on of [
      { ...whole, asOf: '2026-06-20' },
      { ...whole, seasons: new Set([2025]) },
      { ...whole, seasons: new Set([2026]) },
      whole,
    ])
      expect(again(on).findings).toEqual(anew(on))
  })

  const files = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter((file) =>
    /\.yaml$/.test(file),
  )
  const all = files
    .sort()
    .flatMap((file) => mutationsOf(file, readFileSync(join(root, file), 'utf8')))
    .filter(({ illegal }) => !illegal)

  test('is never said of a book that is another: changes of a field, each on top of the last or taken back', () => {
    const some = fc.sample(fc.constantFrom(...all), { numRuns: times(24, 1000), seed: 9 })
    for (const [index, { file, text }] of some.entries()) {
      const before = readFileSync(join(root, file), 'utf8')
      put(root, file, text)
      expect(again().findings, `${file} ${index}`).toEqual(anew())
      if (index % 3 > 0) put(root, file, before)
    }
  }, 600_000)
})

test('a rule is said to look at the same whether it is run alone or after all others, which keep what they work out', () => {
  const looked = (place: string, rules: typeof RULES) => {
    const found = new Map<string, readonly string[]>()
    const ledger = open(place, { of: () => [], keep: (rule, kept) => found.set(rule, kept.looked) })
    const recall = new Recall({ ledger, ...whole })
    for (const rule of rules) recall.findings(rule)
    return found
  }
  for (const place of [root, smallBook()]) {
    const together = looked(place, RULES)
    expect(together.size).toBeGreaterThan(RULES.length - 2)
    for (const rule of RULES)
      expect(together.get(rule.name)?.toSorted()).toEqual(looked(place, [rule]).get(rule.name)?.toSorted())
  }
})

test('findings are kept of no book with records that stand in no file', () => {
  const kept: string[] = []
  const ledger = open(root, { of: () => [], keep: (rule) => kept.push(rule) })
  const loose = { ...ledger.sprays[0]!, source: { ...ledger.sprays[0]!.source, at: { file: 'x', text: '' } } }
  judge({ ledger: { ...ledger, sprays: [loose] }, ...whole })
  expect(kept.length).toBeLessThan(RULES.length / 2)
})

test('every part of a book that records stand in is known to it', () => {
  const ledger = open(root)
  const seen = new Set<string>()
  const findings = {
    of: () => [],
    keep(_: string, { looked }: KeptFinding) {
      for (const part of looked) seen.add(part)
    },
  }
  judge({ ledger: { ...ledger, reader: { ...ledger.reader, findings } }, ...whole })
  for (const kind of [...STANDING_KINDS, ...SEASON_KINDS]) expect([...seen]).toContain(kind)
})
