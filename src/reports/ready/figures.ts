import { ESTIMATE, figures, under } from '../../facts/figure.ts'

/** What `explain` says of the figures of `ready`. */
export const FIGURES = figures('when to pick', [
  {
    name: 're-entry',
    topic: 'spraying',
    keys: ['ready.blocks.gates.until', 'note.follows.reEntry'],
    what: 'When people may enter a sprayed block again. The longest re-entry interval (REI) of the products counts, in hours from the end of spraying. `until dry` means the end of the day, or two hours after spraying where that is later. A spray over the label has no re-entry time.',
    formula: 'end of spraying + hours, across clock changes',
    units: 'local time with offset',
    limits: 'where no end time is recorded, it counts from the end of the day',
    source:
      '40 CFR 170.112, text of 2007; 40 CFR 170 as amended in 2015 and since was not read. The times are those of your label',
    basis: 'read',
  },
  {
    name: 'harvest-checks',
    keys: ['ready.blocks.verdict', 'ready.blocks.gates.detail'],
    what: 'The harvest decision. It checks records, pre-harvest interval (PHI), re-entry interval (REI), disease, sugar, acid and crop. Each is passed, waiting, failed, unknown or not asked.',
    formula:
      'stop where a check fails, or where records, PHI, REI or disease are unknown; ready where all required checks pass; wait otherwise',
    limits:
      'an unknown check never passes. Acid is checked where there is a target of `ta` or `ph`, or where a style has one and acid was measured; crop where bunches were counted or a yield is the target. pH fails from 0.05 above its range, the error of a meter (common practice, no source)',
    choices:
      'bunches decide; leaves are reported beside them. Thresholds of the block or the site apply to bunches. Without them: 3 % of bunches for powdery mildew, 5 % for others, and 3 % mean severity for botrytis. Where only the incidence of botrytis is known, the bounds of its severity are given and the check waits; so it does for a disease noted without a count. Ranges by style are common practice, no source, and differ by region',
    source:
      'botrytis severity of 3 %: Aust. J. Grape Wine Res. 2024, 6630039; powdery mildew from 3 %: Gubler, UCCE Central Sierra bulletin, year not known; the other thresholds common practice, no source',
    basis: 'common practice',
  },
  {
    name: 'not-asked',
    keys: ['ready.blocks.gates.state'],
    what: 'The result of a check. `pass`: nothing recorded is against it. `wait`: not yet. `fail`: something recorded is against it. `unknown`: a record is missing. `not-asked`: no target or count was ever set, so it holds nothing back.',
    limits:
      'only acid and crop can be `not-asked`; set a target (`ta`, `ph`) or count bunches, and they are checked',
    source: 'our own words for a result',
    basis: 'own',
  },
  {
    name: 'pick-now-and-sort',
    keys: ['ready.blocks.advice'],
    what: 'Advice beside the verdict where waiting costs more than it gains. Sugar is within 1 Brix of its target, and botrytis is rising or over the limit, or rain is coming. Further away, up to 3 Brix, picking is to be weighed where rot is over its limit or passes it before sugar gets there.',
    formula:
      'severity by the day of the target = severity now + its rise a day since the round before x days to the target',
    units: 'reasons in words',
    limits:
      'only where records, PHI and REI allow picking; 1 Brix and 10 mm of rain in a week: common practice, no source; 3 Brix: our own choice; rot grows faster than this straight line',
    source:
      'Aust. J. Grape Wine Res. 2024, 6630039, table 2: severity of 3 % came 7 to 32 days before 20 Brix in five of five block-seasons of Riesling',
    basis: 'read',
  },
  {
    name: 'picking-order',
    keys: ['ready.order', 'ready.press'],
    what: 'Which block to pick first with few hands: of what can be picked, rot first, then danger of botrytis, then sugar above its range; then what has a date, by that date. The report says so where more is ready than the press takes in a day (`press: { capacity: 300 kg }` in vineyard.yaml).',
    source: 'common practice, no source',
    basis: 'common practice',
  },
  {
    name: 'check-detail',
    keys: [
      'ready.blocks.gates',
      ...under('ready.blocks', 'turns todo rain pressure picked conflicts sulphur forecast danger observed'),
    ],
    what: 'When a check that says wait is likely to pass, and what to do for it. Also how likely sugar is at its target now, and recent rain and disease.',
    limits: ESTIMATE,
    source: 'the figures of window, crop, scouting and pressure',
    basis: 'own',
  },
])
