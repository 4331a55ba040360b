import type { Report } from '../../facts/report.ts'
import type { Quantity } from '../../records/quantity.ts'
import { renderBars } from '../../render/bars.ts'
import { dateOr, figure, figureOr, rough, roughRange } from '../../render/figure.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, underAnswer, wrap } from '../../render/text.ts'
import { display } from '../../render/units.ts'
import type { CropBlock, CropData } from './report.ts'

type Names = ReadonlyMap<string, string>

/** The crop in one sentence, the blocks in a table, then what each estimate rests on and what would better it. */
export function renderCrop(report: Report<CropData>, names: Names, style: Style): string {
  const { blocks, total, charts } = report.data
  if (blocks.length === 0) return 'No block is recorded.\n'
  const table = renderTable(
    [
      { title: 'block', most: 18 },
      { title: 'vines', align: 'right' },
      { title: 'bunches\na vine', align: 'right' },
      { title: 'weight\nof one', align: 'right' },
      { title: 'factor', align: 'right' },
      { title: 'crop', align: 'right' },
      { title: '95 %\ninterval', align: 'right' },
    ],
    blocks.map((block) => [
      names.get(block.block) ?? block.block,
      String(block.vines),
      figureOr(block.bunchesPerVine, 1),
      block.bunchWeight === null ? '-' : display(block.bunchWeight, style.units),
      figureOr(block.growthFactor?.value ?? null, 2),
      rough(block.estimate, style.units),
      roughRange(block.low, block.high, style.units),
    ]),
  )
  const notes = blocks.flatMap((block) =>
    notesOf(block, { name: names.get(block.block) ?? block.block, style }),
  )
  const bars = renderBars(charts.crop, style, rough)
  const below = notes.map((note) => wrap(note, style.columns)).join('\n')
  const first = wrap(headline({ blocks, total }, names, style), style.columns)
  const text = `${first}\n\n${table}\n${bars && `${bars}\n`}${below}\n${wrap(EXPECT, style.columns)}\n`
  return underAnswer(text, report.cautions, style.columns)
}

const EXPECT =
  'Published error: growers come within about 30 %, a good estimate within 10 % (Dunn 2016; BC wine-grape guide).'

function headline(
  { blocks, total }: Pick<CropData, 'blocks' | 'total'>,
  names: Names,
  { units }: Style,
): string {
  const unknown = blocks.filter(({ estimate }) => estimate === null)
  if (total.estimate !== null && blocks.length > 1) {
    const range = total.low === null ? '' : ` (${roughRange(total.low, total.high, units)}, 95 %)`
    return `${blocks.length} blocks carry about ${rough(total.estimate, units)} in all${range}.`
  }
  const known = blocks
    .filter(({ estimate }) => estimate !== null)
    .map(({ block, estimate }) => `${names.get(block) ?? block} about ${rough(estimate, units)}`)
  const without = unknown.map(({ block }) => names.get(block) ?? block)
  const parts = [
    known.length > 0 ? `${known.join(', ')}.` : '',
    without.length > 0 ? `Not known for ${without.join(', ')}.` : '',
  ]
  return parts.filter(Boolean).join(' ')
}

function notesOf(block: CropBlock, { name, style }: { name: string; style: Style }): string[] {
  const { units } = style
  if (block.estimate === null) return [`${name}: ${block.missing}.`]
  const weighed = `${block.vinesCounted} vines counted ${dateOr(block.counted)}, ${block.bunchesWeighed} bunches weighed ${dateOr(block.weighed)}`
  const apart = block.missingVines > 0 ? `; ${block.missingVines} missing vines left out` : ''
  const perHa = block.perHa ? `, ${rough(block.perHa, units)}` : ''
  const lines = [
    `${name}${perHa}: ${weighed}${apart}. Growth factor: ${block.growthFactor!.source}${spread(block)}.`,
  ]
  if (block.guess) lines.push(`${name}: fewer than ten vines counted: a guess rather than an estimate.`)
  if (block.missing) lines.push(`${name}: ${block.missing}.`)
  for (const { part, vines, estimate, moreVines, moreBunches } of block.parts)
    lines.push(
      `${name}, ${part}: ${vines} vines, ${rough(estimate, units)}${partMore(moreVines, moreBunches)}.`,
    )
  lines.push(countingLine(block, name))
  if (block.learnedApplied) lines.push(learnedLine(block, name))
  if (block.thinning) lines.push(thinningLine(block, { name, style }))
  return [...lines, ...pastLines(block, { name, style }), ...balanceLines(block, { name, style })]
}

/** What more counting, weighing or both brings the estimate within the wanted error. */
function countingLine({ toCount, toWeigh, toDo }: CropBlock, name: string): string {
  const wanted = `within ${Math.round(toCount.error * 100)} % (95 %)`
  if (toDo.why) return `${name}: ${wanted} cannot be had by counting and weighing: ${toDo.why}.`
  if (toCount.more === 0 || toWeigh.more === 0) return `${name}: enough counted and weighed to be ${wanted}.`
  const saves = (both: number | null, alone: number | null) => alone === null || both! < alone
  const ways = [
    toCount.more === null ? '' : `count ${counted(toCount.more, 'more vine')}`,
    toWeigh.more === null ? '' : `weigh ${moreBunches(toWeigh.more)}`,
    saves(toDo.vines, toCount.more) && saves(toDo.bunches, toWeigh.more) && toDo.vines! + toDo.bunches! > 0
      ? `count ${counted(toDo.vines!, 'more vine')} and weigh ${moreBunches(toDo.bunches!)}`
      : '',
  ].filter(Boolean)
  return `${name}: to be ${wanted}, ${ways.join(', or ')}.`
}

const moreBunches = (count: number): string => `${count} more bunch${count === 1 ? '' : 'es'}`

const partMore = (vines: number | null, bunches: number | null): string =>
  vines && bunches ? ` (of those, ${vines} more vines and ${bunches} more bunches here)` : ''

function learnedLine({ learnedApplied }: CropBlock, name: string): string {
  const { factor, why } = learnedApplied!
  if (factor === null) return `${name}: not multiplied by what past estimates teach: ${why}.`
  return `${name}: multiplied by ${figure(factor, 2)}, what picks came to of past estimates; the interval holds how unsure that is.`
}

function spread({ growthFactor: factor }: CropBlock): string {
  return factor === null || factor.low === factor.high
    ? ''
    : `; a season's may lie from ${figure(factor.low, 2)} to ${figure(factor.high, 2)} (90 %)`
}

function thinningLine(block: CropBlock, { name, style }: { name: string; style: Style }): string {
  const { target, keep, drop, share } = block.thinning!
  if (drop <= 0) return `${name}: at or below the ${rough(target, style.units)} wanted; nothing to thin.`
  return `${name}: for ${rough(target, style.units)}, leave ${figure(keep, 1)} bunches a vine and drop ${figure(drop, 1)} (${Math.round(share * 100)} %); those left grow a little heavier.`
}

/** Crop load of past seasons, and where it lies beside what is usual. */
function balanceLines({ balance }: CropBlock, { name, style }: { name: string; style: Style }): string[] {
  const usual = balance[0]?.usual
  const weight = (one: Quantity) => display({ ...one, value: Number(one.value.toPrecision(3)) }, style.units)
  if (!usual) return []
  const seasons = balance.map(({ season, fruit, prunings, cropLoad }) => {
    const side = cropLoad > usual.high ? ', above' : cropLoad < usual.low ? ', below' : ''
    return `${season} ${figure(cropLoad, 1)}${side} (${weight(fruit)} over ${weight(prunings)})`
  })
  return [
    `${name}, fruit over the prunings of the winter after, a vine: ${seasons.join('; ')}. Usual is ${usual.low} to ${usual.high} (Ravaz index; Kliewer & Dokoozlian 2005), by site and variety.`,
  ]
}

function pastLines(block: CropBlock, { name, style }: { name: string; style: Style }): string[] {
  const past = block.past.map(
    ({ season, at, estimate, actual, error }) =>
      `${season} at ${at === 'lag' ? 'lag phase' : 'harvest'} ${rough({ value: estimate, unit: 'kg' }, style.units)}, picked ${rough({ value: actual, unit: 'kg' }, style.units)} (${error > 0 ? '+' : ''}${Math.round(error * 100)} %)`,
  )
  if (past.length === 0) return []
  const { factor, low, high, reason, at } = block.learned
  const lesson =
    factor === null
      ? ''
      : ` Picks came to ${figure(factor, 2)} of the estimates at ${at === 'lag' ? 'lag phase' : 'harvest'}${low === null ? ` (${reason})` : ` (${figure(low, 2)} to ${figure(high!, 2)}, 95 %)`}.`
  return [`${name}, estimated before: ${past.join('; ')}.${lesson}`]
}
