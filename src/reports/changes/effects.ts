import type { Finding } from '../../ledger/finding.ts'
import type { Ledger } from '../../ledger/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import { applicationsOf } from '../../rules/facts/applications.ts'
import { copperSum } from '../../rules/facts/copper.ts'
import { frequencyOf } from '../../rules/facts/frequency.ts'
import { legalFrom, spraysOf } from '../../rules/facts/legal-from.ts'
import { judge } from '../../rules/index.ts'
import { ready } from '../ready.ts'
import type { ReportFinding } from '../report.ts'

/** A figure that came out differently; null where it can't be had. */
export interface FigureChange {
  season: number
  block: string
  figure: 'sprays' | 'copper' | 'treatmentFrequency' | 'legalFrom' | 'picked' | 'verdict'
  unit: string
  from: number | string | null
  to: number | string | null
}

export interface Effects {
  figures: FigureChange[]
  findings: { appeared: ReportFinding[]; gone: ReportFinding[] }
}

type Figures = Map<string, Omit<FigureChange, 'from' | 'to'> & { value: FigureChange['from'] }>

/** What differs between the figures and the findings of two states of the book, both as on one day. */
export function effectsOf(
  before: Ledger,
  after: Ledger,
  on: { asOf: IsoDate; seasons: readonly number[]; verdictsOf: number },
): Effects {
  const [old, now] = [figuresOf(before, on), figuresOf(after, on)]
  const figures = [...new Set([...old.keys(), ...now.keys()])].flatMap((key) => {
    const { value: _, ...about } = (now.get(key) ?? old.get(key))!
    const [from, to] = [old.get(key)?.value ?? null, now.get(key)?.value ?? null]
    return same(from, to) ? [] : [{ ...about, from, to }]
  })
  const seasons = new Set([...before.seasons, ...after.seasons])
  const all = (ledger: Ledger) => [...ledger.findings, ...judge({ ledger, asOf: on.asOf, seasons })]
  const [oldFindings, newFindings] = [all(before), all(after)]
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
): Figures {
  const figures: Figures = new Map()
  const applications = applicationsOf(ledger).filter(({ spray }) => spray.date <= asOf)
  for (const season of seasons) {
    for (const block of ledger.blocks.values()) {
      const sprays = spraysOf(ledger, { block: block.id, season, asOf })
      const own = applications.filter((one) => one.block.id === block.id && one.spray.season === season)
      const picks = ledger.picks.filter(
        (pick) => pick.block === block.id && pick.season === season && pick.date <= asOf,
      )
      const put = (figure: FigureChange['figure'], unit: string, value: FigureChange['from']) =>
        figures.set(`${season} ${block.id} ${figure}`, { season, block: block.id, figure, unit, value })
      put('sprays', '', sprays.length)
      put('copper', 'kg/ha', copperSum(own))
      put('treatmentFrequency', '', frequencyOf(own).index)
      put('legalFrom', '', legalFrom(ledger, sprays).date)
      put(
        'picked',
        'kg',
        picks.reduce((sum, { weight }) => sum + weight, 0),
      )
    }
  }
  if (!ledger.seasons.includes(verdictsOf)) return figures
  const { data } = ready({ ledger, season: verdictsOf, asOf, blocks: [...ledger.blocks.values()] })
  for (const { block, verdict } of data.blocks) {
    const about = { season: verdictsOf, block, figure: 'verdict', unit: '' } as const
    figures.set(`${verdictsOf} ${block} verdict`, { ...about, value: verdict })
  }
  return figures
}

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
  `${name} ${level} ${message.replaceAll(/[\w./-]+\.(?:yaml|csv):\d+/g, 'PLACE').replaceAll(/\bline \d+/g, 'line')}`
