import { type Figure, under } from '../../facts/figure.ts'

/** What `explain danger` says: the whole of the judgement. */
export const DANGER: Figure = {
  name: 'danger',
  topic: 'disease',
  keys: [
    'pressure.danger',
    'cover.blocks.days.danger',
    ...under('cover.blocks.gaps', 'danger risk'),
    'today.items.reasons',
  ],
  what: 'How likely and how serious a disease is in a block on a day: low, moderate, high or unknown. It comes with reasons, and with what is not known. It is worked out in one place from weather, scouting, susceptible tissue, the variety and the last scouting round.',
  formula: [
    'Weather: the last 7 days. Powdery: index up to 30 low, 40 and 50 moderate, from 60 high (Gubler in Western Farm Press, read); a wet spell for ascospores is at least moderate. Downy: high after a primary infection, or after a suitable night since oil spots were seen; files with one row a day use the three tens (Baldacci 1947 as cited). Botrytis: the class of the worst wet spell (Broome et al. 1995). Black rot: high after an infection (Spotts 1977).',
    'Tissue: powdery on fruit is high from 10 days before bloom to 28 after, whatever the index (Michigan State University in Western Farm Press, read). Downy on fruit: to 28 days after bloom, when berry stalks resist too (Kennelly et al. 2005, abstract read). Black rot: to 42 days (Disease Notes for the Mid-Atlantic, read). Botrytis: only at bloom, bunch closure, veraison and before harvest (University of Maryland Extension 2023, read). Leaves alone: at most moderate.',
    'Phomopsis, where `diseases:` or a find names it: moderate after shoots were wet for 10 h (common practice, no source), else unknown. Files with one row a day: days that reached 21 °C and rain are given as reasons; what needs hours stays unknown.',
    "Winter: the last finds of the season before (common practice, no source) and downy's winter spores by their sum (French-Swiss advice) are given as reasons and change no class.",
    'Variety: one class down for a resistant one, one class up for a susceptible one; never where nothing could infect, and never for what was seen.',
    'Scouting: high at or over the threshold, or at any find in the critical period (not botrytis), for 28 days or until a round looks at half as many and finds none; oil spots and a suitable night are high; any other find is moderate. A find in another block makes fruit at risk moderate.',
  ].join(' '),
  units: 'class',
  limits:
    'unknown hours or days make it unknown, unless it is high already: unknown is never low. The last 2 days of a station may be missing. A disease is judged only if the site names it (`diseases:`), or a product, a find or a threshold does',
  choices:
    'a noted stage means that the vines had reached it by that day, so it never lowers the danger of earlier days. Where no stage is noted, the heat sum of the variety, past blooms of the block or the usual calendar at the latitude is used and named; fruit that may be at risk is then at least moderate for powdery. Below 12 °C botrytis is taken as at 12 °C (a public reading of Broome et al.). Common practice, no source: 7 days back, 10 days before bloom, a class for the variety, and when leaves stop mattering (powdery and black rot at veraison, downy at softening)',
  source:
    'days to symptoms: Nita 2012, Virginia Tech, and ADVID, year not known; the indices as each says; a week to the next round and the spans named above: common practice, no source',
  basis: 'common practice',
}
