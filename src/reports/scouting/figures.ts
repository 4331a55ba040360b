import { figures, under } from '../../facts/figure.ts'

/** What `explain` says of the figures of `scouting`. */
export const FIGURES = figures('disease', [
  {
    name: 'find-advice',
    keys: ['scouting.finds', 'scouting.rounds', 'note.finds'],
    what: 'What to do after a find: which products you may use, and when to scout again. It says how many are affected, and when infection began. After a treatment: whether there are fewer, as many or more, and whether that is more than chance.',
    formula:
      'A find calls for action at or over its threshold, or in the critical period of fruit. It does so for 28 days. From infection to find, powdery takes 7 to 10 days, downy 4 to 18, black rot 8 to 25. The next round is 7 days after treating.',
    limits:
      'The records decide which product may be used, by: authorisation; pre-harvest interval against the harvest window; stages; applications; total for the season; copper limits; interval; mode-of-action group; stock. A group used as often as an advisory body advises comes last. Nothing is recommended once the sugar target may be reached. The coming weather is not known.',
    memory:
      'Nita 2012, Virginia Tech (powdery); ADVID, year not known (downy); UCCE Central Sierra bulletin, year not known (a lesion sporulates 28 days); Newcombe 1998 for the change, second-hand, form read in public statistics packages; a week: common practice, no source; black rot from memory',
  },
  {
    name: 'incidence',
    keys: under('scouting.walks', 'looked found incidence low high'),
    what: 'Share of the bunches, leaves or shoots looked at that show symptoms, with a 95 % interval.',
    formula:
      "incidence = found / looked at. The interval is Wilson's score interval without continuity correction.",
    units: 'share, 0 to 1',
    limits:
      'It assumes that units are independent. Leaves of one vine are not, so the real uncertainty is larger.',
    'second-hand':
      'Wilson 1927; Newcombe 1998, Statistics in Medicine 17:857-872, method 3, second-hand, form read in public statistics packages',
  },
  {
    name: 'severity',
    keys: ['scouting.walks.severity', 'scouting.walks.severityAffected'],
    what: 'Mean share of the surface that is diseased: over all units looked at, and over the affected ones.',
    formula:
      'severity = sum of class midpoint x units in the class / units. Over the affected, the sum is divided by the affected.',
    units: 'share, 0 to 1',
    limits: 'The mean over all units cannot exceed the incidence.',
    choices:
      'Where an entry names no organ, its severity or classes belong to the first organ counted, bunches first. `scored` gives those of each.',
    'common practice':
      'Wine Australia, year not known: severity is the average of the surface scores; class midpoints: common practice, no source',
  },
  {
    name: 'incidence-change',
    keys: under('scouting.trends', 'from to change beyondChance'),
    what: 'How much incidence changed between two scouting rounds, and whether that is more than chance.',
    formula:
      'It is the hybrid score interval of the difference of two independent shares. A change is more than chance where the interval excludes 0.',
    units: 'share; true or false',
    memory: 'Newcombe 1998, Statistics in Medicine 17:873-890, method 10, from memory',
  },
  {
    name: 'scouting-state',
    keys: [...under('scouting', 'states precision detection maps'), 'scouting.walks.rows'],
    what: 'How each disease stood at its newest scouting round: days since, threshold, and where it was seen. Also how many more to look at for a precise share, and how many to find it at all.',
    formula: 'units to find a share p with 95 % certainty = ln 0.05 / ln(1 - p), rounded up',
    limits: 'Precise means within 0.05, our own choice, unless you ask for another figure.',
    own: 'binomial, any textbook; thresholds as for the harvest decision',
  },
  {
    name: 'incidence-change-detail',
    keys: ['scouting.trends.low', 'scouting.trends.high', 'scouting.trends.sprays'],
    what: 'Ends of the 95 % interval of a change of incidence, and the sprays between the two rounds.',
    units: 'share',
    memory: 'Newcombe 1998, Statistics in Medicine 17:873-890, method 10, from memory',
  },
])
