import { figures, under } from '../../facts/figure.ts'

/** What `explain` says of the figures of `totals`. */
export const FIGURES = figures('law and resistance', [
  {
    name: 'applications',
    keys: ['totals.blocks.sprays', ...under('totals.blocks.products', 'applications total perHa')],
    what: 'Sprays of the season up to the day. Also how many of them held each product, and how much was applied.',
    formula: 'total = sum of dose per hectare x treated area; per hectare = total / area of the block',
    units: 'counts; kg or L; kg/ha or L/ha',
    own: "the entries and the products' records",
  },
  {
    name: 'active-per-hectare',
    keys: ['totals.blocks.actives.perHa', 'totals.blocks.actives.group'],
    what: 'Active substance applied per hectare of the whole block in the season, with its mode-of-action group.',
    formula: 'active per hectare = product per hectare x content of the product',
    units: 'kg/ha',
    memory:
      'Agrochemical and Pesticide Safety Handbook, excerpt (Waxman 1998, author and year from memory); group codes: introductions of the FRAC Code Lists 2018 to 2021 read, the entries from memory',
  },
  {
    name: 'copper',
    keys: under('totals.blocks.copper', 'season most rolling years limitSeason limitRolling'),
    what: 'Copper metal per hectare of the whole block: in the season, and over calendar years against a limit.',
    formula:
      'copper = sum of product per hectare x content of copper metal. A compound is converted to metal by molar masses.',
    units: 'kg of copper metal per ha',
    limits:
      "The site's own `limits: copper` count. In the European Union the limit is 28 kg/ha over 7 years.",
    choices:
      'The regulation does not say whether the 7 years are a moving or a fixed period. Here they move, unless `from` names the first year of a fixed period. A year without a record is unknown, not zero. Spot sprays and other parts count by their share of the block. Which vines a spray of some vines or of a share met is unknown. So `most` adds them up as if they met the same vines each time. That is the most that a vine can have had.',
    read: 'Implementing Regulation (EU) 2018/1981, approval extended by (EU) 2025/1489 of 24 July 2025 (title read, its end date not); Regulation (EC) 889/2008 for the moving reading',
  },
  {
    name: 'treatment-frequency',
    keys: ['totals.blocks.treatmentFrequency'],
    what: 'Treatment frequency index: how many full doses a hectare received. A mixture of two products counts as two.',
    formula: 'index = sum of dose / reference dose x share of the area treated',
    units: 'full doses',
    limits: 'A treatment without a reference dose counts 1.',
    choices:
      "The reference is the label's maximum for the target named. With several targets or none, it is the lowest maximum. Adjuvants do not count.",
    read: 'Réussir Vigne, year not known; La Vigne no. 229, March 2011; negoce-centre-atlantique.com 2025',
  },
  {
    name: 'uses-of-season',
    keys: ['totals.blocks.groups', 'totals.blocks.targets'],
    what: 'How many sprays of the season held each mode-of-action group, and how many were against each target.',
    units: 'counts',
    memory: 'own counts; groups by the FRAC Code Lists 2018 to 2021, entries from memory',
  },
  {
    name: 'frequency-parts',
    keys: ['totals.blocks.frequency'],
    what: 'The treatment frequency by kind of product: synthetic, mineral, biological or not recorded. Treatments without a reference dose are told beside it.',
    formula: "The sum is that of treatment-frequency, split by the nature that each product's record gives.",
    read: 'Réussir Vigne, year not known; La Vigne no. 229, March 2011; how it is split is our own',
  },
  {
    name: 'copper-allowance',
    keys: under('totals.blocks.copper', 'window roomSeason roomRolling'),
    what: 'Copper that you may still apply per hectare, this season and within the years of the limit. Also which years are recorded.',
    formula: 'allowance left = limit - used, never below zero',
    limits:
      'Where a year is not recorded, the allowance over the years is a maximum. Where a dose or a content is unknown, it is null.',
    units: 'kg of copper metal per ha',
    read: 'Implementing Regulation (EU) 2018/1981, approval extended by (EU) 2025/1489 of 24 July 2025 (title read, its end date not)',
  },
  {
    name: 'stock-and-cost',
    keys: ['totals.store'],
    what: 'How much of each product the season used. Also what that cost, and what is left in stock.',
    formula: 'cost = used x price; left = stock - used since it was counted',
    units: 'kg or L; the currency of the price',
    own: 'the units alone',
  },
])
