import { figures, under } from '../../facts/figure.ts'

/** What `explain` says of the figures of `heat`. */
export const FIGURES = figures('heat', [
  {
    name: 'degree-days',
    keys: [
      ...under('heat', 'method base'),
      ...under('heat.days', 'min max mean degreeDays byHand'),
      ...under('heat', 'byHand sum'),
    ],
    what: "Heat above a base temperature, day by day and in total, from each day's lowest and highest temperature.",
    formula:
      'average: max(0, (min + max) / 2 - base); single-sine and single-triangle: area above the base under a curve through both',
    units: '°C-days; °C',
    limits: 'An unknown day is left out of the sum. It counts as missing, never as 0.',
    choices:
      'Minimum and maximum are not cut off first. Where there is an upper limit, the cut-off is horizontal. The average method cuts the mean of the day.',
    'second-hand':
      'average: Oregon State University, uspest.org, year not known; sine and triangle: Baskerville & Emin 1969, Ecology 50:514-517, and Zalom et al. 1983, UC Leaflet 21373, second-hand, cases read on a page of Snyder, University of California Davis',
  },
  {
    name: 'winkler',
    keys: ['heat.winkler.value', 'heat.winkler.region'],
    what: 'Winkler index, and its region from Ia to V.',
    formula: 'sum of max(0, (min + max) / 2 - 10) from 1 April to 31 October (south: 1 October to 30 April)',
    units: '°C-days',
    limits: 'The regions begin at 850, 1111, 1389, 1667, 1944 and 2222. The last ends at 2700.',
    choices:
      'Daily values are used. The older form from monthly means is lower. As far as we remember, Amerine & Winkler 1944 had one region I, up to 2500 °F-days. The split into Ia and Ib is later; its year was not found.',
    'second-hand':
      'Amerine & Winkler 1944, Hilgardia 15:493-675, second-hand, read in an encyclopedia; regions: Oxford Companion to Wine, 2006 (third edition, Oxford University Press), second-hand, read on ckbk.com; its lowest class after Jones et al. 2010 and Anderson et al. 2012, so that part of the entry is later',
  },
  {
    name: 'huglin',
    keys: ['heat.huglin.value', 'heat.huglin.class'],
    what: 'Huglin heliothermal index, and its class from very cool to very warm.',
    formula:
      'K x sum of max(0, ((mean - 10) + (max - 10)) / 2) from 1 April to 30 September (south: 1 October to 31 March), K by latitude',
    units: '°C-days',
    limits:
      'The classes begin at 1500, 1800, 2100, 2400 and 3000. No coefficient is published beyond 50°, so an extension is used and labelled as such.',
    choices: 'Negative days count 0, as in xclim. The paper gives no rule, as far as we remember.',
    'second-hand':
      'Huglin 1978, C. R. Acad. Agric. Fr. 64:1117-1126, second-hand, read as xclim implements its Huglin index (method icclim); classes: Tonietto & Carbonneau 2004, Agric. For. Meteorol. 124:81-97, second-hand, read on plantct.com',
  },
  {
    name: 'heat-beside',
    keys: ['heat.beside.mean', 'heat.beside.difference', 'heat.beside.daysAhead'],
    what: 'This season against the mean of earlier recorded ones, over the same days of the year.',
    formula:
      'difference = sum of this season - mean of the earlier sums. The days ahead are counted to the day on which the mean course reaches this sum.',
    units: '°C-days; days',
    limits:
      'Gaps of up to 3 days are interpolated in every season. A season that still lacks over 5 % of its days is not compared.',
    choices: 'Both limits are our own.',
    own: 'the weather of the recorded seasons',
  },
  {
    name: 'heat-days',
    keys: [...under('heat', 'from to upper missing why'), ...under('heat.days', 'complete filled')],
    what: 'The days that a sum covers, those without a temperature, and why there is no sum.',
    units: 'dates; days; °C',
    own: "own counts of the station's rows",
  },
  {
    name: 'index-span',
    keys: ['heat.winkler', 'heat.huglin'],
    what: 'For each index: its days, how many are known, missing and filled in, and the sum so far. Also the coefficient and its extension.',
    formula: 'known = sum over the known days; at least = the same, where no day can lower it',
    own: 'own counting; the indices are those of winkler and huglin',
  },
  {
    name: 'season-mean',
    keys: ['heat.seasonMean'],
    what: 'Mean temperature of the growing season, and its maturity group.',
    formula: 'mean of the daily means from 1 April to 31 October (south: 1 October to 30 April)',
    units: '°C',
    memory:
      'Hall & Jones 2009, Aust. J. Grape Wine Res. 15:97-119, second-hand; groups: Jones 2006, bounds from memory',
  },
  {
    name: 'cool-nights',
    keys: ['heat.coolNights'],
    what: 'Cool night index: mean of the lowest temperatures of September (south: March), and its class.',
    units: '°C',
    memory:
      'Tonietto & Carbonneau 2004, Agric. For. Meteorol. 124:81-97: definition second-hand, read in the documentation of xclim; bounds of the classes from memory',
  },
  {
    name: 'heat-from-hours',
    keys: ['heat.fromHours'],
    what: 'The same sum from hourly temperatures, by daily means and hour by hour, as a check on the method.',
    formula:
      'from the mean of the hours: sum of max(0, mean - base); from each hour: sum of max(0, hour - base) / 24',
    units: '°C-days',
    own: 'definition',
  },
  {
    name: 'heat-of-seasons',
    keys: ['heat.beside'],
    what: "This season's sum and course beside those of earlier recorded seasons, over the same days.",
    units: '°C-days',
    limits: 'An earlier season that lacks too many days is not used.',
    own: 'the weather of the recorded seasons',
  },
  {
    name: 'heat-to-stage',
    keys: ['heat.stages'],
    what: 'Days and heat from a recorded growth stage to the day of the report.',
    units: 'days; °C-days',
    own: 'the recorded stages and weather',
  },
])
