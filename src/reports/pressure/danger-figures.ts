import type { Figure } from '../../facts/figure.ts'

/** What `explain danger` says: the whole of the judgement. */
export const DANGER: Figure = {
  name: 'danger',
  topic: 'disease',
  keys: [
    'pressure.danger',
    'cover.blocks.days.danger',
    'cover.blocks.gaps.danger',
    'cover.blocks.gaps.risk',
    'today.items.reasons',
  ],
  what: 'How likely and how grave a disease is in a block on a day: low, moderate, high or unknown, with its reasons and what is not known. It is worked out in one place from weather, what scouting saw, the tissue that is open to infection, the variety and the last round.',
  formula: [
    'Weather of 7 days. Powdery: index to 30 low, 40 and 50 moderate, from 60 high (Gubler in Western Farm Press, read); a wet spell for ascospores at least moderate. Downy: a primary infection high, or a suited night since oil spots were seen; files with one row a day by three tens (Baldacci 1947 as cited). Botrytis: the class of the worst wet spell (Broome et al. 1995). Black rot: an infection high (Spotts 1977).',
    'Tissue. Powdery on fruit: high from 10 days before bloom to 28 after, whatever the index (Michigan State University in Western Farm Press, read). Downy on fruit: to 28 days after bloom, when berry stalks resist too (Kennelly et al. 2005, abstract read). Black rot: to 42 (Disease Notes for the Mid-Atlantic, read). Botrytis: only at bloom, bunch closure, veraison and before harvest (University of Maryland Extension 2023, read). Leaves alone: moderate at most.',
    'Phomopsis, where `diseases:` or a find names it: shoots wet for 10 h moderate (common practice, no source), else unknown. Files with one row a day: days that reached 21 °C and rain are told, and what goes by hours stays unknown.',
    "Winter: what the last round of the season before found (common practice, no source), and downy's winter spores by their sum (French-Swiss advice), are told as reasons and move no class.",
    'Variety: a resistant one takes a class off, a susceptible one adds one; never where nothing could infect, and never to what was seen.',
    'Scouting: high at or over the threshold, or at any find in the critical period (not botrytis), for 28 days or until a round looks at half as many and finds none; oil spots with a suited night high; else moderate. A find in another block makes fruit at risk moderate.',
  ].join(' '),
  units: 'class',
  limits:
    'unknown hours or days make it unknown, unless it is as high as it can be: unknown is never low; the last 2 days of a station may be missing; diseases that neither the site names (`diseases:`) nor a product, a find or a threshold knows are not judged',
  choices:
    'a noted stage says that the vines had reached it by then, so it never lowers the danger of the days before; where no stage is noted, the heat sum of the variety, past blooms of the block or the usual calendar at the latitude stand, named, and fruit that may be at risk counts as moderate at least for powdery; botrytis below 12 °C is taken as at 12 °C (a public reading of Broome et al.); 7 days back, 10 days before bloom, a class for the variety, and the ends of leaves (powdery and black rot at veraison, downy at softening): common practice, no source',
  source:
    'days to symptoms: Nita 2012, Virginia Tech, and ADVID, year not known; the indices as each says; a week to the next round and the spans named above: common practice, no source',
  basis: 'common practice',
}
