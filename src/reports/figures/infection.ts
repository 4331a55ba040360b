import type { Figure } from './figure.ts'

const topic = 'disease'

/** What stands beside the four indices of `pressure`. */
export const INFECTION: readonly Figure[] = [
  {
    name: 'powdery-ascospores',
    topic,
    keys: ['pressure.days.powdery.ascospores'],
    what: 'Whether a wet spell may have let ascospores of powdery mildew infect for the first time, which the temperature index does not see in a cool spring.',
    formula: 'at least 2.5 mm of rain and a mean of 10.0 to 26.7 °C over a wet spell of at least 12 h',
    units: 'true, false, or null where data are missing',
    limits: 'from budbreak on',
    choices: 'a rule made of three sources; two thirds of the heavy Mills hours come to about the same 12 h',
    source: 'UC rule of 12-15 h wet at 50-80 °F (from memory); rain: Gadoury & Pearson 1990 (from memory)',
    basis: 'memory',
  },
  {
    name: 'downy-secondary',
    topic,
    keys: ['pressure.days.downy.secondary', 'pressure.days.downy.secondaryWhy'],
    what: 'Whether the night suited infection by downy mildew from oil spots that are there.',
    formula: 'at least 4 dark hours with 98 % humidity and 13 °C or more, then two wet hours near dawn',
    units: 'true, false, or null where data or the latitude are missing',
    choices: 'dark is from sunset to sunrise by date and latitude; oil spots are taken as there',
    source: 'WineSkills, Plumpton; DPIRD Western Australia 2021 (both read)',
    basis: 'read',
  },
  {
    name: 'downy-incubation',
    topic,
    keys: ['pressure.incubations.earliest', 'pressure.incubations.latest', 'pressure.incubations.progress'],
    what: 'Between which days the oil spots of a primary infection of downy mildew are due.',
    formula:
      'hour by hour 1 / (24 x days), done at 1; days = 45.1 - 3.45 T + 0.073 T² where it is humid, 59.9 - 4.55 T + 0.095 T² where it is dry',
    units: 'dates; share, 0 to 1',
    limits:
      'outside 10-28 °C (our limit, the range of the papers was not read) the earliest goes on at the pace of the limit and the latest stands still; an hour without a temperature adds nothing, so that spots may come sooner',
    choices:
      'earliest by the humid equation from the first day of the spell, latest by the dry one from its last',
    source:
      'Rossi et al. 2002, Atti Giornate Fitopatologiche 2:263-270, and 2008, Ecol. Modelling 212:480-491, as read in a literature note and three public research codes',
    basis: 'read',
  },
  {
    name: 'downy-oospores',
    topic,
    keys: ['pressure.oospores.sum', 'pressure.oospores.ripe', 'pressure.oospores.ripeOn'],
    what: 'Whether the spores of downy mildew that have overwintered are ripe: before that no primary infection comes.',
    formula: 'sum of max(0, daily mean - 8) from 1 January, ripe above 170',
    units: '°C-days; true, false, or null where the first days are unknown',
    limits: 'a day without a mean adds nothing, so that the sum is at least what it says',
    choices: 'in the south from 1 July, our reading; told beside the primary rule and not used to silence it',
    source: 'French-Swiss advice text (undated, read); 160-170 of Agroscope from memory',
    basis: 'read',
  },
  {
    name: 'worst-fortnight',
    topic,
    keys: ['pressure.worstFortnight.from', 'pressure.worstFortnight.to'],
    what: 'The two weeks with the most days on which downy, botrytis or black rot could infect, with their rain and warmth.',
    formula: 'days counted for each disease and added up, over any 14 days in a row; the first of equals',
    units: 'dates; mm; °C',
    choices: 'all three count alike; botrytis from moderate risk on',
    source: 'the indices, day by day',
    basis: 'own',
  },
]
