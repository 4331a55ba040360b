/** Usual ranges at picking: Brix, titratable acidity as tartaric acid in g/L, and pH. */
export interface StyleRanges {
  brix: readonly [low: number, high: number]
  ta: readonly [low: number, high: number]
  ph: readonly [low: number, high: number]
}

export const STYLE_RANGES_SOURCE = 'common practice, no source; ranges differ by region'

/**
 * Ranges in which fruit for a kind of wine is usually picked. Common practice, no source; ranges differ by region, and
 * what the grower and the winery set comes first.
 */
export const STYLE_RANGES: Readonly<Record<'sparkling' | 'white' | 'rosé' | 'red' | 'dessert', StyleRanges>> =
  {
    sparkling: { brix: [16, 18.5], ta: [8, 13], ph: [2.9, 3.15] },
    white: { brix: [19, 23], ta: [7, 9.5], ph: [3.0, 3.3] },
    rosé: { brix: [18.5, 22], ta: [6.5, 9], ph: [3.0, 3.4] },
    red: { brix: [21, 25], ta: [6, 8], ph: [3.3, 3.6] },
    dessert: { brix: [26, 40], ta: [7, 12], ph: [3.0, 3.6] },
  }
