import type { Names } from '../../facts/names.ts'
import type { Report } from '../../facts/report.ts'
import { listed, upperFirst } from '../../facts/sentences.ts'
import type { Quantity } from '../../records/quantity.ts'
import { renderBars } from '../../render/bars.ts'
import { numbers, words } from '../../render/columns.ts'
import { dateOr, figure, figureOr, orDash, rough, roughRange } from '../../render/figure.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, sentences, underAnswer, wrap, wrapAll } from '../../render/text.ts'
import { display } from '../../render/units.ts'
import type { CropBlock, CropData } from './report.ts'

type Units = Style['units']

/** The crop in one sentence, the blocks in a table, then what each estimate is based on and what would improve it. */
export function renderCrop(
  report: Report<CropData>,
  style: Style,
  { blocks: names }: Pick<Names, 'blocks'>,
): string {
  const { blocks, charts } = report.data
  const { units, columns } = style
  const nameOf = (id: string) => names.get(id) ?? id
  if (blocks.length === 0) return 'No block is recorded.\n'
  const table = renderTable(
    blocks,
    [
      words('block', ({ block }) => nameOf(block), 18),
      numbers('vines', ({ vines }) => vines),
      numbers('bunches\na vine', ({ bunchesPerVine }) => figureOr(bunchesPerVine, 1)),
      numbers('weight\nof one', ({ bunchWeight }) => orDash(bunchWeight, (one) => display(one, units))),
      numbers('factor', ({ growthFactor }) => figureOr(growthFactor?.value ?? null, 2)),
      numbers('crop', ({ estimate }) => rough(estimate, units)),
      numbers('95 %\ninterval', ({ low, high }) => roughRange(low, high, units)),
    ],
    style.columns,
  )
  const notes = blocks.flatMap((block) => notesOf(block, nameOf(block.block), units))
  const bars = renderBars(charts.crop, style, rough)
  const first = wrap(headline(report.data, nameOf, units), columns)
  const text = `${first}\n\n${table}\n${bars && `${bars}\n`}${wrapAll(notes, columns)}\n${wrap(EXPECT, columns)}\n`
  return underAnswer(text, report.cautions, columns)
}

const EXPECT =
  'Growers are usually within about 30 %; a good estimate is within 10 % (Dunn 2016; BC wine-grape guide).'

function headline({ blocks, total }: CropData, nameOf: (id: string) => string, units: Units): string {
  if (total.estimate !== null && blocks.length > 1) {
    const span = roughRange(total.low, total.high, units).replace('-', ' to ')
    const range = total.low === null ? '' : ` (${span}, 19 times in 20)`
    return `About ${rough(total.estimate, units)} in ${blocks.length} blocks${range}.`
  }
  const known = blocks.flatMap(({ block, estimate }) =>
    estimate === null ? [] : `${nameOf(block)} about ${rough(estimate, units)}`,
  )
  const without = blocks.flatMap(({ block, estimate }) => (estimate === null ? nameOf(block) : []))
  return sentences(
    known.length > 0 && `${known.join(', ')}.`,
    without.length > 0 && `Crop unknown for ${listed(without)}.`,
  ).join(' ')
}

function notesOf(block: CropBlock, name: string, units: Units): string[] {
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
    block.learnedApplied && learnedLine(block.learnedApplied, name),
    block.thinning && thinningLine(block.thinning, name, units),
    pastLines(block, name, units),
    balanceLines(block, name, units),
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

type Present<K extends keyof CropBlock> = NonNullable<CropBlock[K]>

function learnedLine({ factor, why }: Present<'learnedApplied'>, name: string): string {
  if (factor === null) return `${name}: not corrected by past estimates: ${why}.`
  return `${name}: multiplied by ${figure(factor, 2)}, past picks against past estimates. That widens the interval.`
}

const spread = ({ growthFactor: factor }: CropBlock): string =>
  factor === null || factor.low === factor.high
    ? ''
    : `; ${figure(factor.low, 2)} to ${figure(factor.high, 2)} in 9 seasons of 10`

function thinningLine(
  { target, keep, drop, share }: Present<'thinning'>,
  name: string,
  units: Units,
): string {
  const wanted = rough(target, units)
  if (drop <= 0) return `${name}: nothing to thin: at or below the ${wanted} wanted.`
  return `${name}: for ${wanted}, leave ${figure(keep, 1)} bunches a vine and drop ${figure(drop, 1)} (${Math.round(share * 100)} %); the rest will grow a little heavier.`
}

/** Crop load of past seasons, and where it lies beside what is usual. */
function balanceLines({ balance }: CropBlock, name: string, units: Units): string[] {
  const usual = balance[0]?.usual
  const weight = (one: Quantity) => display({ ...one, value: Number(one.value.toPrecision(3)) }, units)
  if (!usual) return []
  const seasons = balance.map(({ season, fruit, prunings, cropLoad }) => {
    const side = cropLoad > usual.high ? ', above' : cropLoad < usual.low ? ', below' : ''
    return `${season} ${figure(cropLoad, 1)}${side} (${weight(fruit)} / ${weight(prunings)})`
  })
  return [
    `${name}, Ravaz index (fruit / prunings of the next winter, one vine): ${seasons.join('; ')}. Usual: ${usual.low} to ${usual.high}, by site and variety (Kliewer & Dokoozlian 2005).`,
  ]
}

function pastLines({ past, learned }: CropBlock, name: string, units: Units): string[] {
  if (past.length === 0) return []
  const kg = (value: number) => rough({ value, unit: 'kg' }, units)
  const stage = (at: string | null) => (at === 'lag' ? 'lag phase' : 'harvest')
  const seasons = past.map(
    ({ season, at, estimate, actual, error }) =>
      `${season} at ${stage(at)} ${kg(estimate)}, picked ${kg(actual)} (${error > 0 ? '+' : ''}${Math.round(error * 100)} %)`,
  )
  const { factor, low, high, reason, at } = learned
  const sure = low === null ? reason : `${figure(low, 2)} to ${figure(high!, 2)}, 95 %`
  const lesson =
    factor === null ? '' : ` Picks were ${figure(factor, 2)} times the estimates at ${stage(at)} (${sure}).`
  return [`${name}, past estimates: ${seasons.join('; ')}.${lesson}`]
}
