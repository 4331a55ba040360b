import { figures, under } from '../../facts/figure.ts'

/** The published orders of filling that the mixing order is made of. */
const ORDERS =
  'North Dakota Weed Control Guide 2021, second-hand, as given by another; Oklahoma State University Extension, Herbicide mixing order, year not known; Pest Patrol column, Country Guide, year not known; codes by CropLife Technical Monograph 2, 7th edition 2017, second-hand'

/** What `explain` says of the figures of `mix`. */
export const FIGURES = figures('spraying', [
  {
    name: 'treated-area',
    keys: ['mix.area', 'totals.blocks.area'],
    what: 'Ground area that is sprayed: the whole block, missing vines included, unless an entry names rows or a share.',
    formula: 'area = rows x row length x row spacing / 10 000, or the area as written',
    units: 'ha',
    limits: 'It includes half a row spacing outside each edge row. Headlands are not included.',
    'common practice': 'common practice, no source',
  },
  {
    name: 'part-spray',
    keys: ['mix.spot', 'mix.treated', 'mix.perVine', 'mix.record', 'mix.recorded', 'mix.sprayer'],
    what: 'A spray of some rows, some vines or a share. It gives the area treated, the spray per vine, and the command that records it. A spot spray wets single vines or places, so its water per hectare is not compared with the label. Its strength is, and so is the dose for the area treated where that is known.',
    formula:
      'area treated = area x rows treated / rows, or x vines treated / vines planted, or x share. Where a label names no strength: strength = most per ground area / least water.',
    units: 'L for a vine',
    choices:
      'Which vines a spray of some vines or of a share met is not recorded. Intervals, applications, totals of a product and `totals.blocks.copper.most` take two such sprays as on the same vines. That is the most that a vine can have had. Protection counts only the larger of the two. That is the least. Write `rows` to have them told apart.',
    own: "the label, as copied into the product's record; areas by proportion",
  },
  {
    name: 'pace',
    keys: ['mix.pace.speed', 'mix.pace.perRow', 'mix.pace.perVine'],
    what: "How fast to go so that the sprayer's flow gives the water of the mix. Where the flow is unknown, the speed as measured. For a spot spray, the time on each vine.",
    formula: 'km/h = 600 x flow / (water x width); seconds = 3.6 x metres / speed',
    units: 'km/h; s for a row or a vine',
    limits: 'It means one pass a row. Where a row is sprayed from both sides, each side takes half the time.',
    'second-hand': 'Teagasc crop-spraying paper 2010, second-hand, read on independent.ie',
  },
  {
    name: 'water',
    keys: ['mix.water', 'mix.waterPerHa'],
    what: 'Spray liquid for the whole job, and per hectare of ground.',
    formula: 'water = water per hectare x treated area',
    units: 'L; L/ha',
    own: 'the units alone',
  },
  {
    name: 'tank-fills',
    keys: ['mix.tank', 'mix.fullTanks', 'mix.lastTank'],
    what: 'How the job is split into fills: full tanks, and the litres of the last part tank (0 where there is none).',
    formula: 'full tanks = floor(water / tank); last tank = water - full tanks x tank',
    units: 'L',
    limits: 'A remainder below a billionth of the job is rounding by the computer, not a fill.',
    own: 'the units alone; agrees with a Canadian provincial factsheet, Calculating Spray Application Information, year not known',
  },
  {
    name: 'dose',
    keys: ['mix.products.rate', 'mix.products.concentration'],
    what: 'A dose in the two forms that labels use: per ground area, and per litre of spray.',
    formula:
      'concentration = dose per hectare / water per hectare. For leaf wall: dose per hectare = dose per 10 000 m2 leaf wall x leaf wall per hectare / 10 000. For a dilute volume: dose per hectare = concentration x dilute volume.',
    units: 'kg/ha or L/ha; g/L or mL/L',
    choices:
      'In concentrate spraying, the amount per hectare stays that of the dilute volume, so each tank holds more. The dose of a wetter that is given for the spray itself is not raised.',
    read: 'AWRI, Spray application in vineyards, year not known, and Viti-note Determining dilute water volumes, year not known; LWG Bayern, Das Laubwandflächen-Modell, year not known',
  },
  {
    name: 'product-amounts',
    keys: ['mix.products.total', 'mix.products.perFullTank', 'mix.products.perLastTank'],
    what: 'How much product to weigh or measure: for the job, a full tank and the last part tank.',
    formula: 'total = dose per hectare x treated area. Each tank gets its part by litres.',
    units: 'kg or L',
    limits:
      'The amounts of the fills add up exactly to the total. Printed amounts are rounded to what a scale shows.',
    own: 'the units alone',
  },
  {
    name: 'over-label',
    keys: [
      ...under('mix', 'overLabel withheld'),
      'window.blocks.overLabel',
      'harvest.blocks.overLabel',
      ...under('diary.rows', 'overLabel cleared'),
      'note.follows.cleared',
    ],
    what: "What in a spray exceeded its label. The label's waiting times (PHI and REI) then don't apply. No report gives a date for the block, and `mix` gives no amounts.",
    formula:
      "A spray is over the label in five cases: the dose is too high; there was one application more than the season allows, for the product or the use; there were more than `max_total`; it came sooner than the shortest interval, and the sprays inside it are more than one dose; the vines had grown past `stages`. For growth, the spray's own stage counts, or the last one noted on at least half of the vines.",
    choices:
      "Three errors leave the dates: a short interval within one dose; a target that is not on the label; copper over `limits`. When your adviser or the authority has answered, write it into the spray: `cleared: { on: DATE, by: NAME, pick_from: DATE, enter_from: DATE }`. Reports then give those dates as cleared, never before the label's own. Without `enter_from`, nobody enters before `pick_from`.",
    'common practice':
      'common practice, no source: a label sets its waiting times for the uses that it allows',
  },
  {
    name: 'label-range',
    keys: ['mix.products.range', 'mix.products.inRange'],
    what: "The label's range of dose for this target, and whether the dose lies in it.",
    limits: 'A dose on the limit is inside. So is one within a billionth of it.',
    own: "your label, as copied into the product's record",
  },
  {
    name: 'mixing-order',
    keys: ['mix.order'],
    what: 'The order in which products go into the half-filled tank, by their formulation.',
    formula:
      'The order is: 1 water conditioners; 2 what dissolves (SG, SP, ST); 3 what must wet and disperse (WG, WP, WT); 4 suspensions (SC, CS, SE, ZC, ZE); 5 emulsions and oil dispersions (EC, EW, OD, DC, ME); 6 solutions (SL); 7 wetters and oils.',
    choices:
      "Follow the label's order where it differs. Published orders differ on three things: soluble before dispersible powders; emulsions before solutions; what ME means. `mix` says so where it matters for the tank. Products of one rank stay in the order in which you named them. A product whose place is unknown comes last.",
    derived: `a compromise between ${ORDERS}; no source prints this very order`,
  },
  {
    name: 'fills',
    keys: ['mix.even', 'mix.fills', 'mix.toAdd', 'mix.tooMuch', 'mix.waterBy', 'mix.products.perFill'],
    what: 'Each fill of the tank in turn, in equal parts where you ask for it. Also what to add to what is in the tank, and where the figure for water comes from.',
    formula: 'an even fill = water / number of fills; to add = fill - what is in the tank',
    units: 'L; kg or L',
    own: 'the units alone',
  },
  {
    name: 'dose-limits',
    keys: ['mix.products.limits', 'mix.products.capped', 'mix.products.concentrationFactor', 'mix.offRate'],
    what: "The limits that apply to the dose, and whether a maximum per ground area lowered it. How many times the dilute concentration the tank holds. How far the sprayer's output is from the water you want.",
    formula: 'factor = dilute volume / water per hectare; off = output / wanted - 1',
    own: "your label, as copied into the product's record",
  },
  {
    name: 'scale-rounding',
    keys: ['mix.products.rounded'],
    what: 'The amount that a scale or jug can show, and how much that changes the dose.',
    limits:
      "Amounts go to the nearest step of the scale. They go down where the next step up would exceed the label's maximum.",
    own: 'the units alone',
  },
  {
    name: 'mixing-steps',
    keys: ['mix.steps'],
    what: 'The products in mixing order, each with its rank and the reason, and where sources differ.',
    derived: `a compromise between ${ORDERS}; no source prints this very order`,
  },
  {
    name: 'pass-time',
    keys: ['mix.time', 'calibrate.course', 'calibrate.plot'],
    what: 'Minutes of spraying for the job and for one tank, without turns and refills. Also the run or plot of a calibration.',
    formula: 'hours = area / (speed x width / 10), with km/h and m',
    units: 'minutes; m; seconds',
    own: 'the units alone',
  },
  {
    name: 'after-a-mix',
    keys: ['mix.after'],
    what: 'What follows if you spray the mix: re-entry, first day of picking, next application, and the stock left.',
    formula:
      'stock left = stock - what was sprayed since it was counted - this mix. The other figures are calculated as in `ready`, `note` and `today`.',
    choices:
      'Where no end time is recorded, re-entry counts from the end of the day. The pre-harvest interval (PHI) is given by the cautious reading, and with the day of spraying as day 0.',
    own: "your label, as copied into the product's record",
  },
])
