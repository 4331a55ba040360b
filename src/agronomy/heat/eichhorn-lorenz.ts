/** Stages of the two scales that lie nearest to each other, from memory. */
const NEAREST: ReadonlyMap<number, number> = new Map([
  ...([
    [0, 1],
    [1, 2],
    [5, 3],
    [7, 4],
    [9, 5],
    [11, 7],
    [12, 9],
    [13, 9],
  ] as const),
  ...([
    [14, 11],
    [15, 12],
    [16, 13],
    [17, 14],
    [18, 15],
    [19, 16],
  ] as const),
  ...([
    [53, 12],
    [55, 15],
    [57, 17],
    [60, 19],
    [61, 20],
    [63, 21],
    [65, 23],
    [68, 25],
    [69, 26],
  ] as const),
  ...([
    [71, 27],
    [73, 29],
    [75, 31],
    [77, 32],
    [79, 33],
    [81, 35],
    [83, 36],
    [85, 37],
    [89, 38],
  ] as const),
  ...([
    [91, 41],
    [93, 43],
    [97, 47],
  ] as const),
])

/**
 * The modified Eichhorn-Lorenz stage nearest to a BBCH stage of the grapevine; null where none is near.
 * Sources: Lorenz et al. 1995, AJGWR 1:91-103; Coombe 1995, AJGWR 1:104-110. Which stages answer each other is from
 * memory: the scales are cut differently, so that "nearest" is all that can be said.
 */
export function eichhornLorenz(stage: number): number | null {
  return NEAREST.get(stage) ?? null
}
