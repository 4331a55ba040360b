import type { Names } from '../../facts/names.ts'
import type { Quantity } from '../../records/quantity.ts'
import { shortDate } from '../../records/spoken-date.ts'
import { figure, rough } from '../figure.ts'
import type { Style } from '../style.ts'
import { groupDigits } from '../text.ts'
import { display } from '../units.ts'
import { type Content, html, type Markup } from './markup.ts'

/** The cell for an unknown figure. */
export const UNKNOWN = html`<span class="quiet">unknown</span>`

export const dateCell = (date: string | null): Markup | string =>
  date === null ? UNKNOWN : html`<time datetime="${date}">${shortDate(date)}</time>`

export const numberCell = (value: number | null, decimals: number): Markup | string =>
  value === null ? UNKNOWN : groupDigits(figure(value, decimals))

export const quantityCell = (
  value: Quantity | null,
  { units }: { units: Style['units'] },
): Markup | string => (value === null ? UNKNOWN : display(value, units))

/** An estimate in three figures: a crop has no decimals. */
export const roughCell = (value: Quantity | null, { units }: { units: Style['units'] }): Markup | string =>
  value === null ? UNKNOWN : rough(value, units)

/** `low to high`, or the end that is known. */
export const spanCell = (low: number | null, high: number | null, decimals: number): Markup | string =>
  low === null || high === null ? UNKNOWN : `${figure(low, decimals)} to ${figure(high, decimals)}`

/** Share 0 to 1 as per cent. */
export const shareCell = (share: number | null, decimals = 0): Markup | string =>
  share === null ? UNKNOWN : `${figure(share * 100, decimals)} %`

/** The name of a block, or its id where it has none. */
export const nameOf = (names: Names, block: string): string => names.blocks.get(block) ?? block

/** What is missing from the figures of blocks, a line each. */
export const missingLines = (
  blocks: readonly { block: string; missing: string | null }[],
  { names }: { names: Names },
): Content =>
  blocks.map(
    ({ block, missing }) => missing && html`<p class="quiet">${nameOf(names, block)}: ${missing}.</p>\n`,
  )

export const productName = (names: Names, product: string): string => names.products.get(product) ?? product

/** How a word is coloured. */
type Tone = 'good' | 'doubtful' | 'bad'

const SIGNS = { good: '✓', doubtful: '…', bad: '✗' } as const

/** A coloured word with a sign before it, for readers who can't tell the colours apart. */
export const toned = (word: string, tone: Tone, sign: string = SIGNS[tone]): Markup =>
  html`<span class="${tone}"><span aria-hidden="true">${sign} </span>${word}</span>`
