import type { Report } from '../../facts/report.ts'
import { addAll } from '../../records/add-all.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { dateOr, figure, figureOr, rough, roughNumber } from '../../render/figure.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { groupDigits, listed, underAnswer, wrap } from '../../render/text.ts'
import type { Picked } from './picked.ts'
import type { HarvestBlock, HarvestData, HarvestFigures } from './report.ts'
import { dayLines } from './terminal-day.ts'

type Names = ReadonlyMap<string, string>

/** The day in one sentence, the blocks in their order of picking with low and high, then what the plan rests on. */
export function renderHarvest(report: Report<HarvestData>, names: Names, style: Style): string {
  const { blocks, totals, settings } = report.data
  if (blocks.length === 0) return 'There is no block in the book.\n'
  const rows = blocks.flatMap((block) =>
    rowsOf(block, { name: names.get(block.block) ?? block.block, style, people: settings.people }),
  )
  if (blocks.length > 1)
    addAll(rows, figureRows(totals, { name: 'all', turn: '', style, people: settings.people }))
  const table = renderTable(
    [
      { title: 'in order', most: 16 },
      { title: 'from', align: 'right' },
      { title: '' },
      { title: 'crop', align: 'right' },
      { title: 'crates', align: 'right' },
      { title: 'person-\nhours', align: 'right' },
      { title: settings.people === null ? 'people' : `hours\nof ${settings.people}`, align: 'right' },
      { title: 'juice', align: 'right' },
      { title: 'press\nloads', align: 'right' },
    ],
    rows,
  )
  const notes = [
    ...blocks.flatMap(({ block, overLabel }) =>
      overLabel ? [`${names.get(block) ?? block}: ${overLabel}`] : [],
    ),
    ...blocks
      .filter(({ missing, crop }) => crop === null && missing)
      .map(({ block, missing }) => `${names.get(block) ?? block}: ${missing}.`),
    ...blocks.flatMap((block) => cellar(block, names.get(block.block) ?? block.block, style)),
    ...blocks.flatMap((block) =>
      block.picked ? [pickedLine(block.picked, names.get(block.block) ?? block.block, style)] : [],
    ),
    ...dayLines(report.data, names, style),
    ...basis(report.data, names),
    `From: the later of the likely day and days before harvest. ${peopleLine(report.data)} Low joins the low crop with the fast rate, high the high crop with the slow one.`,
  ]
  const below = notes.map((note) => wrap(note, style.columns)).join('\n')
  return underAnswer(
    `${wrap(headline(report, names, style), style.columns)}\n\n${table}\n${below}\n`,
    report.cautions,
    style.columns,
  )
}

/** What the column of people, or of the hours of those that there are, stands for. */
function peopleLine({ settings, totals }: HarvestData): string {
  const day = `${figure(settings.day.value, 1).replace('.0', '')} h`
  if (settings.people === null) return `People: for one day of ${day}, each block by its own.`
  const days = totals.hours === null ? null : Math.ceil(totals.hours / settings.day.value - 1e-9)
  const all = days === null ? '' : `, ${days} day${days === 1 ? '' : 's'} of ${day} in all`
  return `Hours: of ${settings.people} people picking together${all}.`
}

function headline(
  { data: { blocks, totals, settings }, asOf }: Report<HarvestData>,
  names: Names,
  style: Style,
): string {
  const left = blocks.filter(({ picked, crop }) => picked === null && crop !== null)
  const first = left.find(({ overLabel }) => overLabel === null)
  if (left.length > 0 && !first) return 'A spray was over the label: ask before anything is picked.'
  if (!first) return 'No block is left to pick whose crop is known.'
  const from = turnOf(first)
  const when = from === null ? '' : from <= asOf ? ', from now on' : `, from ${spokenDate(from)}`
  const who =
    settings.people === null
      ? `${first.people} people`
      : `${figure(first.hours!, 1)} hours for ${settings.people} people`
  const next = `${names.get(first.block) ?? first.block} comes first${when}: about ${rough(first.crop, style.units)}, ${groupDigits(first.crates!)} crates, ${who}.`
  if (blocks.length === 1 || totals.crop === null) return next
  return `${next} In all ${rough(totals.crop, style.units)}, ${groupDigits(totals.crates!)} crates and ${roughNumber(totals.personHours!)} person-hours.`
}

function turnOf({ likely, legalFrom }: HarvestBlock): string | null {
  if (likely === null) return legalFrom
  return legalFrom !== null && legalFrom > likely ? legalFrom : likely
}

function rowsOf(
  block: HarvestBlock,
  { name, style, people }: { name: string; style: Style; people: number | null },
): string[][] {
  const turn = block.picked ? 'picked' : block.overLabel ? 'ask' : dateOr(turnOf(block))
  return figureRows(block, { name, turn, style, people })
}

function figureRows(
  figures: HarvestFigures,
  { name, turn, style, people }: { name: string; turn: string; style: Style; people: number | null },
): string[][] {
  const { range } = figures
  const time = (hours: number | null | undefined) => (hours == null ? '-' : figure(hours, 1))
  const likely = [
    ...[name, turn, 'likely', rough(figures.crop, style.units), count(figures.crates)],
    ...[figures.personHours === null ? '-' : roughNumber(figures.personHours)],
    people === null ? count(figures.people) : time(figures.hours),
    ...[rough(figures.juice, style.units), count(figures.pressLoads)],
  ]
  const side = (of: 'low' | 'high'): string[] | null => {
    const crop = range.crop?.[of] ?? null
    if (crop === null) return null
    const whole = (key: 'crates' | 'people' | 'pressLoads') => count(range[key]?.[of] ?? null)
    const hours = range.personHours?.[of] ?? null
    const juice = range.juice?.[of] ?? null
    return [
      ...['', '', of, rough({ value: crop, unit: 'kg' }, style.units), whole('crates')],
      ...[hours === null ? '-' : roughNumber(hours)],
      people === null ? whole('people') : time(range.hours?.[of]),
      ...[juice === null ? '-' : rough({ value: juice, unit: 'L' }, style.units), whole('pressLoads')],
    ]
  }
  return [likely, side('low'), side('high')].filter((row) => row !== null)
}

const count = (value: number | null) => (value === null ? '-' : groupDigits(value))

function cellar(block: HarvestBlock, name: string, style: Style): string[] {
  if (block.tank === null || block.picked) return []
  const tanks = block.tanks === null ? '' : ` (${block.tanks} of the site's tanks)`
  return [
    `${name}: tank space ${rough(block.tank, style.units)}${tanks}, about ${roughNumber(block.bottles!)} bottles.`,
  ]
}

function pickedLine(picked: Picked, name: string, style: Style): string {
  const sign = (share: number) => `${share > 0 ? '+' : ''}${Math.round(share * 100)} %`
  const plan = picked.againstPlan === null ? '' : `, ${sign(picked.againstPlan)} against the plan`
  const rate =
    picked.rate === null
      ? ''
      : `; ${figure(picked.rate, 0)} kg per person-hour, ${sign(picked.rateAgainstPlan!)} against the plan`
  const juice = picked.juicePerTonne === null ? '' : `; ${figure(picked.juicePerTonne, 0)} L of juice a tonne`
  const rest = picked.rest ? `; ${Math.round(picked.rest * 100)} % still hangs` : ''
  return `${name}: picked ${spokenDate(picked.date)}, ${rough({ value: picked.weight, unit: 'kg' }, style.units)}${plan}${rate}${juice}${rest}.`
}

function basis({ blocks, settings }: HarvestData, names: Names): string[] {
  const rates = [...new Set(blocks.map(({ rate }) => rateText(rate)))].map((rate) => {
    const of = blocks.filter((block) => rateText(block.rate) === rate)
    return `${listed(of.map(({ block }) => names.get(block) ?? block))} ${rate}`
  })
  const { crate, juice, press } = settings
  const parts = [
    `crates of ${figure(crate.value, 1).replace('.0', '')} kg (${crate.source})`,
    `${figure(juice.value, 0)} L of juice a tonne (${juice.source})`,
    press
      ? `press loads of ${figureOr(press.value, 0)} kg (${press.source})`
      : 'press loads unknown: `harvest: press` in vineyard.yaml',
  ]
  return [`Picking rates: ${rates.join('; ')}.`, `Rests on ${parts.join(', ')}.`]
}

function rateText({ value, low, high, source }: HarvestBlock['rate']): string {
  const range =
    low === null || high === null ? '' : ` (${figure(low, 0)} to ${figure(high, 0)} on a day, 90 %)`
  return `${figure(value, 0)} kg per person-hour${range} by ${source}`
}
