import { graver } from '../../facts/danger/danger.ts'
import type { PressureDay } from '../../facts/disease/days.ts'
import { groupedBy } from '../../facts/judged.ts'
import { inLedgerUnits } from '../../facts/ledger-units.ts'
import type { Names } from '../../facts/names.ts'
import type { Report } from '../../facts/report.ts'
import { asSentences, listed, upperFirst } from '../../facts/sentences.ts'
import { byHandText } from '../../facts/weather/by-hand.ts'
import { type Disease, diseaseWord } from '../../records/disease.ts'
import { shortDate, spokenDate } from '../../records/spoken-date.ts'
import { numbers, words } from '../../render/columns.ts'
import { dangerLines } from '../../render/danger-lines.ts'
import { figure, signed } from '../../render/figure.ts'
import { gridOf, overMonths, perCharacter, strip, wordStrip } from '../../render/strip.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, sentences, underAnswer, wrap, wrapAll } from '../../render/text.ts'
import type { PressureData } from './report.ts'
import { dueLines, oosporeLine, worstLine } from './terminal-sentences.ts'

/** Days shown in the table; the strips show the whole season. */
const LAST_DAYS = 14

/** Disease pressure: the answer, the season as strips, the last days as a table, what is due, and the rules. */
export function renderPressure(
  report: Report<PressureData>,
  style: Style,
  { blocks }: Pick<Names, 'blocks'>,
): string {
  const { data } = report
  const danger = dangerLines(data.danger, blocks).map((line) => wrap(line, style.columns))
  if (data.why !== null && !data.days.some(hasValue))
    return [
      `${wrap(`Disease pressure unavailable: ${data.why}.`, style.columns)}\n`,
      ...danger.map((line) => `${line}\n`),
    ].join('\n')
  const said = (line: string) => inLedgerUnits(line, style.units)
  const hand = byHandText(data.byHand)
  const parts = sentences(
    wrap(said(answer(data)), style.columns),
    danger,
    strips(data, style),
    table(data, style).trimEnd(),
    hand && wrap(hand, style.columns),
    data.worstFortnight && wrap(said(worstLine(data.worstFortnight)), style.columns),
    wrapAll(dueLines(data.incubations, data.to).map(said), style.columns),
    wrap(said(oosporeLine(data.oospores)), style.columns),
    rules(data, style),
  )
  return underAnswer(`${parts.join('\n\n')}\n`, report.cautions, style.columns)
}

const hasValue = ({ powdery, downy, botrytis, blackRot }: PressureDay) =>
  powdery.index !== null || downy.primary !== null || botrytis.risk !== null || blackRot.infection !== null

/** Whether a disease is judged here; without a ledger all are. */
const isKnown = ({ danger }: PressureData, disease: Disease) =>
  danger.length === 0 || danger.some((one) => one.disease === disease)

/** The gravest class of each disease that something is open to: `powdery high`. */
function worstOf(all: PressureData['danger']): string[] {
  const open = groupedBy(
    all.filter(({ danger }) => danger.tissue !== null),
    ({ disease }) => disease,
  )
  return [...open].map(
    ([disease, own]) => `${diseaseWord(disease)} ${own.map(({ danger }) => danger).reduce(graver).level}`,
  )
}

function answer(data: PressureData): string {
  const { days } = data
  const last = days.at(-1)!
  const week = days.slice(-7)
  const lastPrimary = days.findLast(({ downy }) => downy.primary === true)?.date
  const bad = week.filter(({ botrytis }) => botrytis.risk === 'high' || botrytis.risk === 'moderate').length
  const unseen = week.filter(
    ({ botrytis }) => botrytis.risk === null && botrytis.why !== 'before flowering',
  ).length
  const unknownDowny = days.filter(({ downy }) => downy.primary === null).length
  const index = last.powdery.index
  const worst = worstOf(data.danger)
  const [first, ...rest] = sentences(
    listed(worst).replace(' ', ' danger '),
    index === null ? `powdery index unknown (${last.powdery.why})` : `powdery index ${index} of 100`,
    lastPrimary
      ? `the last possible downy primary infection was on ${shortDate(lastPrimary)}`
      : `no downy primary infection found${unknownDowny > 0 ? `, unknown on ${counted(unknownDowny, 'day')}` : ''}`,
    unseen === week.length
      ? `botrytis infection risk is unknown for ${lastDays(week)}`
      : `botrytis infection risk was moderate or high on ${week.length === 1 ? `${bad} of 1 day` : `${bad === 0 ? 'none' : bad} of ${lastDays(week)}`}${unseen > 0 ? `, unknown on ${unseen}` : ''}`,
    isKnown(data, 'black-rot') && rotText(week),
  )
  return `Up to ${spokenDate(last.date)}: ${first}. ${asSentences(rest)}`
}

const lastDays = ({ length }: readonly PressureDay[]) =>
  length === 1 ? 'that day' : `the last ${length} days`

/** On how many of the last days black rot could infect; days that are unknown are never counted as safe. */
function rotText(week: readonly PressureDay[]): string {
  const possible = week.filter(({ blackRot }) => blackRot.infection === true).length
  const unknown = week.filter(({ blackRot }) => blackRot.infection === null).length
  if (unknown === week.length) return `black rot infection is unknown for ${lastDays(week)}`
  return `black rot infection was possible on ${possible === 0 ? 'none' : possible}${unknown > 0 ? `, unknown on ${unknown}` : ''}`
}

function strips(data: PressureData, style: Style): string {
  const { charts, days } = data
  const width = 14
  const grid = gridOf(days[0]!.date, days.length, style.columns - width)
  const infections = (of: (day: PressureDay) => boolean | null) => {
    const words = days.map(of).map((value) => (value === null ? null : value ? 'yes' : 'no'))
    return wordStrip(words, grid, [
      { word: 'no', sign: '▁' },
      { word: 'yes', sign: '█' },
    ])
  }
  const risks = [
    { word: 'none', sign: '▁' },
    { word: 'low', sign: '▃' },
    { word: 'moderate', sign: '▅' },
    { word: 'high', sign: '█' },
    { word: 'not yet', sign: ' ' },
  ] as const
  const botrytis = days.map(({ botrytis: { why, risk } }) => (why === 'before flowering' ? 'not yet' : risk))
  const lines: [name: string, line: string][] = [
    ['powdery', strip(charts.powdery, grid)],
    ['downy', infections(({ downy }) => downy.primary)],
    ['botrytis', wordStrip(botrytis, grid, risks)],
  ]
  if (isKnown(data, 'black-rot')) lines.push(['black rot', infections(({ blackRot }) => blackRot.infection)])
  const words = `worst day shown, ${perCharacter(grid)}; a dot = unknown`
  return overMonths(lines, { grid, width, words }, style)
}

function table(data: PressureData, { paint, columns }: Style): string {
  const cell = (value: boolean | null, yes: string) => (value ? yes : value === null ? 'unknown' : '-')
  const possible = paint.bad('possible')
  return renderTable(
    data.days.slice(-LAST_DAYS),
    [
      words('', ({ date }) => spokenDate(date)),
      numbers('powdery\nindex', ({ powdery }) => powderyCell(powdery)),
      numbers('\n', ({ powdery: { points } }) => (points === null ? '' : signed(points, 0))),
      words('asco-\nspores', ({ powdery }) => cell(powdery.ascospores, 'possible')),
      words('downy\nprimary', ({ downy }) => cell(downy.primary, possible)),
      words('\nnight', ({ downy }) => cell(downy.secondary, 'suited')),
      words('botrytis\nrisk', ({ botrytis }) => riskCell(botrytis, paint)),
      isKnown(data, 'black-rot') && words('black\nrot', ({ blackRot }) => cell(blackRot.infection, possible)),
    ],
    columns,
  )
}

function powderyCell({ index, low, high }: PressureDay['powdery']): string {
  if (index !== null)
    return low !== null && high !== null && low !== high ? `${index} (${low}-${high})` : String(index)
  return low === null || high === null ? 'unknown' : `${low}-${high}`
}

function riskCell({ risk, index, why, beyond }: PressureDay['botrytis'], paint: Style['paint']): string {
  if (risk === null)
    return why.startsWith('outside') ? 'out of range' : why === 'before flowering' ? '-' : 'unknown'
  if (risk === 'none') return '-'
  const least = beyond === 'at least' ? '>' : ''
  const text = index === null ? risk : `${risk} ${least}${figure(index * 100, 0)} %`
  return risk === 'high' ? paint.bad(text) : risk === 'moderate' ? paint.doubtful(text) : text
}

function rules({ rules, wetness, days }: PressureData, style: Style): string {
  const of = (index: string) => rules.find((rule) => rule.index === index)!
  const open = days.filter(
    ({ powdery, blackRot }) => powdery.why?.startsWith('missing') || !blackRot.complete,
  ).length
  const last = days.slice(-LAST_DAYS)
  const lines = sentences(
    `Downy rule: ${of('downy').rule.replace(/; (.)/g, (_, first: string) => `. ${first.toUpperCase()}`)}. ${upperFirst(of('wetness').rule)}.`,
    `Powdery index: ${of('powdery').rule.split('; start: ')[1]}.`,
    last.some(({ botrytis }) => botrytis.beyond === 'at least') &&
      'Botrytis marked >: at least this much. It was wet for more than the 24 h of the model, or hours are missing.',
    last.some(({ botrytis }) => botrytis.beyond === 'temperature') &&
      'Botrytis out of range: the model holds from 12 to 30 °C only.',
    open > 0 &&
      wetness !== 'unknown' &&
      `${counted(open, 'day')} ${open === 1 ? 'has' : 'have'} missing hours.`,
    `Sources: ${listed([...new Set(rules.map(({ source }) => source.split(/[;,] /)[0]!))].slice(0, 6))}. Run \`rowbook explain powdery-index\` for one rule in full.`,
  )
  return style.paint.faint(wrap(inLedgerUnits(lines.join(' '), style.units), style.columns))
}
