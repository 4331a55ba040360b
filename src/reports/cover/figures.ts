import { figures, under } from '../../facts/figure.ts'

/** What `explain` says of the figures of `cover`. */
export const FIGURES = figures('disease', [
  {
    name: 'cover',
    keys: ['cover.from', ...under('cover.blocks.days', 'covered by daysLeft rainSince pressure share')],
    what: 'Whether a spray still protects. Protection ends at the first of: rain on a wet spray, total rain, days of protection, new growth, interval.',
    formula:
      "The days and the total rain since the spray are compared with the product's `protects` and `rain`.",
    units: 'days; mm',
    limits:
      'At a limit, protection is probably no longer enough, though some may be left. Where rain is missing, protection is unknown.',
    choices:
      'Total rain counts, not the single fall. A block sprayed over several days counts as one, and the part that ends first decides. Shares may overlap, so they do not add up. Where the interval table advises no product of a class, the days of the next lower band are used. The report then says so.',
    read: 'La Vigne/Phytoma archive VI1532118402, year not known (25 mm in total); the other limits are those of your labels',
  },
  {
    name: 'protection',
    keys: ['cover.blocks.sprays'],
    what: "How a product acts and what ends its protection: by its label (`acts`, `protects`, `rain`, `cures`), else by its mode-of-action group. Copper and sulphur (M01, M02) are contact protectants. Bicarbonates (NC) and oils act on mildew that is there. Their protection ends with the first rain, after two days at most. Biologicals (BM) prevent and are short-lived. For all others only the label's interval counts.",
    formula:
      "Protection ends with the first of these: rain within the drying time; too much rain in total; the days that the product protects; ten days of rapid growth (stage 13 to 71), except for systemic products; the label's interval. Its short end counts in high danger, and from just before bloom to four weeks after it. It does not count where the label says how long the product protects.",
    units: 'h; mm; days',
    limits:
      'Where the label does not say: a spray dries in 2 h (common practice, no source); a contact protectant stands 25 mm of rain. A product without lasting protection ends after 0.2 mm or 2 days (common practice, no source). A biological lasts the short end of its interval, 7 days at most (common practice, no source). A spot spray or part of a block protects only what it treated. Two sprays of some vines or of a share may have met the same vines. The least that can be protected is given.',
    choices:
      "Where rain starts as spraying ends, it falls on wet leaves, so nothing counts as protected. Where only the day's total rain is known, protection is unknown.",
    read: 'Missouri Grape and Wine Institute 2019 (an inch; every product dries first); La Vigne/Phytoma VI1532118402 (25 mm in total); Nita, Virginia Tech 2011 (contact options on mildew); French agro-ecology wiki (bicarbonate washes off)',
  },
  {
    name: 'cover-gaps',
    keys: ['cover.blocks.gaps.from', 'cover.blocks.gaps.to', 'cover.blocks.gaps.worstIndex'],
    what: 'Unprotected days in a row on which infection was possible, with their highest disease index and highest danger.',
    units: 'dates; points',
    own: 'protection and danger, day by day: see `danger` and `protection`',
  },
  {
    name: 'harvest-stop',
    keys: under('cover.blocks.harvestStop', 'picking nextDue lastDay inTime'),
    what: 'Which products you may still apply at the next spray, and still pick when the window opens.',
    formula:
      'last day = first day of picking - pre-harvest interval (PHI) - 1. The first day of picking is the latest of these: today; the earliest day of the window; the first day that past sprays allow.',
    units: 'dates',
    limits: 'Without a window, no last day is given. Products without a recorded PHI are named.',
    choices: 'The cautious reading counts: spraying ends at midnight.',
    own: 'the label, as copied into the product record',
  },
  {
    name: 'cover-detail',
    keys: [
      ...under('cover', 'disease why byHand rules'),
      ...under('cover.blocks', 'rows needed sprays days gaps harvestStop'),
    ],
    what: 'From when to when a block needs protection. For each spray: what it protected, on which rows, until when, and what ended it. For each gap: what came before.',
    limits:
      'Protection is needed while infection is possible. Powdery and black rot: from 10 cm of shoots to veraison. Downy: to softening, later where fresh oil spots are on the leaves. Botrytis: at its own times. See `danger`.',
    own: 'as `danger` says',
  },
])
