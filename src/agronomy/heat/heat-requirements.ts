/**
 * Published base-0 requirements by variety, °C-days: data to start from, never truth. They are second-hand and not
 * checked against the papers, they differ between publications, and the grower's own past comes first.
 */
export interface HeatRequirementSource {
  citation: string
  year: number
  readIn: string
}

export const heatRequirementSources = {
  A: {
    citation: 'Parker et al. 2013, Agric. For. Meteorol. 180:249-264, in part perhaps Parker et al. 2011',
    year: 2013,
    readIn: 'second-hand: an R script of a French vine-disease research project',
  },
  B: {
    citation: 'Parker 2012, thesis, table 3-2, = Parker et al. 2013, Agric. For. Meteorol. 180:249-264',
    year: 2013,
    readIn: 'second-hand: a public vintage-atlas data pipeline',
  },
  sugar: {
    citation: 'Parker et al. 2020, Agric. For. Meteorol. 285-286:107902',
    year: 2020,
    readIn: 'second-hand: the same R script as column A',
  },
} as const satisfies Record<string, HeatRequirementSource>

export interface StageRequirement {
  flowering: number | null
  veraison: number | null
  /** Column B for veraison, where it was read. */
  veraisonB: number | null
}

const row = (flowering: number | null, veraison: number | null = null, veraisonB: number | null = null) => ({
  flowering,
  veraison,
  veraisonB,
})

/** Sums from `stageSumStart` to 50 % flowering and 50 % veraison: column A, and column B beside it. */
export const stageRequirements: Readonly<Record<string, StageRequirement>> = {
  meunier: row(1120, 2379),
  poulsard: row(1122),
  savagnin: row(1155),
  trousseau: row(1179),
  'muscat a petits grains': row(1200),
  'muscat de hambourg': row(1207),
  chardonnay: row(1217, 2547, 2547),
  'pinot noir': row(1219, 2511, 2511),
  gamay: row(1219),
  'cabernet franc': row(1225, 2655, 2692),
  aligote: row(1227, 2502),
  gewurztraminer: row(1230),
  'sauvignon blanc': row(1238, 2517, 2528),
  riesling: row(1242, 2584),
  cinsault: row(1265),
  merlot: row(1266, 2627, 2636),
  grenache: row(1269, 2750),
  'cabernet sauvignon': row(1270, 2641, 2689),
  chasselas: row(1274, 2342),
  syrah: row(1277, 2598),
  chenin: row(1280),
  carignan: row(1288),
  semillon: row(1317, null, 2537),
  mourvedre: row(1354),
  'ugni blanc': row(1376, 2777),
}

export const sugarTargets = [170, 180, 190, 200, 210, 220] as const
export type SugarTarget = (typeof sugarTargets)[number]

/**
 * Sums from `sugarSumStart` to each of `sugarTargets`, g/L. Neighbouring targets come from different data, so no rate of
 * ripening follows from their differences. Riesling at 170 g/L is left out: the figure read looks misprinted.
 */
export const sugarRequirements: Readonly<Record<string, Readonly<Partial<Record<SugarTarget, number>>>>> = {
  meunier: { 170: 2398, 180: 2474, 190: 2561, 200: 2634, 210: 2660, 220: 2727 },
  'sauvignon blanc': { 170: 2602, 180: 2671, 190: 2719, 200: 2820, 210: 2854, 220: 2895 },
  'pinot noir': { 170: 2695, 180: 2734, 190: 2788, 200: 2838, 210: 2899, 220: 2933 },
  merlot: { 170: 2696, 180: 2732, 190: 2794, 200: 2856, 210: 2904, 220: 2962 },
  chardonnay: { 170: 2723, 180: 2772, 190: 2813, 200: 2892 },
  'cabernet franc': { 170: 2683, 180: 2759, 190: 2837, 200: 2909, 210: 2964, 220: 3065 },
  syrah: { 170: 2817, 180: 2853, 190: 2934, 200: 2965, 210: 2987, 220: 3034 },
  grenache: { 170: 2786, 180: 2836, 190: 2890, 200: 2967, 210: 3062, 220: 3108 },
  'cabernet sauvignon': { 170: 2797, 180: 2865, 190: 2926, 200: 3031, 210: 3055, 220: 3136 },
  riesling: { 180: 3002, 190: 3069, 200: 3225 },
  'ugni blanc': { 170: 3108, 180: 3181 },
}
