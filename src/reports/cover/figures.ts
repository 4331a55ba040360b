import { figures, under } from '../../facts/figure.ts'

/** What `explain` says of the figures of `cover`. */
export const FIGURES = figures('disease', [
  {
    name: 'cover',
    keys: ['cover.from', ...under('cover.blocks.days', 'covered by daysLeft rainSince pressure share')],
    what: 'Whether a spray still protects. Protection ends at the first of: rain on a wet spray, total rain, days of protection, new growth, interval.',
    formula: "days and total rain since the end of the spray against the product's `protects` and `rain`",
    units: 'days; mm',
    limits:
      'a limit reached means that protection is probably no longer enough, not that all is gone; unknown where rain is missing',
    choices:
      'total rain counts, not the single fall. Rows sprayed on different days add up to a block, and the part that ends first decides; shares may overlap and do not add up. Where the interval table advises no product of a class, the days of the next lower band are used, and the report says so',
    source:
      'La Vigne/Phytoma archive VI1532118402, year not known (25 mm in total); the other limits are those of your labels',
    basis: 'read',
  },
  {
    name: 'protection',
    keys: ['cover.blocks.sprays'],
    what: "How a product acts and what ends its protection: by its label (`acts`, `protects`, `rain`, `cures`), else by its mode-of-action group. Copper and sulphur (M01, M02) are contact protectants. Bicarbonates (NC) and oils act on mildew that is there. Their protection ends with the first rain, after two days at most. Biologicals (BM) prevent and are short-lived. For all others only the label's interval counts.",
    formula:
      'the first of: rain within the drying time; total rain; days of protection; ten days of rapid growth (stage 13 to 71), except for systemic products; the interval, its short end from just before bloom to four weeks after and in high danger unless the label says how long it protects',
    units: 'h; mm; days',
    limits:
      'drying 2 h where the label names none (common practice, no source); contact protectants 25 mm where it names none; no lasting protection: 0.2 mm or 2 days (common practice, no source); biologicals the short end of the interval, 7 days at most (common practice, no source); spot sprays and parts protect only what they treated, and two of some vines or a share are taken to have met the same vines: the least that can be protected',
    choices:
      "rain that starts as spraying ends falls on wet leaves, so nothing counts as protected; where only the day's total rain is known, protection is unknown",
    source:
      'Missouri Grape and Wine Institute 2019 (an inch; every product dries first); La Vigne/Phytoma VI1532118402 (25 mm in total); Nita, Virginia Tech 2011 (contact options on mildew); French agro-ecology wiki (bicarbonate washes off)',
    basis: 'read',
  },
  {
    name: 'cover-gaps',
    keys: ['cover.blocks.gaps.from', 'cover.blocks.gaps.to', 'cover.blocks.gaps.worstIndex'],
    what: 'Unprotected days in a row on which infection was possible, with their highest disease index and highest danger.',
    units: 'dates; points',
    source: 'protection and danger, day by day: see `danger` and `protection`',
    basis: 'own',
  },
  {
    name: 'harvest-stop',
    keys: under('cover.blocks.harvestStop', 'picking nextDue lastDay inTime'),
    what: 'Which products you may still apply at the next spray, and still pick when the window opens.',
    formula:
      'last day = first day of picking - pre-harvest interval (PHI) - 1. First day of picking: the earliest day of the window, the first day that past sprays allow, or today, whichever is latest',
    units: 'dates',
    limits: 'nothing is given where there is no window; products without a recorded PHI are named',
    choices: 'the cautious reading: spraying ends at midnight',
    source: 'the label, as copied into the product record',
    basis: 'own',
  },
  {
    name: 'cover-detail',
    keys: [
      ...under('cover', 'disease why byHand rules'),
      ...under('cover.blocks', 'rows needed sprays days gaps harvestStop'),
    ],
    what: 'From when to when a block needs protection. For each spray: what it protected, on which rows, until when, and what ended it. For each gap: what came before.',
    limits:
      'needed while infection is possible: powdery and black rot from 10 cm of shoots to veraison, downy to softening, botrytis at its own times; see `danger`',
    source: 'as `danger` says',
    basis: 'own',
  },
])
