import { groupedBy } from '../../facts/judged.ts'
import { inLedgerUnits } from '../../facts/ledger-units.ts'
import type { Names as AllNames } from '../../facts/names.ts'
import type { Report } from '../../facts/report.ts'
import { listed } from '../../facts/sentences.ts'
import { unknownIntervalText } from '../../facts/spraying/legal-from.ts'
import { addAll } from '../../records/add-all.ts'
import type { Quantity } from '../../records/quantity.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { convert } from '../../records/units.ts'
import { numbers, words } from '../../render/columns.ts'
import { dateOr, figure, orDash, rough, roughNumber } from '../../render/figure.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, groupDigits, sentences, underAnswer, wrap, wrapAll } from '../../render/text.ts'
import { isToPick, type Picked } from './picked.ts'
import type { HarvestFigures } from './plan.ts'
import type { HarvestBlock, HarvestData } from './report.ts'
import { vesselOf } from './settings.ts'
import { dayLines } from './terminal-day.ts'

type Names = ReadonlyMap<string, string>

/** The day in one sentence, the blocks in their order of picking with low and high, then what the plan is based on. */
export function renderHarvest(
  report: Report<HarvestData>,
  style: Style,
  { blocks: names, products }: Pick<AllNames, 'blocks' | 'products'>,
): string {
  const { blocks, totals, settings } = report.data
  if (blocks.length === 0) return 'No block is recorded.\n'
  const nameOf = ({ block }: { block: string }) => names.get(block) ?? block
  const rows = blocks.flatMap((block) => endsOf(block, nameOf(block), turnText(block)))
  if (blocks.length > 1) addAll(rows, endsOf(totals, 'all', ''))
  const table = figureTable(rows, settings, style)
  const ofEach = (say: (block: HarvestBlock) => string | null | false) =>
    blocks.flatMap((one) => sentences(say(one)).map((text) => `${nameOf(one)}: ${text}`))
  const notes = [
    ...ofEach(({ overLabel }) => overLabel),
    ...ofEach(
      (block) =>
        block.unknown.length > 0 &&
        isToPick(block) &&
        unknownIntervalText(listed(block.unknown.map((id) => products.get(id) ?? id))),
    ),
    ...ofEach((block) => block.later && isToPick(block) && `${block.later}.`),
    ...ofEach(({ rot }) => rot && `rot argues for picking now and sorting: ${rot}.`),
    ...ofEach(({ missing, crop }) => crop === null && missing && `${missing}.`),
    ...ofEach((block) => cellar(block, style)),
    ...ofEach(({ picked, crop }) => picked && pickedLine(picked, { planned: crop !== null, style })),
    ...dayLines(report.data, names, style),
    ...basis(report.data, names, style.units),
    `From: the likely day of sugar, acid and pH, or the first that the pre-harvest interval (PHI) allows. Blocks with rot come first, then by that day. ${peopleLine(report.data)}`,
    'Low: the low end of the crop (95 %) at the fast end of the picking rate (90 %). High: the high crop at the slow rate.',
  ]
  return underAnswer(
    `${wrap(headline(report, names, style), style.columns)}\n\n${table}\n${wrapAll(notes, style.columns)}\n`,
    report.cautions,
    style.columns,
  )
}

/** What the column of people, or of the hours of those that there are, stands for. */
function peopleLine({ settings, totals }: HarvestData): string {
  const day = `${figure(settings.day.value, 1).replace('.0', '')} h`
  if (settings.people === null) return `People: to pick each block in one day of ${day}.`
  const days = totals.hours === null ? null : Math.ceil(totals.hours / settings.day.value - 1e-9)
  const all = days === null ? '' : `, ${counted(days, 'day')} of ${day} in all`
  return `Hours: with ${people(settings.people)} picking together${all}.`
}

function headline(
  { data: { blocks, totals, settings }, asOf }: Report<HarvestData>,
  names: Names,
  style: Style,
): string {
  const nameOf = ({ block }: HarvestBlock) => names.get(block) ?? block
  const left = blocks.filter((block) => isToPick(block) && block.crop !== null)
  const within = left.filter(({ overLabel }) => overLabel === null)
  const first = within.find(({ unknown }) => unknown.length === 0)
  if (left.length > 0 && within.length === 0) return 'Ask before you pick: a spray was over the label.'
  if (within.length > 0 && !first)
    return `No picking day yet for ${listed(within.map(nameOf))}: a pre-harvest interval (PHI) is not recorded. Read the labels.`
  if (!first) {
    const open = blocks.filter(isToPick)
    if (open.length === 0) return 'Nothing is left to pick.'
    const hanging = open.map((block) =>
      block.picked ? restOf(block.picked.rest!, nameOf(block)) : nameOf(block),
    )
    const still = open.some(({ picked }) => picked) ? `Still to pick: ${listed(hanging)}. ` : ''
    return `${still}No crop is known yet: count bunches and weigh some. Begin with \`rowbook note crop\`.`
  }
  const from = first.rot ? asOf : turnOf(first)
  const when = from === null ? '' : from <= asOf ? ', now' : `, from ${spokenDate(from)}`
  const who =
    settings.people === null
      ? people(first.people!)
      : `${figure(first.hours!, 1)} hours for ${people(settings.people)}`
  const what = first.picked?.rest ? `the rest of ${nameOf(first)}` : nameOf(first)
  const next = `Pick ${what} first${when}: about ${rough(first.crop, style.units)}, ${vessels(first, settings)}, ${who}.`
  // A total of what is picked and what hangs says nothing about the work ahead.
  if (left.length < 2 || left.length < blocks.length || totals.crop === null) return next
  return `${next} All blocks: ${rough(totals.crop, style.units)}, ${vessels(totals, settings)}, ${roughNumber(totals.personHours!)} person-hours.`
}

const restOf = (share: number, name: string) => `${Math.round(share * 100)} % of ${name}`

function vessels(figures: HarvestFigures, settings: HarvestData['settings']): string {
  const vessel = vesselOf(settings)
  return counted(figures[`${vessel}s`]!, vessel)
}

/** The first likely day that sprays allow too; null without a likely day, since intervals alone make no grapes ripe. */
const turnOf = ({ ripe, legalFrom }: Pick<HarvestBlock, 'ripe' | 'legalFrom'>): string | null =>
  ripe !== null && legalFrom !== null && legalFrom > ripe ? legalFrom : ripe

const turnText = ({ overLabel, unknown, rot, ...block }: HarvestBlock): string => {
  if (!isToPick(block)) return 'picked'
  if (overLabel) return 'ask'
  if (unknown.length > 0) return 'unknown'
  return rot ? 'now' : dateOr(turnOf(block))
}

type End = { name: string; turn: string; end: 'likely' | 'low' | 'high'; range: HarvestFigures['range'] }

/** The likely figures, and the low and high ones where the crop has an interval. */
const endsOf = ({ range }: HarvestFigures, name: string, turn: string): End[] => [
  { name, turn, end: 'likely', range },
  ...(['low', 'high'] as const).flatMap((end) =>
    (range.crop?.[end] ?? null) === null ? [] : { name: '', turn: '', end, range },
  ),
]

function figureTable(
  rows: readonly End[],
  settings: HarvestData['settings'],
  { units, columns }: Style,
): string {
  const { people } = settings
  const figures = (title: string, part: keyof End['range'], say: (value: number) => string) =>
    numbers(title, ({ range, end }: End) => orDash(range[part]?.[end] ?? null, say))
  const amount = (unit: string) => (value: number) => bare({ value, unit }, units)
  const vessels = `${vesselOf(settings)}s` as const
  return renderTable(
    rows,
    [
      words('in order', ({ name }) => name, 16),
      numbers('from', ({ turn }) => turn),
      words('', ({ end }) => end),
      figures(`crop\n${unitOf('kg', units)}`, 'crop', amount('kg')),
      figures(vessels, vessels, groupDigits),
      figures('person-\nhours', 'personHours', roughNumber),
      people === null
        ? figures('people', 'people', groupDigits)
        : figures(`hours\nof ${people}`, 'hours', (hours) => figure(hours, 1)),
      figures(`juice\n${unitOf('L', units)}`, 'juice', amount('L')),
      figures('press\nloads', 'pressLoads', groupDigits),
    ],
    columns,
  )
}

/** The unit in which estimates are said, and an estimate without it, for a column that names it. */
const unitOf = (unit: 'kg' | 'L', units: Units) => rough({ value: 1, unit }, units).replace(/^\S+ /, '')
const bare = (quantity: Quantity, units: Units) => rough(quantity, units).replace(/ \D{1,12}$/, '')

function cellar(block: HarvestBlock, style: Style): string | null {
  if (block.tank === null || !isToPick(block)) return null
  const tanks = block.tanks === null ? '' : ` (${counted(block.tanks, 'tank')} of yours)`
  return `tank space ${rough(block.tank, style.units)}${tanks}, about ${roughNumber(block.bottles!)} bottles.`
}

function pickedLine(picked: Picked, { planned, style }: { planned: boolean; style: Style }): string {
  const { units } = style
  const sign = (share: number) => `${share > 0 ? '+' : ''}${Math.round(share * 100)} %`
  const plan = picked.againstPlan === null ? '' : `, ${sign(picked.againstPlan)} against the plan`
  const rate =
    picked.rate === null
      ? ''
      : `; ${pickingRate(picked.rate, units)}, ${sign(picked.rateAgainstPlan!)} against the plan`
  const juice = picked.juicePerTonne === null ? '' : `; ${juiceShare(picked.juicePerTonne, units)}`
  const left = picked.rest ? `; ${Math.round(picked.rest * 100)} % still to pick` : ''
  const rest = left && planned ? `${left}, which the plan above is for` : left
  return `picked ${left && 'in part '}${spokenDate(picked.date)}, ${rough({ value: picked.weight, unit: 'kg' }, units)}${plan}${rate}${juice}${rest}.`
}

type Units = Style['units']

const people = (count: number) => counted(count, 'person', 'people')

const pickingRate = (rate: number, units: Units) =>
  `${inLedgerUnits(`${figure(rate, 0)} kg`, units).replace(/\.\d/, '')} per person-hour`

/** Litres of juice from a tonne; US gallons from a US ton, imperial gallons from a thousand pounds. */
function juiceShare(litres: number, units: Units): string {
  if (units === 'metric') return `${figure(litres, 0)} L of juice a tonne`
  if (units === 'us') return `${figure(convert(litres, 'L/t', 'US gal/US ton'), 0)} US gal of juice a US ton`
  return `${figure(convert(litres, 'L/t', 'imp gal/1000 lb'), 0)} imp gal of juice from 1 000 lb`
}

function basis({ blocks, settings }: HarvestData, names: Names, units: Units): string[] {
  const rates = [...groupedBy(blocks, ({ rate }) => rateText(rate, units))].map(([rate, of]) => {
    const who = of.map(({ block }) => names.get(block) ?? block)
    return `Picking rate of ${listed(who)}: ${rate}.`
  })
  const { juice, press } = settings
  const vessel = vesselOf(settings)
  const { value: full, source } = settings[vessel]!
  const parts = [
    `${vessel}s of ${inLedgerUnits(`${figure(full, 1).replace('.0', '')} kg`, units)} (${inLedgerUnits(source, units)})`,
    `${juiceShare(juice.value, units)} (${juice.source})`,
    press
      ? `press loads of ${rough({ value: press.value, unit: 'kg' }, units)} (${press.source})`
      : 'press loads unknown: write `harvest: press` in vineyard.yaml',
  ]
  return [...rates, `Based on ${parts.join(', ')}.`]
}

function rateText({ value, low, high, source }: HarvestBlock['rate'], units: Units): string {
  const pounds = (rate: number) => pickingRate(rate, units).replace(/ (?:kg|lb).*/, '')
  const range = low === null || high === null ? '' : `, ${pounds(low)} to ${pounds(high)} on 9 days in 10`
  return `${pickingRate(value, units)}${range} (${inLedgerUnits(source, units)})`
}
