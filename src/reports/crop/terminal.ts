import type { Report } from '../../facts/report.ts'
import { listed, upperFirst } from '../../facts/sentences.ts'
import type { Quantity } from '../../records/quantity.ts'
import { renderBars } from '../../render/bars.ts'
import { numbers } from '../../render/columns.ts'
import { dateOr, figure, figureOr, rough, roughRange } from '../../render/figure.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, sentences, underAnswer, wrap, wrapAll } from '../../render/text.ts'
import { display } from '../../render/units.ts'
import type { CropBlock, CropData } from './report.ts'

type Names = ReadonlyMap<string, string>

/** The crop in one sentence, the blocks in a table, then what each estimate is based on and what would improve it. */
export function renderCrop(report: Report<CropData>, names: Names, style: Style): string {
  const { blocks, total, charts } = report.data
  if (blocks.length === 0) return 'No block is recorded.\n'
  const table = renderTable(
    [
      { title: 'block', most: 18 },
      ...numbers('vines', 'bunches\na vine', 'weight\nof one', 'factor', 'crop', '95 %\ninterval'),
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
  const below = wrapAll(notes, style.columns)
  const first = wrap(headline({ blocks, total }, names, style), style.columns)
  const text = `${first}\n\n${table}\n${bars && `${bars}\n`}${below}\n${wrap(EXPECT, style.columns)}\n`
  return underAnswer(text, report.cautions, style.columns)
}

const EXPECT =
  'Growers are usually within about 30 %; a good estimate is within 10 % (Dunn 2016; BC wine-grape guide).'

function headline(
  { blocks, total }: Pick<CropData, 'blocks' | 'total'>,
  names: Names,
  { units }: Style,
): string {
  const unknown = blocks.filter(({ estimate }) => estimate === null)
  if (total.estimate !== null && blocks.length > 1) {
    const range =
      total.low === null
        ? ''
        : ` (${roughRange(total.low, total.high, units).replace('-', ' to ')}, 19 times in 20)`
    return `About ${rough(total.estimate, units)} in ${blocks.length} blocks${range}.`
  }
  const known = blocks
    .filter(({ estimate }) => estimate !== null)
    .map(({ block, estimate }) => `${names.get(block) ?? block} about ${rough(estimate, units)}`)
  const without = unknown.map(({ block }) => names.get(block) ?? block)
  return sentences(
    known.length > 0 && `${known.join(', ')}.`,
    without.length > 0 && `Crop unknown for ${listed(without)}.`,
  ).join(' ')
}

function notesOf(block: CropBlock, { name, style }: { name: string; style: Style }): string[] {
  const { units } = style
  if (block.estimate === null) return [`${name}: ${block.missing}.`]
  const weighed = `${counted(block.vinesCounted, 'vine')} counted ${dateOr(block.counted)}, ${counted(block.bunchesWeighed, 'bunch', 'bunches')} weighed ${dateOr(block.weighed)}`
  const apart = block.missingVines > 0 ? `; ${counted(block.missingVines, 'missing vine')} left out` : ''
  const perHa = block.perHa ? `, ${rough(block.perHa, units)}` : ''
  return sentences(
    `${name}${perHa}: ${weighed}${apart}. Growth factor: ${block.growthFactor!.source}${spread(block)}.`,
    block.guess && `${name}: a guess, because fewer than 10 vines were counted.`,
    block.missing && `${name}: ${block.missing}.`,
    block.parts.map(
      ({ part, vines, estimate, moreVines, moreBunches }) =>
        `${name}, ${part}: ${vines} vines, ${rough(estimate, units)}${partMore(moreVines, moreBunches)}.`,
    ),
    countingLine(block, name),
    block.learnedApplied && learnedLine(block, name),
    block.thinning && thinningLine(block, { name, style }),
    pastLines(block, { name, style }),
    balanceLines(block, { name, style }),
  )
}

/** What more counting, weighing or both brings the estimate within the wanted error. */
function countingLine({ toCount, toWeigh, toDo }: CropBlock, name: string): string {
  const wanted = `within ${Math.round(toCount.error * 100)} % (95 %)`
  if (toDo.why) return `${name}: counting and weighing cannot bring it ${wanted}. ${upperFirst(toDo.why)}.`
  if (toCount.more === 0 || toWeigh.more === 0) return `${name}: enough counted and weighed to be ${wanted}.`
  const saves = (both: number | null, alone: number | null) => alone === null || both! < alone
  const ways = sentences(
    toCount.more !== null && `count ${counted(toCount.more, 'more vine')}`,
    toWeigh.more !== null && `weigh ${moreBunches(toWeigh.more)}`,
    saves(toDo.vines, toCount.more) &&
      saves(toDo.bunches, toWeigh.more) &&
      toDo.vines! + toDo.bunches! > 0 &&
      `count ${counted(toDo.vines!, 'more vine')} and weigh ${moreBunches(toDo.bunches!)}`,
  )
  return `${name}: to be ${wanted}, ${ways.join(', or ')}.`
}

const moreBunches = (count: number): string => `${count} more bunch${count === 1 ? '' : 'es'}`

const partMore = (vines: number | null, bunches: number | null): string =>
  vines && bunches ? ` (of those, ${vines} more vines and ${bunches} more bunches here)` : ''

function learnedLine({ learnedApplied }: CropBlock, name: string): string {
  const { factor, why } = learnedApplied!
  if (factor === null) return `${name}: not corrected by past estimates: ${why}.`
  return `${name}: multiplied by ${figure(factor, 2)}, past picks against past estimates. That widens the interval.`
}

function spread({ growthFactor: factor }: CropBlock): string {
  return factor === null || factor.low === factor.high
    ? ''
    : `; ${figure(factor.low, 2)} to ${figure(factor.high, 2)} in 9 seasons of 10`
}

function thinningLine(block: CropBlock, { name, style }: { name: string; style: Style }): string {
  const { target, keep, drop, share } = block.thinning!
  if (drop <= 0) return `${name}: nothing to thin: at or below the ${rough(target, style.units)} wanted.`
  return `${name}: for ${rough(target, style.units)}, leave ${figure(keep, 1)} bunches a vine and drop ${figure(drop, 1)} (${Math.round(share * 100)} %); the rest will grow a little heavier.`
}

/** Crop load of past seasons, and where it lies beside what is usual. */
function balanceLines({ balance }: CropBlock, { name, style }: { name: string; style: Style }): string[] {
  const usual = balance[0]?.usual
  const weight = (one: Quantity) => display({ ...one, value: Number(one.value.toPrecision(3)) }, style.units)
  if (!usual) return []
  const seasons = balance.map(({ season, fruit, prunings, cropLoad }) => {
    const side = cropLoad > usual.high ? ', above' : cropLoad < usual.low ? ', below' : ''
    return `${season} ${figure(cropLoad, 1)}${side} (${weight(fruit)} / ${weight(prunings)})`
  })
  return [
    `${name}, Ravaz index (fruit / prunings of the next winter, one vine): ${seasons.join('; ')}. Usual: ${usual.low} to ${usual.high}, by site and variety (Kliewer & Dokoozlian 2005).`,
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
      : ` Picks were ${figure(factor, 2)} times the estimates at ${at === 'lag' ? 'lag phase' : 'harvest'}${low === null ? ` (${reason})` : ` (${figure(low, 2)} to ${figure(high!, 2)}, 95 %)`}.`
  return [`${name}, past estimates: ${past.join('; ')}.${lesson}`]
}
