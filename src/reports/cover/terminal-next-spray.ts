import { listed } from '../../facts/sentences.ts'
import { diseaseWord } from '../../records/disease.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { words } from '../../render/columns.ts'
import { blockName, type CoverNames, productName } from '../../render/disease-words.ts'
import { renderTable } from '../../render/table.ts'
import type { HarvestStop } from './harvest-stop.ts'
import { type CoverData, coversIn } from './report.ts'

/** How the pre-harvest intervals limit the next spray, where they rule out a product; else empty. */
export function nextSprayTable({ blocks, disease }: CoverData, names: CoverNames, columns: number): string {
  const asOf = blocks[0]?.days.at(-1)?.date
  const shut = coversIn(blocks).flatMap(
    ({ block, cover: { disease: against, harvestStop: stop, sprays } }) =>
      stop?.picking && isShut(stop) && (against === disease || sprays.length > 0)
        ? [{ block, against, stop, picking: stop.picking }]
        : [],
  )
  if (shut.length === 0) return ''
  return renderTable(
    shut,
    [
      words(
        'next spray',
        ({ block }, at) => (shut[at - 1]?.block === block ? '' : blockName(block, names)),
        14,
      ),
      words('against', ({ against }) => diseaseWord(against)),
      words('due', ({ stop }) => (stop.nextDue === asOf ? 'now' : shortDate(stop.nextDue))),
      words('picking', ({ picking }) => shortDate(picking)),
      words('by the pre-harvest interval (PHI)', ({ stop }) => legalText(stop, names), 36),
    ],
    columns,
  )
}

const isShut = ({ inTime, products }: HarvestStop) => inTime.length < products.length

/** Which products may still be sprayed, until when, and which not. */
export function legalText({ inTime, products, lastDay }: HarvestStop, names: CoverNames): string {
  const name = ({ product }: { product: string }) => productName(product, names)
  const unknown = products.filter((one) => one.lastDay === null)
  const open = unknown.length > 0 ? `; not known: ${listed(unknown.map(name))}` : ''
  if (lastDay === null) return `not known: ${listed(unknown.map(name))}`
  if (inTime.length === 0) return `too late, last day ${shortDate(lastDay)} (${name(products[0]!)})${open}`
  const may = products.filter(({ product }) => inTime.includes(product))
  const late = products.filter((one) => one.lastDay !== null && !inTime.includes(one.product))
  const until = listed(may.map((one) => `${name(one)} until ${shortDate(one.lastDay!)}`))
  return `${until}${late.length > 0 ? `; too late for ${listed(late.map(name))}` : ''}${open}`
}
