import { figures, under } from '../../facts/figure.ts'
import { DANGER } from './danger-figures.ts'

/** What `explain` says of the figures of `pressure`. */
export const FIGURES = figures('disease', [
  DANGER,
  {
    name: 'powdery-index',
    keys: under('pressure.days.powdery', 'index points hoursInRange'),
    what: 'Powdery mildew temperature index, 0 to 100: how fast the fungus can multiply. To 30 low, 40 and 50 moderate, from 60 high.',
    formula:
      'Six hours in a row at 70-85 °F make a suitable day. Until the index reaches 60, a suitable day adds 20, and any other sets it back to 0. From then on, a suitable day adds 20, or 10 if it also reached 95 °F. Any other day takes off 10.',
    units: 'points; hours',
    limits:
      'The temperatures are 21.1 to 29.4 °C inclusive, and 35.0 °C. A day with missing hours has a lowest and a highest value.',
    choices:
      'Until 60 is reached, a day at 95 °F counts like any other. No source settles this. The reset to 0 is from memory.',
    memory:
      'Gubler, Rademacher, Vasquez & Thomas 1999, APSnet Features, introduction read; rules of the University of California Cooperative Extension, second-hand, as reprinted by Western Farm Press, year not known; the reset to 0 from memory',
  },
  {
    name: 'downy-primary',
    keys: ['pressure.days.downy.primary', 'pressure.days.downy.why'],
    what: "Whether the day's rain and warmth allowed downy mildew its first infection from the soil. It warns too often: not every such event infects.",
    formula:
      'All three must hold: at least 10 mm of rain within 24 h; at least 10 °C throughout; shoots of at least 10 cm. `--downy` chooses another rule.',
    units: 'true, false, or null where data are missing',
    choices:
      'Five rules are in use, and each day names the one used. That the 24 hours may start at any hour is our choice.',
    read: 'DPIRD Western Australia 2021; WineSkills, Plumpton, year not known',
  },
  {
    name: 'botrytis-risk',
    keys: ['pressure.days.botrytis.index', 'pressure.days.botrytis.risk'],
    what: 'Share of berries that a wet spell is predicted to infect with botrytis, and its class.',
    formula:
      'logit = -2.647866 + W (-0.374927 + 0.061601 T - 0.001511 T²); index = 1 / (1 + e^-logit). W is the hours wet, T the mean °C while wet. The classes split the logit at 0, 0.5 and 1.',
    units: 'share, 0 to 1',
    limits:
      'There is no value outside 12 to 30 °C. The equation is stated for 4 to 24 h of wetness. A dry gap above 4 h ends a spell.',
    choices:
      'A spell without wetness is no risk, though the equation gives 0.066 there. A value on a limit takes the higher class.',
    memory:
      'Broome, English, Marois, Latorre & Aviles 1995, Phytopathology 85:97-102, second-hand, coefficients read in four public research codes; bounds of the classes from memory',
  },
  {
    name: 'black-rot-infection',
    keys: ['pressure.days.blackRot.infection'],
    what: 'Whether leaves were wet long enough, at that temperature, for black rot to infect.',
    formula:
      'The hours of wetness are compared with a table of hours by mean temperature. Between its rows, they are interpolated.',
    units: 'true, false, or null where the table or the data do not answer',
    limits: 'The table is for 10.0 to 32.2 °C. A dry gap above 4 h ends a spell.',
    choices:
      'No source gives a rule between the rows. Leaves that get wet again within two days could still be infected. So a spell just under the hours is no all-clear.',
    'second-hand':
      'Spotts 1977, Phytopathology 67:1378-1381, abstract read; its table second-hand, as printed by Michigan State University IPM, year not known',
  },
  {
    name: 'powdery-ascospores',
    keys: ['pressure.days.powdery.ascospores'],
    what: 'Whether a wet spell may have let ascospores of powdery mildew make the first infection. In a cool spring the temperature index misses it.',
    formula:
      'Both must hold: at least 2.5 mm of rain; a mean of 10.0 to 26.7 °C over a wet spell of at least 12 h.',
    units: 'true, false, or null where data are missing',
    limits: 'It counts from budbreak on.',
    choices:
      "The rule is combined from three sources. Two thirds of the hours of the Mills table's heavy class come to about the same 12 h.",
    memory: 'UC rule of 12-15 h wet at 50-80 °F (from memory); rain: Gadoury & Pearson 1990 (from memory)',
  },
  {
    name: 'downy-secondary',
    keys: ['pressure.days.downy.secondary', 'pressure.days.downy.secondaryWhy'],
    what: 'Whether the night allowed downy mildew to infect from oil spots that are already there.',
    formula:
      'It takes at least 4 dark hours with 98 % humidity and 13 °C or more. Then it takes two wet hours near dawn.',
    units: 'true, false, or null where data or the latitude are missing',
    choices:
      'Dark means from sunset to sunrise by date and latitude. The rule assumes that oil spots are there.',
    read: 'WineSkills, Plumpton, year not known; DPIRD Western Australia 2021',
  },
  {
    name: 'downy-incubation',
    keys: ['pressure.incubations.earliest', 'pressure.incubations.latest', 'pressure.incubations.progress'],
    what: 'Between which days to expect the oil spots of a primary infection of downy mildew.',
    formula:
      'each hour adds 1 / (24 x days), and spots show at 1. Where it is humid: days = 45.1 - 3.45 T + 0.073 T². Where it is dry: days = 59.9 - 4.55 T + 0.095 T².',
    units: 'dates; share, 0 to 1',
    limits:
      'Outside 10 to 28 °C, the earliest day continues at the pace of the limit. The latest day stands still there. The limit is ours: the range of the papers was not read. An hour without a temperature adds nothing, so spots may come sooner.',
    choices:
      'The earliest day is by the humid equation from the first day of the spell. The latest is by the dry one from its last day.',
    'second-hand':
      'Rossi et al. 2002, Atti Giornate Fitopatologiche 2:263-270, and 2008, Ecol. Modelling 212:480-491, second-hand, read in a literature note and three public research codes',
  },
  {
    name: 'downy-oospores',
    keys: ['pressure.oospores.sum', 'pressure.oospores.ripe', 'pressure.oospores.ripeOn'],
    what: 'Whether the overwintered spores of downy mildew are ripe. Before that there is no primary infection.',
    formula: 'sum of max(0, daily mean - 8) from 1 January; they are ripe above 170',
    units: '°C-days; true, false, or null where the first days are unknown',
    limits: 'A day without a mean adds nothing, so the sum is a minimum.',
    choices:
      'In the south, it counts from 1 July, by our own choice. It is shown beside the primary rule and never overrides it.',
    memory:
      'base of 8 °C and 170: French-Swiss advice text, year not known, read; that Agroscope counts from 160 to 170, from memory',
  },
  {
    name: 'worst-fortnight',
    keys: ['pressure.worstFortnight.from', 'pressure.worstFortnight.to'],
    what: 'The two weeks with the most days on which downy, botrytis or black rot could infect. Their rain and temperature stand beside them.',
    formula:
      'Over any 14 days in a row, the days that count for each disease are added up. Of two equal fortnights, the first is given.',
    units: 'dates; mm; °C',
    choices: 'All three diseases count alike. Botrytis counts from moderate risk.',
    own: 'the indices, day by day',
  },
  {
    name: 'pressure-detail',
    keys: [
      ...under('pressure', 'from to wetness why byHand rules'),
      ...under('pressure.days', 'powdery downy botrytis blackRot'),
    ],
    what: 'What each day was judged by: hours of wetness, their temperature, and the hours that an infection needs. Where hours are missing, the bounds. Where a value is missing or outside its model, the reason.',
    units: 'points; hours; °C',
    limits:
      'Wetness is measured where the station has it. Else it is estimated from rain and humidity, and the report says so.',
    own: 'as the index named: see powdery-index, downy-primary, botrytis-risk, black-rot-infection',
  },
  {
    name: 'infection-detail',
    keys: ['pressure.incubations', 'pressure.oospores', 'pressure.worstFortnight'],
    what: 'First and last day of infections, of their incubation, of oospore ripening and of the worst fortnight. Hours or days that are missing or outside the equations are counted.',
    own: 'as of the figure beside it; the fortnight is our own',
  },
])
