import { createHash } from 'node:crypto'
import { inLedgerUnits } from '../../facts/ledger-units.ts'
import type { Names } from '../../facts/names.ts'
import type { Report, ReportFinding } from '../../facts/report.ts'
import { asSentences } from '../../facts/sentences.ts'
import { yearOf } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { daysInWords } from '../days-in-words.ts'
import type { Style } from '../style.ts'
import { counted } from '../text.ts'
import { LOOK } from './look.ts'
import { type Content, html, Markup } from './markup.ts'
import { typeset } from './typeset.ts'

/** What a page needs besides its report. */
export interface PageInput {
  names: Names
  units: Style['units']
  /** The answer in a sentence or two, as printed. */
  answer: string
}

/** The body of a page, between its heading and its footer. */
export interface Page {
  title: string
  /** The answer under its heading, where it differs from the printed one. */
  answer?: string
  /** The first part, kept unfolded on a season's page. */
  lead?: Content
  /** One block of headings, charts and tables. */
  content: Content
  /** The style of the page, where it isn't the one of all pages. */
  look?: string
}

interface PageFrame extends Page {
  names: Names
  units: Style['units']
  answer: string
  asOf: string
  season: number | null
  findings: readonly ReportFinding[]
  cautions: readonly string[]
}

/** Identifies a page written by rowbook, which may be replaced. */
export const PAGE_MARK = '<meta name="generator" content="rowbook">'

const policyFor = (look: string) =>
  `default-src 'none'; style-src 'sha256-${createHash('sha256').update(look).digest('base64')}'; img-src data:; base-uri 'none'; form-action 'none'`

/** One self-contained page: no script, nothing fetched, styles inside. */
export function framePage(page: PageFrame): string {
  const { names, title, asOf, season, look = LOOK } = page
  const when = `${spokenDate(asOf)} ${yearOf(asOf)}`
  const about = [names.site, season === null ? null : `season ${season}`, `as on ${when}`].filter(Boolean)
  return typeset(
    html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policyFor(look)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
${new Markup(PAGE_MARK)}
<link rel="icon" href="data:,">
<title>${title}, ${about.join(', ')}</title>
<style>${new Markup(look)}</style>
</head>
<body>
<main>
<header>
<h1>${title}</h1>
<p class="about">${about.join(', ')}</p>
${answerIn(page.answer)}${page.cautions.length > 0 && html`<p class="caution">${page.cautions.join(' ')}</p>\n`}</header>
${page.lead}${page.content}${findingList(page)}<footer>
<p>Made by rowbook from the vineyard's records.</p>
</footer>
</main>
</body>
</html>
`.text,
  )
}

/** Longest answer shown entirely in large type. */
const LONGEST_ANSWER = 90

/** The answer; a long one has its first part large and the rest below as text. */
function answerIn(answer: string): Content {
  if (answer === '') return null
  const [, first, rest] =
    (answer.length > LONGEST_ANSWER && /^(.+?(?<!\b[A-Z][a-z]?))[.;] (.+)$/s.exec(answer)) || []
  if (!first || !rest) return html`<p class="answer">${answer}</p>\n`
  return html`<p class="answer">${first}.</p>\n<p>${rest[0]!.toUpperCase()}${rest.slice(1)}</p>\n`
}

/** What is only planned, like a mix, is in no file yet. */
const isFile = (name: string) => /\.\w+$/.test(name)

function findingList({ findings, units, asOf }: PageFrame): Content {
  if (findings.length === 0) return null
  const said = (finding: ReportFinding) => daysInWords(finding.message, String(yearOf(asOf)))
  const items = findings.map((finding) => {
    const { level, file, line, help } = finding
    return html`<li>${level}: ${inLedgerUnits(said(finding), units)}. <span class="quiet">${inLedgerUnits(asSentences([help]), units)}${isFile(file) && ` (${file}:${line})`}</span></li>\n`
  })
  return html`<section>
<h2>${counted(findings.length, 'finding')}</h2>
<ul class="plain">
${items}</ul>
</section>
`
}

/** Turns the data of a report into the body of a page. */
export type PageOf<Data> = (report: Report<Data>, input: PageInput) => Page
