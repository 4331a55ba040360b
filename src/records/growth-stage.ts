/**
 * Growth stages of the grapevine on the BBCH scale.
 * Source: Lorenz et al. 1995, Phenological growth stages of the grapevine, Aust. J. Grape Wine Res. 1:91-103;
 * Meier (ed.) 2001, BBCH Monograph, 2nd edition. The short descriptions are our own.
 */
export const GROWTH_STAGES: ReadonlyMap<number, string> = new Map([
  [0, 'dormant'],
  [1, 'buds begin to swell'],
  [3, 'buds swollen, not yet green'],
  [5, 'brown wool plain to see'],
  [7, 'first green of the shoot'],
  [8, 'green shoot tips'],
  [9, 'green shoot tips plain to see'],
  [11, 'first leaf spread'],
  [12, 'two leaves spread'],
  [13, 'three leaves spread'],
  [14, 'four leaves spread'],
  [15, 'five leaves spread'],
  [16, 'six leaves spread'],
  [17, 'seven leaves spread'],
  [18, 'eight leaves spread'],
  [19, 'nine or more leaves spread'],
  [53, 'flower clusters plain to see'],
  [55, 'flower clusters swelling, flowers close together'],
  [57, 'flower clusters full, flowers apart'],
  [60, 'first caps loose'],
  [61, 'flowering begins, a tenth of caps off'],
  [62, 'a fifth of caps off'],
  [63, 'early flowering, three tenths of caps off'],
  [64, 'four tenths of caps off'],
  [65, 'full flowering, half of caps off'],
  [66, 'six tenths of caps off'],
  [67, 'seven tenths of caps off'],
  [68, 'eight tenths of caps off'],
  [69, 'flowering over'],
  [71, 'fruit set'],
  [73, 'peppercorn size, bunches begin to hang'],
  [75, 'pea size, bunches hang'],
  [77, 'start of bunch closure'],
  [79, 'bunch closure complete'],
  [81, 'start of veraison, first colour'],
  [83, 'veraison under way'],
  [85, 'berries soften'],
  [89, 'ripe for picking'],
  [91, 'after picking, wood ripens'],
  [92, 'leaves begin to colour'],
  [93, 'leaves begin to fall'],
  [95, 'half of leaves fallen'],
  [97, 'leaf fall over'],
  [99, 'picked crop'],
])

/** The stage of the scale nearest to a code that isn't on it. */
export function nearestStage(code: number): number {
  let nearest = 0
  for (const stage of GROWTH_STAGES.keys()) {
    if (Math.abs(stage - code) < Math.abs(nearest - code)) nearest = stage
  }
  return nearest
}
