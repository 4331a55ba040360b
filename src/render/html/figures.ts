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

const cell = <T>(value: T | null, say: (value: T) => Markup | string): Markup | string =>
  value === null ? UNKNOWN : say(value)

export const dateCell = (date: string | null) =>
  cell(date, (day) => html`<time datetime="${day}">${shortDate(day)}</time>`)

export const numberCell = (value: number | null, decimals: number) =>
  cell(value, (known) => groupDigits(figure(known, decimals)))

type InUnits = { units: Style['units'] }

export const quantityCell = (value: Quantity | null, { units }: InUnits) =>
  cell(value, (known) => display(known, units))

/** An estimate in three figures: a crop has no decimals. */
export const roughCell = (value: Quantity | null, { units }: InUnits) =>
  cell(value, (known) => rough(known, units))

/** `low to high`. */
export const spanCell = (low: number | null, high: number | null, decimals: number): Markup | string =>
  low === null || high === null ? UNKNOWN : `${figure(low, decimals)} to ${figure(high, decimals)}`

/** Share 0 to 1 as per cent. */
export const shareCell = (share: number | null, decimals = 0) =>
  cell(share, (known) => `${figure(known * 100, decimals)} %`)

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
