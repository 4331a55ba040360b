export const sugarTargets = [170, 180, 190, 200, 210, 220] as const
type SugarTarget = (typeof sugarTargets)[number]

/**
 * Published base-0 requirements by variety, °C-days: data to start from, never truth; the grower's own past comes first.
 * Sums from `sugarSumStart` to each of `sugarTargets`, g/L. Source: Parker et al. 2020, Agric. For. Meteorol.
 * 285-286:107902, second-hand, read in a script of a French research project on vine diseases. Neighbouring targets come from different data, so no rate of
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
