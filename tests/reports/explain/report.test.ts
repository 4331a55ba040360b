import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { everything, sourcesOf } from '../../../src/reports/explain/everything.ts'
import { FIGURES } from '../../../src/reports/explain/figures.ts'
import { explain } from '../../../src/reports/explain/report.ts'
import { RULES } from '../../../src/rules/index.ts'
import { faultsOf } from '../../published/rows.ts'

/** The figures of the JSON contract by report, as the design lists them; what only names a thing is left out. */
const CONTRACT: Record<string, string> = {
  check: 'files records records.weatherRows errors warnings hints',
  mix: 'area water waterPerHa tank fullTanks lastTank products.rate products.concentration products.total products.perFullTank products.perLastTank products.range products.inRange order',
  calibrate: 'flow speed rowSpacing volumePerHa nozzles.flow nozzles.deviation nozzles.ok',
  totals:
    'blocks.area blocks.sprays blocks.products.applications blocks.products.total blocks.products.perHa blocks.actives.group blocks.actives.perHa blocks.copper.season blocks.copper.rolling blocks.copper.years blocks.copper.limitSeason blocks.copper.limitRolling blocks.treatmentFrequency',
  sugar:
    'brix specificGravity oechsle baume sugarPerLitre potentialAlcohol.low potentialAlcohol.likely potentialAlcohol.high roughAlcohol brixAcidRatio brixPhSquared',
  ripeness:
    'samples.berries samples.brix samples.brixLow samples.brixHigh samples.sugarPerLitre samples.potentialAlcohol samples.ph samples.ta samples.enough samples.needed trends.perDay trends.perDayLow trends.perDayHigh trends.n',
  window:
    'blocks.target blocks.chance.date blocks.chance.share blocks.earliest blocks.likely blocks.latest blocks.open blocks.uses blocks.next_sample.date blocks.next_sample.berries blocks.next_sample.narrows_days blocks.legalFrom blocks.conflicts',
  ready:
    'blocks.verdict blocks.gates.state blocks.gates.detail blocks.gates.until blocks.legalFrom blocks.window',
  pressure:
    'days.powdery.index days.powdery.points days.powdery.hoursInRange days.downy.primary days.downy.why days.botrytis.index days.botrytis.risk days.blackRot.infection',
  cover:
    'blocks.days.covered blocks.days.by blocks.days.daysLeft blocks.days.rainSince blocks.days.pressure blocks.gaps.from blocks.gaps.to blocks.gaps.worstIndex',
  scouting:
    'walks.looked walks.found walks.incidence walks.low walks.high walks.severity walks.severityAffected trends.from trends.to trends.change trends.beyondChance',
  crop: 'blocks.vines blocks.bunchesPerVine blocks.bunchWeight blocks.growthFactor blocks.estimate blocks.low blocks.high',
  harvest: 'blocks.crop blocks.crates blocks.personHours blocks.people blocks.hours blocks.juice totals',
  heat: 'method base days.min days.max days.mean days.degreeDays sum winkler.value winkler.region huglin.value huglin.class',
  note: 'file entry',
}

/** Texts that stand where a finding's name may stand, and are none. */
const NO_FINDINGS = new Set(['scalar', 'metric', 'products'])

const RAISED = [
  /\bname: '([a-z0-9-]+)',?\s*(?:level|message|\n)/g,
  /\bname: (?:[^,\n]*\? )'([a-z0-9-]+)' : '([a-z0-9-]+)'/g,
  /\b(?:refuse|fault)\(\s*'([a-z0-9-]+)'/g,
  /\bthis\.find\(\s*[^']*?'([a-z0-9-]+)'/g,
  /\breturn \[\s*'([a-z0-9-]+)', /g,
]

function raisedIn(folder: string): Set<string> {
  const names = new Set<string>()
  for (const entry of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
    if (!entry.endsWith('.ts')) continue
    const text = readFileSync(join(folder, entry), 'utf8')
    for (const pattern of RAISED)
      for (const match of text.matchAll(pattern))
        for (const name of match.slice(1)) if (name && !NO_FINDINGS.has(name)) names.add(name)
  }
  return names
}

describe('the registry of figures', () => {
  it('explains every figure of the JSON contract', () => {
    const known = new Set(FIGURES.flatMap((figure) => figure.keys))
    const wanted = Object.entries(CONTRACT).flatMap(([report, keys]) =>
      keys.split(' ').map((key) => `${report}.${key}`),
    )
    expect(wanted.filter((key) => !known.has(key))).toEqual([])
  })

  it('names each thing once, in lower-case words, with what it is and where it comes from', () => {
    const all = everything()
    expect(new Set(all.map((one) => one.name)).size).toBe(all.length)
    for (const one of all) {
      expect(one.name).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/)
      expect(one.what.length, one.name).toBeGreaterThan(15)
      expect(one.source.length, one.name).toBeGreaterThan(2)
    }
  })

  it('gives a source that can be looked up, with its year and the mark of its weakest part', () => {
    expect(everything().flatMap(({ name, source, basis }) => faultsOf({ id: name, source, basis }))).toEqual(
      [],
    )
  })

  it('marks what was not read in the source itself as what it is', () => {
    const marks = Object.fromEntries(everything().map(({ name, basis }) => [name, basis]))
    expect(marks).toMatchObject({
      'cool-nights': 'memory',
      'season-mean': 'memory',
      'degree-days': 'second-hand',
      winkler: 'second-hand',
      huglin: 'second-hand',
      'botrytis-risk': 'memory',
      'downy-oospores': 'memory',
      'mixing-order': 'derived',
      'rough-alcohol': 'common practice',
    })
  })

  it('explains every finding that is raised anywhere', () => {
    const known = new Set(everything().map((one) => one.name))
    const raised = new Set(
      ['src/ledger', 'src/records', 'src/rules'].flatMap((folder) => [...raisedIn(folder)]),
    )
    expect(raised.size).toBeGreaterThan(50)
    for (const noun of ['block', 'variety', 'product', 'sprayer']) raised.add(`unknown-${noun}`)
    expect([...raised].filter((name) => !known.has(name))).toEqual([])
  })

  it('takes what it says of rules from the rules', () => {
    for (const rule of RULES) expect(explain(rule.name).found?.[0]?.what).toBe(rule.what)
  })
})

describe('explain', () => {
  it('finds by name, by key of the contract and by its last words, whatever the spelling', () => {
    expect(explain('copper').found?.map((one) => one.name)).toEqual(['copper'])
    expect(explain('mix.lastTank').found?.map((one) => one.name)).toEqual(['tank-fills'])
    expect(explain('last-tank').found?.map((one) => one.name)).toEqual(['tank-fills'])
    expect(explain('legalFrom').found?.map((one) => one.name)).toEqual(['earliest-harvest'])
  })

  it('proposes the nearest name, and none where nothing is near', () => {
    expect(explain('tab-indnt').near).toContain('`tab-indent`')
    expect(explain('xyzzyxyzzy').near).toBeNull()
  })
})

describe('the footnotes of a report', () => {
  it('are those of its own figures, and say how each source is known', () => {
    const notes = sourcesOf('sugar')
    expect(notes.some((note) => note.startsWith('potential-alcohol: OIV-OENO 466-2012'))).toBe(true)
    expect(notes.some((note) => note.startsWith('copper'))).toBe(false)
    expect(sourcesOf('nothing')).toEqual([])
    for (const note of notes)
      expect(note).toMatch(
        /\b(?:source read|second-hand|worked out here from it|from memory|common practice, no source|our own rule or sum)\b/,
      )
  })
})
