import { applications, groupedBy, judged } from '../../facts/judged.ts'
import { gatesOf, type Verdict, verdictOf } from '../../facts/picking/verdict.ts'
import type { ReportFinding, ReportInput } from '../../facts/report.ts'
import { copperSum } from '../../facts/spraying/copper.ts'
import { legalFrom, spraysOf } from '../../facts/spraying/legal-from.ts'
import { frequencyOf } from '../../facts/spraying/sum.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { isBroken } from '../../ledger/read/open.ts'
import type { IsoDate } from '../../records/date.ts'
import { judge } from '../../rules/index.ts'
import { errorsOf } from '../../rules/season-errors.ts'

/** A figure that differs; null where it can't be calculated. */
export interface FigureChange {
  season: number
  block: string
  /** The block's name. */
  name: string
  figure: 'sprays' | 'copper' | 'treatmentFrequency' | 'legalFrom' | 'picked' | 'verdict'
  unit: string
  from: number | string | null
  to: number | string | null
}

interface Effects {
  figures: FigureChange[]
  findings: { appeared: ReportFinding[]; gone: ReportFinding[] }
}

const UNITS: Partial<Record<FigureChange['figure'], string>> = { copper: 'kg/ha', picked: 'kg' }

type Figures = Map<string, Omit<FigureChange, 'from' | 'to'> & { value: FigureChange['from'] }>

/** Differences in figures and findings between two states of the ledger, both as of one day. */
export function effectsOf(
  before: Ledger,
  after: Ledger,
  on: { asOf: IsoDate; seasons: readonly number[]; verdictsOf: number },
): Effects {
  const seasons = new Set([...before.seasons, ...after.seasons])
  const foundIn = (ledger: Ledger) => judge({ ledger, asOf: on.asOf, seasons })
  const [oldFound, newFound] = [foundIn(before), foundIn(after)]
  const [old, now] = [figuresOf(before, on, oldFound), figuresOf(after, on, newFound)]
  const figures = [...new Set([...old.keys(), ...now.keys()])].flatMap((key) => {
    const { value: _, ...about } = (now.get(key) ?? old.get(key))!
    const [from, to] = [old.get(key)?.value ?? null, now.get(key)?.value ?? null]
    return same(from, to) ? [] : [{ ...about, from, to }]
  })
  const renamed = renames(before, after)
  const oldFindings = [...before.findings, ...oldFound].map((one) => inNewNames(one, renamed))
  const newFindings = [...after.findings, ...newFound]
  return {
    figures: figures.sort((a, b) => a.season - b.season),
    findings: { appeared: without(newFindings, oldFindings), gone: without(oldFindings, newFindings) },
  }
}

function same(a: FigureChange['from'], b: FigureChange['from']): boolean {
  if (typeof a !== 'number' || typeof b !== 'number') return a === b
  return Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a), Math.abs(b))
}

function figuresOf(
  ledger: Ledger,
  { asOf, seasons, verdictsOf }: { asOf: IsoDate; seasons: readonly number[]; verdictsOf: number },
  findings: readonly Finding[],
): Figures {
  const figures: Figures = new Map()
  const judgedLedger = { ledger, asOf, seasons: new Set(seasons) }
  const own = groupedBy(applications(judgedLedger), ({ block, spray }) => `${spray.season} ${block.id}`)
  const picks = groupedBy(judged(judgedLedger, 'picks'), ({ block, season }) => `${season} ${block}`)
  const put = (
    season: number,
    block: string,
    values: Partial<Record<FigureChange['figure'], FigureChange['from']>>,
  ) => {
    for (const [name, value] of Object.entries(values)) {
      const figure = name as FigureChange['figure']
      const called = ledger.blocks.get(block)?.name ?? block
      const unit = UNITS[figure] ?? ''
      figures.set(`${season} ${block} ${name}`, { season, block, name: called, figure, unit, value })
    }
  }
  for (const season of seasons) {
    for (const { id: block } of ledger.blocks.values()) {
      const mine = own.get(`${season} ${block}`) ?? []
      const sprays = spraysOf(ledger, { block, season, asOf })
      put(season, block, {
        sprays: sprays.length,
        copper: copperSum(mine),
        treatmentFrequency: frequencyOf(mine).index,
        legalFrom: legalFrom(ledger, sprays).date,
        picked: (picks.get(`${season} ${block}`) ?? []).reduce((sum, { weight }) => sum + weight, 0),
      })
    }
  }
  if (!ledger.seasons.includes(verdictsOf)) return figures
  const input = { ledger, season: verdictsOf, asOf, blocks: [...ledger.blocks.values()] }
  const isAll = ledger.seasons.length === 1
  const errors = isAll ? findings.filter(({ level }) => level === 'error') : errorsOf(input)
  for (const [block, verdict] of verdicts(input, errors)) put(verdictsOf, block, { verdict })
  return figures
}

/** Blocks, products and sprayers that have another name now: messages hold names, and a new name is no new finding. */
function renames(before: Ledger, after: Ledger): [old: string, now: string][] {
  return (['blocks', 'products', 'sprayers'] as const).flatMap((kind) =>
    [...after[kind].values()].flatMap(({ id, name }): [string, string][] => {
      const old = before[kind].get(id)?.name
      return old === undefined || old === name ? [] : [[old, name]]
    }),
  )
}

const inNewNames = (finding: Finding, renamed: readonly [old: string, now: string][]): Finding => ({
  ...finding,
  message: renamed.reduce((text, [old, now]) => text.replaceAll(old, () => now), finding.message),
})

/** Findings of one state that the other lacks; line numbers in them may shift without a change. */
function without(findings: readonly Finding[], others: readonly Finding[]): ReportFinding[] {
  const counts = new Map<string, number>()
  for (const other of others) counts.set(keyOf(other), (counts.get(keyOf(other)) ?? 0) + 1)
  return findings.flatMap((finding) => {
    const left = counts.get(keyOf(finding)) ?? 0
    if (left > 0) {
      counts.set(keyOf(finding), left - 1)
      return []
    }
    const { length: _, ...bare } = finding
    return [bare]
  })
}

const keyOf = ({ name, level, message }: Finding) =>
  `${name} ${level} ${message.replaceAll(/(?<![\w./-])[\w./-]+\.(?:yaml|csv):\d+/g, 'PLACE').replaceAll(/\bline \d+/g, 'line')}`
/** The verdict on each block, given the errors that the rules find in the season. */
function verdicts({ blocks, ...on }: ReportInput, errors: readonly Finding[]): Map<string, Verdict> {
  if (isBroken(on.ledger)) return new Map(blocks.map(({ id }) => [id, 'stop']))
  return new Map(blocks.map((block) => [block.id, verdictOf(gatesOf({ ...on, block }, { errors }).gates)]))
}
