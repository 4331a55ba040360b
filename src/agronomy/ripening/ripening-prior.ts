/** Values of a parameter on the grid, each with its prior probability. */
export type Shares = readonly (readonly [value: number, share: number])[]

/** The prior for a block's course before its season is sampled; levels in one unit, which rise as fruit ripens. */
export interface RipeningPrior {
  /** Rate a day at a level, and its standard deviation among blocks and seasons. */
  rate: { at: number; mean: number; spread: number }
  /** Mean and standard deviation of the rate by slowing, where learned from past seasons. */
  learned?: ReadonlyMap<number, { mean: number; spread: number }>
  /** By how much the rate falls for each unit of level, a day. */
  slowing: Shares
  /** Standard deviation of a day's sample from the block's mean, berries aside. */
  between: Shares
  /** Standard deviation of the swings of the rate, as a share of it. */
  wander: Shares
  /** By which share a day's rate rises for each °C that it is warmer than the season's own course. */
  warmth: Shares
  /** Standard deviation between the berries of a block. */
  within: number
  /** Standard deviation of an error that all readings of a season share (instrument, who samples). */
  shared: number
}

const WANDER: Shares = [
  [0.1, 0.6],
  [0.35, 0.4],
]
/** Acid falls more evenly than sugar rises. Own choice, no source. */
const ACID_WANDER: Shares = [
  [0.1, 0.7],
  [0.3, 0.3],
]
/** Mostly none: what a grid with more of it won on simulated seasons was lost again where warmth did nothing (tests/skill). */
const WARMTH: Shares = [
  [0, 0.92],
  [0.03, 0.08],
]

/**
 * Sugar, °Brix. Own choice, no source, narrowed by: 1 to 2 °Brix a week late in the season (handbook range, from
 * memory) and 0.25 to 0.33 a day from veraison to harvest in 45 to 60 days (calculated), so that the rate at 18 °Brix
 * is 0.15 to 0.34 nine times in ten; samples of one block and day differ by a standard deviation of 0.5, so that each
 * is off by 0.35, berries aside, and berries of a block by 1.75 (field data, from memory). The families of curves that
 * it was tried on, and those kept out, are in tests/skill.
 */
export const SUGAR: RipeningPrior = {
  rate: { at: 18, mean: 0.245, spread: 0.055 },
  slowing: [
    [0, 0.17],
    [0.013, 0.33],
    [0.026, 0.3],
    [0.04, 0.2],
  ],
  between: [
    [0.2, 0.45],
    [0.45, 0.55],
  ],
  wander: WANDER,
  warmth: WARMTH,
  within: 1.75,
  shared: 0.15,
}

/** °Brix at 50 % veraison, and its standard deviation among blocks: a vague first reading. Own choice, no source. */
export const VERAISON = { brix: 8.5, spread: 1.6, perDay: 0.35 }

/**
 * Titratable acidity as -ln(g/L), which rises as acid falls, and ever more slowly. Own choice, no source: from some 25
 * g/L at veraison to 8 in 45 days is 2.5 % a day in the mean (calculated), about 2 % near 9 g/L.
 */
export const ACID: RipeningPrior = {
  rate: { at: -Math.log(9), mean: 0.02, spread: 0.0055 },
  slowing: [
    [0, 0.25],
    [0.012, 0.4],
    [0.025, 0.35],
  ],
  between: [
    [0.03, 0.5],
    [0.06, 0.5],
  ],
  wander: ACID_WANDER,
  warmth: WARMTH,
  within: 0.15,
  shared: 0.02,
}

/**
 * pH, which rises ever more slowly too. Own choice, no source: from 2.7 to 3.2 in 40 days is 0.012 a day (calculated); nothing says
 * what warmth does to it. */
export const PH: RipeningPrior = {
  rate: { at: 3.1, mean: 0.012, spread: 0.004 },
  slowing: [
    [0, 0.4],
    [0.012, 0.35],
    [0.025, 0.25],
  ],
  between: [
    [0.03, 0.5],
    [0.06, 0.5],
  ],
  wander: ACID_WANDER,
  warmth: [[0, 1]],
  within: 0.12,
  shared: 0.02,
}
