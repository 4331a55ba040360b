import { figures, under } from '../../facts/figure.ts'

/** What `explain` says of the figures of `ready`. */
export const FIGURES = figures('when to pick', [
  {
    name: 're-entry',
    topic: 'spraying',
    keys: ['ready.blocks.gates.until', 'note.follows.reEntry'],
    what: 'When people may enter a sprayed block again. The longest re-entry interval (REI) of the products counts, in hours from the end of spraying. `until dry` means the end of the day, or two hours after spraying where that is later. A spray over the label has no re-entry time.',
    formula: 're-entry = end of spraying + hours, across clock changes',
    units: 'local time with offset',
    limits: 'Where no end time is recorded, it counts from the end of the day.',
    read: '40 CFR 170.112, text of 2007; 40 CFR 170 as amended in 2015 and since was not read. The times are those of your label',
  },
  {
    name: 'harvest-checks',
    keys: ['ready.blocks.verdict', 'ready.blocks.gates.detail'],
    what: 'The harvest decision. It checks records, pre-harvest interval (PHI), re-entry interval (REI), disease, sugar, acid and crop. Each is passed, waiting, failed, unknown or not asked.',
    formula:
      'Stop: a check fails, or records, PHI, REI or disease are unknown. Ready: all required checks pass. Wait: anything else.',
    limits:
      'An unknown check never passes. Acid is checked where there is a target of `ta` or `ph`. It is also checked where a style has one and acid was measured. Crop is checked where bunches were counted or a yield is the target. A pH fails from 0.05 above its range, the error of a meter (common practice, no source).',
    choices:
      'Bunches decide. Leaves are reported beside them. Thresholds of the block or the site apply to bunches. Without them, the limits are: 3 % of bunches for powdery mildew; 5 % for others; 3 % mean severity for botrytis. Where only the incidence of botrytis is known, the bounds of its severity are given, and the check waits. A disease noted without a count, then or later, makes it unknown; on leaves alone, only botrytis does. Ranges by style are common practice, without a source, and differ by region.',
    'common practice':
      'botrytis severity of 3 %: Aust. J. Grape Wine Res. 2024, 6630039; powdery mildew from 3 %: Gubler, UCCE Central Sierra bulletin, year not known; the other thresholds common practice, no source',
  },
  {
    name: 'not-asked',
    keys: ['ready.blocks.gates.state'],
    what: 'The result of a check. `pass`: nothing recorded is against it. `wait`: not yet. `fail`: something recorded is against it. `unknown`: a record is missing. `not-asked`: no target or count was ever set, so it holds nothing back.',
    limits:
      'Only acid and crop can be `not-asked`. Set a target (`ta`, `ph`) or count bunches, and they are checked.',
    own: 'our own words for a result',
  },
  {
    name: 'pick-now-and-sort',
    keys: ['ready.blocks.advice'],
    what: 'Advice beside the verdict where waiting costs more than it gains. Sugar is within 1 Brix of its target, and botrytis is rising or over the limit, or rain is coming. Up to 3 Brix away, weigh picking where rot is over its limit, or will be before sugar gets there.',
    formula:
      'severity at the target = last severity + rise a day x days since. The rise is that between the last two rounds',
    units: 'reasons in words',
    limits:
      'It is given only where records, PHI and REI allow picking. 1 Brix, and 10 mm of rain in a week, are common practice, without a source. 3 Brix is our own choice. Rot grows faster than this straight line.',
    read: 'Aust. J. Grape Wine Res. 2024, 6630039, table 2: severity of 3 % came 7 to 32 days before 20 Brix in five of five block-seasons of Riesling',
  },
  {
    name: 'picking-order',
    keys: ['ready.order', 'ready.press'],
    what: 'Which block to pick first with few hands: of what can be picked, rot first, then danger of botrytis, then sugar above its range; then what has a date, by that date. The report says so where more is ready than the press takes in a day (`press: { capacity: 300 kg }` in vineyard.yaml).',
    'common practice': 'common practice, no source',
  },
  {
    name: 'check-detail',
    keys: [
      'ready.blocks.gates',
      ...under('ready.blocks', 'turns todo rain pressure picked conflicts sulphur forecast danger observed'),
    ],
    what: 'When a check that says wait is likely to pass, and what to do for it. Also how likely sugar is at its target now, and recent rain and disease.',
    own: 'the figures of window, crop, scouting and pressure',
  },
])
