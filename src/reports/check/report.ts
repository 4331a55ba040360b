import { makeReport, type Report, type ReportInput } from '../../facts/report.ts'
import { weatherInShort } from '../../facts/weather/in-short.ts'
import { byPlace, type Finding } from '../../ledger/read/finding.ts'
import type { IsoDate } from '../../records/date.ts'
import { SEASON_KINDS, type SeasonKind, STANDING_KINDS, type StandingKind } from '../../records/kinds.ts'
import { judge } from '../../rules/index.ts'

export interface CheckData {
  files: number
  records: Record<StandingKind | SeasonKind, number> & { weatherRows: number }
  errors: number
  warnings: number
  hints: number
}

/**
 * Everything wrong with the ledger: how it is written, and what the rules find. Rules are run over the
 * valid records even where others are broken, so that one run reports everything.
 * @param wanted which findings are reported; the whole ledger is judged.
 */
export function check(
  input: Omit<ReportInput, 'season' | 'blocks'>,
  seasons: ReadonlySet<number>,
  wanted: (finding: Finding) => boolean = () => true,
): Report<CheckData> & { all: Finding[] } {
  const { ledger, asOf } = input
  const weather = [...seasons]
    .filter((season) => ledger.stations.has(season))
    .map((season) => weatherInShort(ledger, season))
  const ofWeather = weather.flatMap((one) => one.findings).sort(byPlace)
  const found = [...ledger.findings, ...judge({ ledger, asOf, seasons }), ...ofWeather].filter(wanted)
  const findings = laterAsOne(found, asOf)
  const count = (level: Finding['level']) => findings.filter((finding) => finding.level === level).length
  const records = Object.fromEntries([
    ...STANDING_KINDS.map((kind) => [kind, ledger[kind].size]),
    ...SEASON_KINDS.map((kind) => [kind, ledger[kind].length]),
    ['weatherRows', weather.reduce((sum, { rows }) => sum + rows, 0)],
  ]) as CheckData['records']
  const data = {
    files: ledger.files + weather.length,
    records,
    errors: count('error'),
    warnings: count('warning'),
    hints: count('hint'),
  }
  const season = seasons.size === 1 ? [...seasons][0]! : null
  return { ...makeReport('check', { asOf, season }, { data, findings }), all: findings }
}

/** More than these were hardly mistyped: the report is as of an earlier day. */
const FEW = 3

/** Many entries dated after the day of the report, said once and with their count. */
function laterAsOne(findings: readonly Finding[], asOf: IsoDate): Finding[] {
  const later = findings.filter(({ name }) => name === 'future-date')
  if (later.length <= FEW) return [...findings]
  const one = {
    ...later[0]!,
    message: `${later.length} dates are after ${asOf}, the day of this report; this is one of them`,
    help: 'reports leave such entries out until their day; correct a date that is mistyped',
  }
  return findings.flatMap((finding) =>
    finding.name !== 'future-date' ? finding : finding === later[0] ? one : [],
  )
}
