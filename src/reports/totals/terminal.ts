import type { Report } from '../../facts/report.ts'
import { listed } from '../../facts/sentences.ts'
import type { VineyardTotals } from '../../facts/spraying/season-totals.ts'
import type { Quantity } from '../../records/quantity.ts'
import { renderBars } from '../../render/bars.ts'
import { numbers, words } from '../../render/columns.ts'
import { safeLine } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { counted, sentences, underAnswer, wrap, wrapAll } from '../../render/text.ts'
import { display } from '../../render/units.ts'
import { copperCharts, mostOf, type SeasonTotals, type StockTotals, type TotalsData } from './report.ts'

/** The season's sprays added up: the answer, then blocks, products, stock, copper. */
export function renderTotals(report: Report<TotalsData>, style: Style): string {
  const { seasons } = report.data
  const body =
    seasons.length === 1
      ? [oneSeason(seasons[0]!, style)]
      : [acrossSeasons(seasons, style), ...seasons.map((one) => `${one.season}\n\n${oneSeason(one, style)}`)]
  return underAnswer(body.join('\n'), report.cautions, style.columns)
}

function oneSeason(data: SeasonTotals, style: Style): string {
  const { vineyard, blocks } = data
  if (vineyard.sprays === 0) return `No spray in ${data.season} on ${counted(blocks.length, 'block')} yet.\n`
  return sentences(
    `${wrap(style.paint.strong(sentence(data, style)), style.columns)}\n`,
    blockTable(data, style),
    productTable(data, style),
    activeLine(vineyard, style),
    copperBars(data, style),
    mostLine(data, style),
    copperLines(data, style),
    frequencyLine(vineyard, style),
  ).join('\n')
}

function sentence({ season, vineyard, blocks }: SeasonTotals, { units }: Style): string {
  const against = vineyard.targets.map(({ target, sprays }) => `${sprays} against ${safeLine(target)}`)
  return `${counted(vineyard.sprays, 'spray')} in ${season} on ${counted(blocks.length, 'block')}, ${display(vineyard.area, units)}: ${listed(against)}.`
}

function blockTable({ blocks }: SeasonTotals, { units, columns }: Style): string {
  return renderTable(
    blocks,
    [
      words('block', ({ name }) => name, 24),
      numbers('area', ({ area }) => display(area, units)),
      numbers('sprays', ({ sprays }) => sprays),
      numbers('copper', ({ copper }) => orUnknown(copper.season, units)),
      numbers('allowance\nleft this\nseason', ({ copper }) =>
        copper.roomSeason ? display(copper.roomSeason, units) : '-',
      ),
      numbers('allowance\nleft over\nyears', ({ copper }) =>
        copper.roomRolling
          ? `${copper.window!.unknown.length > 0 ? 'at most ' : ''}${display(copper.roomRolling, units)}`
          : '-',
      ),
      numbers('treatment\nfrequency', ({ treatmentFrequency }) => treatmentFrequency.toFixed(1)),
    ],
    columns,
  )
}

function productTable({ vineyard, store }: SeasonTotals, { units, columns }: Style): string {
  const priced = store.some(({ cost }) => cost)
  const byId = new Map(store.map((one) => [one.product, one]))
  return renderTable(
    vineyard.products.map((product) => ({ ...product, kept: byId.get(product.product) })),
    [
      words('product', ({ name }) => name, 28),
      numbers('times', ({ applications }) => applications),
      numbers('used', ({ total }) => orUnknown(total, units)),
      numbers(`per ${units === 'metric' ? 'ha' : 'acre'}`, ({ perHa }) =>
        orUnknown(perHa, units).replace(/\/(ha|acre)$/, ''),
      ),
      priced &&
        numbers('cost', ({ kept }) =>
          kept?.cost ? `${kept.cost.value.toFixed(2)} ${kept.cost.currency}` : '-',
        ),
      numbers('left', ({ kept }) => leftOf(kept, units)),
    ],
    columns,
  )
}

function leftOf(kept: StockTotals | undefined, units: Style['units']): string {
  if (!kept?.left) return 'no count date'
  return kept.left.value < 0
    ? `${display({ ...kept.left, value: -kept.left.value }, units)} short`
    : display(kept.left, units)
}

function activeLine({ actives, groups }: VineyardTotals, { units, columns }: Style): string {
  const substances = actives.map(({ active, perHa }) => `${safeLine(active)} ${orUnknown(perHa, units)}`)
  const codes = groups.map(({ group, applications }) => `${safeLine(group)} in ${applications}`)
  const lines = sentences(
    `Active substances: ${substances.join(', ')}.`,
    codes.length > 0 && `Mode-of-action groups: ${codes.join(', ')}.`,
    groups.flatMap(({ group, note }) => (note ? `Group ${safeLine(group)}: ${note}.` : [])),
  )
  return `${wrapAll(lines, columns)}\n`
}

/** Copper of the season against its limit, where any was sprayed. */
function copperBars(data: SeasonTotals, style: Style): string {
  const { season } = copperCharts(data)
  return season.bars.some(({ value }) => value > 0) ? renderBars(season, style, display) : ''
}

function copperLines({ blocks, vineyard }: SeasonTotals, { units, columns }: Style): string {
  const { copper } = vineyard
  if (!copper.window || !copper.limitRolling) {
    const used = blocks.some((block) => (block.copper.season?.value ?? 1) > 0)
    return used
      ? `${wrap(`Copper, as metal: no limit over years is recorded, so none is calculated (${copper.missing ?? 'vineyard.yaml'}).`, columns)}\n`
      : ''
  }
  const { known, unknown } = copper.window
  const lines = sentences(
    `Copper, as metal, over ${copper.window.from}-${copper.window.to}: ${blocks.map((block) => `${safeLine(block.name)} ${orUnknown(block.copper.rolling, units)}`).join(', ')}, of ${display(copper.limitRolling, units)}.`,
    unknown.length > 0 &&
      `${known.length} of ${known.length + unknown.length} years are recorded; ${listed(unknown.map(String))} ${unknown.length === 1 ? 'is' : 'are'} unknown, not zero. The totals are minimums.`,
  )
  return `${wrapAll(lines, columns)}\n`
}

/** Where parts of a block were sprayed, the most that a vine of it can have had: the mean over the block hides it. */
function mostLine({ blocks }: SeasonTotals, { units, columns }: Style): string {
  const said = mostOf(blocks).map(({ name, copper }) => `${safeLine(name)} ${orUnknown(copper.most, units)}`)
  if (said.length === 0) return ''
  return `${wrap(`Copper is per hectare of the whole block. The most that one vine can have had this season, if all sprays of a part met it: ${said.join(', ')}.`, columns)}\n`
}

const orUnknown = (quantity: Quantity | null, units: Style['units']) =>
  quantity ? display(quantity, units) : 'unknown'

function frequencyLine({ treatmentFrequency, frequency }: VineyardTotals, { columns }: Style): string {
  const { synthetic, mineral, biological, unsaid, withoutReference } = frequency
  const told = Object.entries({ synthetic, mineral, biological, 'not said': unsaid }).flatMap(
    ([word, value]) => (value > 0 ? `${word} ${value.toFixed(1)}` : []),
  )
  const split = synthetic + mineral + biological > 0 ? ` (${told.join(', ')})` : ''
  const without =
    withoutReference > 0
      ? ` ${counted(withoutReference, 'application')} without a reference dose counted 1.`
      : ''
  return `${wrap(`Treatment frequency ${treatmentFrequency.toFixed(1)}${split}: full doses, by area.${without}`, columns)}\n`
}

function acrossSeasons(seasons: readonly SeasonTotals[], { units, columns }: Style): string {
  return renderTable(
    seasons,
    [
      words('season', ({ season }) => season),
      numbers('sprays', ({ vineyard }) => vineyard.sprays),
      numbers('copper, mean', ({ vineyard }) => orUnknown(vineyard.copper.season, units)),
      numbers('treatment frequency', ({ vineyard }) => vineyard.treatmentFrequency.toFixed(1)),
    ],
    columns,
  )
}
