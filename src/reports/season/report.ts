import { makeReport, type Report, type ReportFinding, type ReportInput } from '../../facts/report.ts'

/** The data of every report of a season as it would be printed on its own, each under its name. */
export type SeasonData = Record<string, unknown>

/** The whole season in one report, of the reports that it is made of. */
export function season(input: ReportInput, parts: readonly Report<unknown>[]): Report<SeasonData> {
  const data = Object.fromEntries(parts.map((part) => [part.report, part.data]))
  return {
    ...makeReport('season', input, { data }),
    findings: unique(parts.flatMap(({ findings }) => findings)),
    cautions: [...new Set(parts.flatMap(({ cautions }) => cautions))],
  }
}

function unique(findings: readonly ReportFinding[]): ReportFinding[] {
  return [...new Map(findings.map((finding) => [JSON.stringify(finding), finding])).values()]
}
