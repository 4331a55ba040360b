/** Usual ranges at picking: Brix (null where they differ too much by region), titratable acidity as tartaric acid in g/L, and pH. */
interface StyleRanges {
  brix: readonly [low: number, high: number] | null
  ta: readonly [low: number, high: number]
  ph: readonly [low: number, high: number]
}

export const STYLE_RANGES_SOURCE = 'common practice, no source; ranges differ by region'

/**
 * Ranges in which fruit for a kind of wine is usually picked. Common practice, no source; ranges differ by region, and
 * what the grower and the winery set comes first. The eXtension ranges (white pH 3.1-3.3, red pH 3.3-3.4, 7-9 g/L; FAQ
 * 34898, read) lie in those of white and, for pH, of red. Sugar of rosé is left to the grower.
 */
export const STYLE_RANGES: Readonly<Record<'sparkling' | 'white' | 'rosé' | 'red' | 'dessert', StyleRanges>> =
  {
    sparkling: { brix: [16, 18.5], ta: [8, 13], ph: [2.9, 3.15] },
    white: { brix: [20, 21], ta: [7, 9.5], ph: [3.0, 3.3] },
    rosé: { brix: null, ta: [6.5, 9], ph: [3.0, 3.4] },
    red: { brix: [22, 24], ta: [6, 8], ph: [3.3, 3.6] },
    dessert: { brix: [26, 40], ta: [7, 12], ph: [3.0, 3.6] },
  }
