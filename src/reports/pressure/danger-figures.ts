import { under, type WrittenFigure } from '../../facts/figure.ts'

/** What `explain danger` says: the whole of the judgement. */
export const DANGER: WrittenFigure = {
  name: 'danger',
  keys: [
    'pressure.danger',
    'cover.blocks.days.danger',
    ...under('cover.blocks.gaps', 'danger risk'),
    'today.items.reasons',
  ],
  what: 'How likely and how serious a disease is in a block on a day: low, moderate, high or unknown. It comes with reasons, and with what is not known. It is worked out in one place from weather, scouting, susceptible tissue, the variety and the last scouting round.',
  formula: [
    'Weather: the last 7 days count. Powdery is low up to index 30, moderate at 40 and 50, high from 60 (Gubler in Western Farm Press, read). A wet spell for ascospores makes it at least moderate. Downy is high after a primary infection, or after a suitable night since oil spots were seen. Files with one row a day use the three tens (Baldacci 1947 as cited). Botrytis has the class of the worst wet spell (Broome et al. 1995). Black rot is high after an infection (Spotts 1977).',
    'Tissue: powdery on fruit is high from 10 days before bloom to 28 after, whatever the index (Michigan State University in Western Farm Press, read). Downy can infect fruit to 28 days after bloom, when berry stalks resist too (Kennelly et al. 2005, abstract read). Black rot can to 42 days (Disease Notes for the Mid-Atlantic, read). Botrytis counts only at bloom, bunch closure, veraison and before harvest (University of Maryland Extension 2023, read). Fresh oil spots keep leaves at risk of downy after softening (AWRI eBulletin, 28 November 2024, read). Leaves alone are moderate at most.',
    'Phomopsis is judged where `diseases:` or a find names it. It is moderate after shoots were wet for 10 h (common practice, no source), else unknown. With files of one row a day, days that reached 21 °C and rain are given as reasons. What needs hours stays unknown.',
    "Winter: two things are given as reasons and change no class: the last finds of the season before (common practice, no source); downy's winter spores by their heat sum (French-Swiss advice).",
    'Variety: a resistant one is one class lower, a susceptible one is one class higher. This never counts where nothing could infect, nor for what was seen.',
    'Scouting: a find at or over the threshold is high. So is any find in the critical period, except botrytis. It counts for 28 days, or until a round looks at half as many and finds none. Oil spots and a suitable night are high. Any other find is moderate. A find in another block makes fruit at risk moderate.',
  ].join(' '),
  units: 'class',
  limits:
    'Unknown hours or days make it unknown, unless it is high already. Unknown is never low. The last 2 days of a station may be missing. A disease is judged only where the site names it (`diseases:`), or a product, a find or a threshold does.',
  choices:
    'A noted stage means that the vines had reached it by that day. So it never lowers the danger of earlier days. Where no stage is noted, one of these is used and named: the heat sum of the variety; past blooms of the block; the usual calendar at the latitude. Fruit that may be at risk is then at least moderate for powdery. Below 12 °C, botrytis is taken as at 12 °C (a public reading of Broome et al.). These are common practice, without a source: 7 days back; 10 days before bloom; a class for the variety; when leaves stop mattering (powdery and black rot at veraison, downy at softening).',
  'common practice':
    'days to symptoms: Nita 2012, Virginia Tech, and ADVID, year not known; the indices as each says; a week to the next round and the spans named above: common practice, no source',
}
