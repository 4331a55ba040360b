import type { Figure } from './figure.ts'

const topic = 'heat'

export const HEAT: readonly Figure[] = [
  {
    name: 'degree-days',
    topic,
    keys: [
      'heat.method',
      'heat.base',
      'heat.days.min',
      'heat.days.max',
      'heat.days.mean',
      'heat.days.degreeDays',
      'heat.sum',
    ],
    what: 'Heat above a base, day by day and in sum, from the lowest and highest temperature of the day.',
    formula:
      'average: max(0, (min + max) / 2 - base); single-sine and single-triangle: area above the base under a curve through both',
    units: '°C-days; °C',
    limits: 'an unknown day is left out of the sum and counted, never taken as 0',
    choices:
      'min and max are not clipped first; with an upper limit the cut-off is horizontal, for the average on the mean of the day',
    source: 'Baskerville & Emin 1969, Ecology 50:514-517; Zalom et al. 1983, UC Leaflet 21373',
    basis: 'read',
  },
  {
    name: 'winkler',
    topic,
    keys: ['heat.winkler.value', 'heat.winkler.region'],
    what: 'Winkler index, and its region from Ia to V.',
    formula: 'sum of max(0, (min + max) / 2 - 10) from 1 April to 31 October (south: 1 October to 30 April)',
    units: '°C-days',
    limits: 'regions from 850, 1111, 1389, 1667, 1944, 2222 up to 2700',
    choices: 'daily values; the older form from monthly means is lower',
    source: 'Amerine & Winkler 1944, Hilgardia 15:493-675; regions: Oxford Companion to Wine 2006',
    basis: 'read',
  },
  {
    name: 'huglin',
    topic,
    keys: ['heat.huglin.value', 'heat.huglin.class'],
    what: 'Huglin heliothermal index, and its class from very cool to very warm.',
    formula:
      'K x sum of max(0, ((mean - 10) + (max - 10)) / 2) from 1 April to 30 September (south: 1 October to 31 March), K by latitude',
    units: '°C-days',
    limits:
      'classes at 1500, 1800, 2100, 2400 and 3000; beyond 50° no coefficient is published, and an extension is labelled so',
    choices: 'negative days count 0, as in xclim and fruclimadapt; the paper states none (from memory)',
    source:
      'Huglin 1978, C. R. Acad. Agric. Fr. 64:1117-1126; Tonietto & Carbonneau 2004, Agric. For. Meteorol. 124:81-97',
    basis: 'read',
  },
  {
    name: 'heat-beside',
    topic,
    keys: ['heat.beside.mean', 'heat.beside.difference', 'heat.beside.daysAhead'],
    what: 'This season against the mean of the earlier ones in the book, over the same days of the year.',
    formula: 'sum of this season - mean of their sums; days ahead by where the mean course reaches this sum',
    units: '°C-days; days',
    limits:
      'outages of up to 3 days are filled in straight lines in every season alike; a season that then still lacks over 5 % of its days is not compared',
    choices: 'both limits are our own',
    source: 'the weather of the seasons in the book',
    basis: 'own',
  },
]
