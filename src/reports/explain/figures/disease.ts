import type { Figure } from './figure.ts'

const topic = 'disease'

export const DISEASE: readonly Figure[] = [
  {
    name: 'powdery-index',
    topic,
    keys: [
      'pressure.days.powdery.index',
      'pressure.days.powdery.points',
      'pressure.days.powdery.hoursInRange',
    ],
    what: 'Powdery mildew temperature index, 0 to 100: how fast the fungus can multiply. To 30 low, 40 and 50 moderate, from 60 high.',
    formula:
      'a day with 6 hours in a row at 70-85 °F adds 20 until 60 is reached, another day sets it back to 0; from then on such a day adds 20, or 10 if it was also 95 °F or hotter, and any other day takes 10',
    units: 'points; hours',
    limits: '21.1 to 29.4 °C inclusive, 35.0 °C; a day with missing hours has bounds in place of a value',
    choices: 'in the start phase heat is ignored, which no source settles; the reset to 0 is from memory',
    source:
      'Gubler, Rademacher, Vasquez & Thomas 1999, APSnet Features (introduction read); rules as reprinted from UC Cooperative Extension in Western Farm Press',
    basis: 'read',
  },
  {
    name: 'downy-primary',
    topic,
    keys: ['pressure.days.downy.primary', 'pressure.days.downy.why'],
    what: 'Whether rain and warmth of the day let downy mildew infect from the soil for the first time; it over-warns, since not every such event infects.',
    formula:
      'at least 10 mm of rain within 24 h while it is at least 10 °C, on shoots of at least 10 cm; other rules by option',
    units: 'true, false, or null where data are missing',
    choices:
      'five rules are in use; the one used is named with the day, and the moving 24 hours are our choice',
    source: 'DPIRD Western Australia 2021; WineSkills, Plumpton (both read)',
    basis: 'read',
  },
  {
    name: 'botrytis-risk',
    topic,
    keys: ['pressure.days.botrytis.index', 'pressure.days.botrytis.risk'],
    what: 'Share of berries that a wet spell is predicted to infect with botrytis, and its class.',
    formula:
      'logit = -2.647866 + W (-0.374927 + 0.061601 T - 0.001511 T²), W hours wet, T mean °C while wet; index = 1 / (1 + e^-logit); classes split the logit at 0, 0.5 and 1',
    units: 'share, 0 to 1',
    limits: 'no value outside 12-30 °C; stated for 4 to 24 h of wetness; a dry gap above 4 h ends a spell',
    choices:
      'a spell without wetness is no risk, though the equation gives 0.066 there; a value on a limit takes the higher class',
    source:
      'Broome, English, Marois, Latorre & Aviles 1995, Phytopathology 85:97-102; coefficients as read in four public research codes, classes from memory',
    basis: 'read',
  },
  {
    name: 'black-rot-infection',
    topic,
    keys: ['pressure.days.blackRot.infection'],
    what: 'Whether leaves were wet long enough at the temperature for black rot to infect.',
    formula: 'hours of wetness against the table of hours by mean temperature, straight between its rows',
    units: 'true, false, or null where the table or the data do not answer',
    limits: '10.0 to 32.2 °C; a dry gap above 4 h ends a spell',
    choices:
      'no source gives a rule between the rows; leaves wetted again within two days could still be infected, so a spell just under the hours is no all-clear',
    source: 'Spotts 1977, Phytopathology 67:1378-1381, table as printed by Michigan State University IPM',
    basis: 'read',
  },
  {
    name: 'cover',
    topic,
    keys: [
      'cover.from',
      'cover.blocks.days.covered',
      'cover.blocks.days.by',
      'cover.blocks.days.daysLeft',
      'cover.blocks.days.rainSince',
      'cover.blocks.days.pressure',
      'cover.blocks.days.share',
    ],
    what: 'Whether a spray still protects: it ends with the first of rain before it was dry, rain in sum, the days that it protects, new growth, and its interval.',
    formula: "days and rain in sum since the end of the spray against the product's `protects` and `rain`",
    units: 'days; mm',
    limits:
      'a limit reached means probably no longer enough, not that all is gone; unknown where rain is missing',
    choices:
      'the sum of rain counts and not the single fall; rows sprayed on several days add up to a block and the part that ends first decides, while parts written as shares may lie over one another; where the interval table advises no product of a class, the days of the band below stand and it is said',
    source: 'La Vigne/Phytoma archive VI1532118402 (read); the limits are those of the label',
    basis: 'read',
  },
  {
    name: 'cover-gaps',
    topic,
    keys: ['cover.blocks.gaps.from', 'cover.blocks.gaps.to', 'cover.blocks.gaps.worstIndex'],
    what: 'Days on which a block had no cover, and the highest disease index in them.',
    units: 'dates; points',
    source: 'the cover and the index, day by day',
    basis: 'own',
  },
  {
    name: 'harvest-stop',
    topic,
    keys: [
      'cover.blocks.harvestStop.picking',
      'cover.blocks.harvestStop.nextDue',
      'cover.blocks.harvestStop.lastDay',
      'cover.blocks.harvestStop.inTime',
    ],
    what: 'Which products may still be sprayed when the next spray is due, so that picking may begin when the window opens.',
    formula:
      'last day = first day of picking - days before harvest - 1; picking from the earliest day of the window, of the sprays made, or today, whichever is latest',
    units: 'dates',
    limits: 'nothing is said where there is no window; products whose days are not in the book are named',
    choices: 'the cautious reading, of a spray that ends at midnight',
    source: 'the label, as copied into the product record',
    basis: 'own',
  },
  {
    name: 'incidence',
    topic,
    keys: [
      'scouting.walks.looked',
      'scouting.walks.found',
      'scouting.walks.incidence',
      'scouting.walks.low',
      'scouting.walks.high',
    ],
    what: 'Share of the bunches, leaves or shoots looked at that show symptoms, with a 95 % interval.',
    formula: 'found / looked; Wilson score interval without continuity correction',
    units: 'share, 0 to 1',
    limits: 'units are taken as independent, which leaves of one vine are not: the truth is less certain',
    source: 'Wilson 1927; Newcombe 1998, Statistics in Medicine 17:857-872, method 3',
    basis: 'read',
  },
  {
    name: 'severity',
    topic,
    keys: ['scouting.walks.severity', 'scouting.walks.severityAffected'],
    what: 'Mean share of the surface that is diseased: over all units looked at, and over the affected ones.',
    formula: 'sum of class midpoint x units / units; over the affected, divided by the affected',
    units: 'share, 0 to 1',
    limits: 'the mean over all units can not exceed incidence',
    choices:
      'a severity or classes without an organ are of the first organ counted, the bunches before all; `scored` gives those of each',
    source:
      'class midpoints, common practice; Wine Australia: severity is the average of the surface scores (undated)',
    basis: 'read',
  },
  {
    name: 'incidence-change',
    topic,
    keys: [
      'scouting.trends.from',
      'scouting.trends.to',
      'scouting.trends.change',
      'scouting.trends.beyondChance',
    ],
    what: 'By how much incidence changed between two walks, and whether that is more than chance.',
    formula:
      'hybrid score interval of the difference of two independent shares; beyond chance where it leaves 0 out',
    units: 'share; true or false',
    source: 'Newcombe 1998, Statistics in Medicine 17:873-890, method 10',
    basis: 'read',
  },
]
