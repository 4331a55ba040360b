/** A copper and sulphur spray of both blocks, the same strength each time. */
const both = (at: string) =>
  `spray --block all ${at} --product "sulphur=40 g in 10 L" --product "copper=20 g in 10 L" --for sulphur=powdery --for copper=downy --operator "M. T."`

/** Fifty bunches and fifty leaves, and nothing on them. */
const clean = (block: string) => `scouting --block ${block} --looked-at "50 bunches, 50 leaves" --found clean`

const leavesClean = (block: string) => `scouting --block ${block} --looked-at leaves=50 --found clean`

const berries = (block: string, brix: string) =>
  `sample --block ${block} --berries 100 --of bag --brix "${brix}"`

/** What the grower of Tansy Corner types in 2026, evening by evening, behind `rowbook note`. Invented. */
export const EVENINGS: readonly (readonly [string, ...string[]])[] = [
  ['2026-02-21', 'work --block house --job pruning --hours 7 --prunings "0.45 kg"'],
  ['2026-02-28', 'work --block plum --job pruning --hours 9 --prunings "0.55 kg"'],
  ['2026-04-14', 'stage --block house --stage budburst'],
  ['2026-04-18', 'stage --block plum --stage budburst'],
  [
    '2026-05-02',
    'stage --block all --stage "3 leaves"',
    'spray --block all --time 17:30-18:25 --water 28L --product "copper=20 g in 10 L" --for downy --weather "1 m/s 15 C" --operator "M. T." --stage "3 leaves"',
  ],
  ['2026-05-12', 'stage --block all --stage "flower clusters"'],
  ['2026-05-13', both('--time 18:00-19:05 --water 30L --weather "1.5 m/s 18 C" --stage "flower clusters"')],
  ['2026-05-16', leavesClean('house'), leavesClean('plum')],
  ['2026-05-24', both('--time 18:10-19:20 --water 36L --weather "1 m/s 18 C" --stage "clusters swelling"')],
  ['2026-05-30', 'stage --block all --stage "just before flowering"'],
  [
    '2026-05-31',
    leavesClean('house'),
    leavesClean('plum'),
    'work --block house --job "shoot thinning" --hours 4',
  ],
  ['2026-06-01', 'work --block plum --job "shoot thinning" --hours 5'],
  [
    '2026-06-03',
    both('--time 18:30-19:45 --water 40L --weather "1 m/s 19 C" --stage "just before flowering"'),
  ],
  ['2026-06-09', 'stage --block house --stage "full flowering"'],
  ['2026-06-11', 'stage --block plum --stage "full flowering"'],
  [
    '2026-06-14',
    both('--time 6:30pm-7:50pm --water 42L --weather "1 m/s 21 C" --stage "80 % capfall"'),
    clean('house'),
    clean('plum'),
  ],
  ['2026-06-21', 'stage --block all --stage "fruit set"'],
  ['2026-06-25', both('--time 18:30-19:50 --water 42L --weather "1.5 m/s 22 C" --stage "peppercorn size"')],
  ['2026-06-28', clean('house'), clean('plum')],
  ['2026-07-03', both('--time 19:00-20:20 --water 42L --weather "1 m/s 23 C" --stage "pea size"')],
  ['2026-07-04', 'stage --block all --stage "pea size"'],
  ['2026-07-11', 'work --block house --job hedging --hours 2', 'work --block plum --job hedging --hours 2.5'],
  ['2026-07-12', clean('house')],
  ['2026-07-18', 'stage --block all --stage "start of bunch closure"'],
  [
    '2026-07-19',
    clean('house'),
    'scouting --block plum --looked-at "50 bunches, 50 leaves" --found "powdery 1 of 50 bunches, rest clean" --found powdery.rows=8 --note "Dried up, nothing new."',
    'crop --block house --at lag --bunches-per-vine 15,12,17,13,16,14,11,15,13,15 --bunch-weight "70 g, 78 g, 66 g, 74 g, 81 g, 69 g, 75 g, 72 g"',
    'crop --block plum --at lag --bunches-per-vine 12,10,13,12,14,10,11,12,13,11 --bunch-weight "58 g, 66 g, 52 g, 61 g, 57 g, 68 g, 60 g, 55 g"',
  ],
  ['2026-07-20', both('--time 19:00-20:20 --water 42L --weather "1 m/s 24 C" --stage "bunch closure"')],
  ['2026-07-26', clean('plum')],
  ['2026-07-28', 'stage --block plum --stage "10 % veraison"'],
  ['2026-08-02', 'stage --block plum --stage "50 % veraison"', clean('house'), clean('plum')],
  ['2026-08-05', 'stage --block house --stage "50 % veraison"'],
  ['2026-08-15', 'work --block all --job netting --people 2'],
  [
    '2026-08-16',
    clean('house'),
    clean('plum'),
    berries('house', '12.4, 13.0, 12.2, 12.8, 12.6'),
    berries('plum', '13.3, 12.8, 13.6, 13.0, 13.3'),
  ],
  ['2026-08-22', 'stage --block all --stage "end of veraison"'],
  [
    '2026-08-23',
    berries('house', '14.1, 14.7, 13.9, 14.4, 14.2'),
    berries('plum', '14.9, 14.3, 15.1, 14.6, 14.8'),
  ],
  [
    '2026-08-30',
    berries('house', '15.7, 16.2, 15.4, 16.0, 15.8'),
    berries('plum', '16.2, 15.7, 16.5, 16.0, 16.2'),
    clean('house'),
    clean('plum'),
  ],
  [
    '2026-09-06',
    berries('house', '17.2, 17.7, 16.9, 17.5, 17.3'),
    berries('plum', '17.4, 16.9, 17.8, 17.2, 17.5'),
  ],
  [
    '2026-09-12',
    'crop --block house --at harvest --bunches-per-vine 14,12,16,13,15,14,11,14,13,14 --bunch-weight "128 g, 141 g, 118 g, 135 g, 150 g, 122 g, 138 g, 131 g"',
    'crop --block plum --at harvest --bunches-per-vine 12,9,13,11,14,10,11,12,12,11 --bunch-weight "108 g, 124 g, 99 g, 115 g, 106 g, 127 g, 112 g, 103 g"',
  ],
  [
    '2026-09-13',
    berries('house', '18.6, 19.1, 18.3, 18.9, 18.7'),
    berries('plum', '18.5, 18.0, 18.9, 18.3, 18.6'),
    'scouting --block house --looked-at "50 bunches, 50 leaves" --found "botrytis 1 of 50 bunches, downy 3 leaves, rest clean"',
    clean('plum'),
  ],
  [
    '2026-09-16',
    `${berries('house', '19.2, 19.7, 18.9, 19.5, 19.3')} --taste "apple and muscat, no longer sharp" --seeds "brown on the back"`,
  ],
]

/** After House Side is picked: the last of Plum Side. */
export const LAST_EVENINGS: typeof EVENINGS = [
  ['2026-09-20', berries('plum', '19.5, 19.0, 19.9, 19.3, 19.6')],
  ['2026-09-24', clean('plum')],
  [
    '2026-09-25',
    `${berries('plum', '20.1, 19.7, 20.5, 19.9, 20.2')} --taste "cherry, skins give colour" --seeds brown`,
  ],
]
