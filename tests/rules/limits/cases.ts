// Each limit from both sides: files on which a rule is silent, just inside, and on which it speaks, just outside.

export const S = 'seasons/2026/sprays.yaml'
export const spray = (date: string, what: string, rest = 'water: 300 L/ha') =>
  `- date: ${date}\n  blocks: [upper]\n  ${rest}\n  products:\n    - { ${what} }\n`
export const sulphur = (rate: string) => `product: sulphur, rate: ${rate}, for: powdery`
const label = (more: string) =>
  `name: Extra\nform: SC\nkind: fungicide\nactives: [ { name: testazole, content: 100 g/L, group: "3" } ]\nuses:\n  - { against: powdery, rate: 0.2-0.4 L/ha, interval: 10-14 d }\n${more}`
const E = 'products/extra.yaml'
const extra = 'product: extra, rate: 0.3 L/ha, for: powdery'
const other = 'product: copper, rate: 1 kg/ha, for: powdery'
const days = (dates: string[], what: string) => dates.map((date) => spray(date, what)).join('')
const weather = (text: string) => `water: 300 L/ha\n  weather: { ${text} }`
const V = 'vineyard.yaml'
const site = (limits: string) => `name: T\nlatitude: 51.5\ntimezone: Europe/Berlin\nlimits:\n  ${limits}\n`
const copper = (rate: string, date = '2026-06-01') =>
  spray(date, `product: copper, rate: ${rate}, for: downy`)
const pick = (date: string, time = '') => `- { date: ${date}, ${time}block: upper, weight: 1800 kg }\n`
export const work = (date: string, time: string) =>
  `- { date: ${date}, time: ${time}, block: upper, job: leaf removal }\n`
const timed = spray('2026-08-01', sulphur('3 kg/ha'), 'time: 18:00-20:05\n  water: 300 L/ha')

type Files = Record<string, string>
export const LIMITS: [finding: string, inside: Files, outside: Files][] = [
  [
    'error over-rate',
    { [S]: spray('2026-06-01', sulphur('6 kg/ha')) },
    { [S]: spray('2026-06-01', sulphur('6.001 kg/ha')) },
  ],
  [
    'warning under-rate',
    { [S]: spray('2026-06-01', sulphur('2 kg/ha')) },
    { [S]: spray('2026-06-01', sulphur('1.999 kg/ha')) },
  ],
  [
    'error water-outside-label',
    { [S]: spray('2026-06-01', sulphur('3 kg/ha'), 'water: 1000 L/ha') },
    { [S]: spray('2026-06-01', sulphur('3 kg/ha'), 'water: 1001 L/ha') },
  ],
  [
    'error interval-too-short',
    { [S]: days(['2026-06-01', '2026-06-08'], sulphur('3 kg/ha')) },
    { [S]: days(['2026-06-01', '2026-06-07'], sulphur('3 kg/ha')) },
  ],
  [
    'error too-many-applications',
    { [E]: label('max_per_season: 2\n'), [S]: days(['2026-05-20', '2026-06-08'], extra) },
    { [E]: label('max_per_season: 2\n'), [S]: days(['2026-05-20', '2026-06-08', '2026-06-28'], extra) },
  ],
  [
    'error too-many-applications',
    { [E]: label('max_total: 0.6 L/ha\n'), [S]: days(['2026-05-20', '2026-06-08'], extra) },
    { [E]: label('max_total: 0.59 L/ha\n'), [S]: days(['2026-05-20', '2026-06-08'], extra) },
  ],
  [
    'error action-group-run',
    {
      [E]: label('max_in_row: 1\n'),
      [S]: spray('2026-05-20', extra) + spray('2026-06-01', sulphur('3 kg/ha')) + spray('2026-06-12', extra),
    },
    { [E]: label('max_in_row: 1\n'), [S]: days(['2026-05-20', '2026-06-08'], extra) },
  ],
  [
    'warning action-group-run',
    { [E]: label(''), [S]: days(['2026-05-20', '2026-06-08'], extra) },
    { [E]: label(''), [S]: days(['2026-05-20', '2026-06-08', '2026-06-28'], extra) },
  ],
  [
    'warning action-group-count',
    {
      [E]: label(''),
      [S]: days(['2026-05-10', '2026-06-01', '2026-07-20'], extra) + spray('2026-06-20', sulphur('3 kg/ha')),
    },
    {
      [E]: label(''),
      [S]:
        days(['2026-05-10', '2026-06-01', '2026-07-20', '2026-08-01'], extra) +
        spray('2026-06-20', sulphur('3 kg/ha')),
    },
  ],
  [
    'error authorisation-lapsed',
    { [E]: label('authorisation: { until: 2026-06-01 }\n'), [S]: spray('2026-06-01', extra) },
    { [E]: label('authorisation: { until: 2026-05-31 }\n'), [S]: spray('2026-06-01', extra) },
  ],
  [
    'error not-authorised-for',
    { [S]: spray('2026-06-01', sulphur('3 kg/ha')) },
    { [S]: spray('2026-06-01', other) },
  ],
  [
    'error kept-apart',
    {
      [E]: label('keep_apart: [ { from: sulphur, gap: 14 d } ]\n'),
      [S]: spray('2026-06-01', extra) + spray('2026-06-15', sulphur('3 kg/ha')),
    },
    {
      [E]: label('keep_apart: [ { from: sulphur, gap: 14 d } ]\n'),
      [S]: spray('2026-06-01', extra) + spray('2026-06-14', sulphur('3 kg/ha')),
    },
  ],
  [
    'error copper-over-season',
    { [V]: site('copper: { per_season: 0.7 kg/ha }'), [S]: copper('2 kg/ha') },
    { [V]: site('copper: { per_season: 0.69 kg/ha }'), [S]: copper('2 kg/ha') },
  ],
  [
    'error copper-over-years',
    {
      [V]: site('copper: { rolling: 1.4 kg/ha, years: 2 }'),
      'seasons/2025/sprays.yaml': copper('2 kg/ha', '2025-06-01'),
      [S]: copper('2 kg/ha'),
    },
    {
      [V]: site('copper: { rolling: 1.39 kg/ha, years: 2 }'),
      'seasons/2025/sprays.yaml': copper('2 kg/ha', '2025-06-01'),
      [S]: copper('2 kg/ha'),
    },
  ],
  [
    'error windy',
    { [V]: site('wind: 5 m/s'), [S]: spray('2026-06-01', sulphur('3 kg/ha'), weather('wind: 5 m/s')) },
    { [V]: site('wind: 5 m/s'), [S]: spray('2026-06-01', sulphur('3 kg/ha'), weather('wind: 5.01 m/s')) },
  ],
  [
    'warning windy',
    { [S]: spray('2026-06-01', sulphur('3 kg/ha'), weather('wind: 6 m/s')) },
    { [S]: spray('2026-06-01', sulphur('3 kg/ha'), weather('wind: 6.01 m/s')) },
  ],
  [
    'hint still-air',
    { [S]: spray('2026-06-01', sulphur('3 kg/ha'), weather('wind: 1 m/s')) },
    { [S]: spray('2026-06-01', sulphur('3 kg/ha'), weather('wind: 0.99 m/s')) },
  ],
  [
    'warning sulphur-heat',
    { [S]: spray('2026-06-01', sulphur('3 kg/ha'), weather('temperature: 29.9 C')) },
    { [S]: spray('2026-06-01', sulphur('3 kg/ha'), weather('temperature: 30 C')) },
  ],
  [
    'hint sulphur-cold',
    { [S]: spray('2026-06-01', sulphur('3 kg/ha'), weather('temperature: 15 C')) },
    { [S]: spray('2026-06-01', sulphur('3 kg/ha'), weather('temperature: 14.9 C')) },
  ],
  [
    'error inside-days-before-harvest',
    { [S]: timed, 'seasons/2026/picks.yaml': pick('2026-08-22') },
    { [S]: timed, 'seasons/2026/picks.yaml': pick('2026-08-21') },
  ],
  [
    'warning inside-days-before-harvest',
    { [S]: timed, 'seasons/2026/picks.yaml': pick('2026-08-22', 'time: 20:05-21:00, ') },
    { [S]: timed, 'seasons/2026/picks.yaml': pick('2026-08-22', 'time: 20:04-21:00, ') },
  ],
  [
    'error inside-re-entry',
    { [S]: timed, 'seasons/2026/work.yaml': work('2026-08-02', '20:05-21:00') },
    { [S]: timed, 'seasons/2026/work.yaml': work('2026-08-02', '20:04-21:00') },
  ],
  [
    'warning area-disagrees',
    { 'blocks/upper.yaml': block('0.46 ha') },
    { 'blocks/upper.yaml': block('0.461 ha') },
  ],
  [
    'error area-disagrees',
    { 'blocks/upper.yaml': block('0.8 ha') },
    { 'blocks/upper.yaml': block('0.801 ha') },
  ],
  [
    'warning stock-below-use',
    { [E]: label('stock: 120 mL\nstocked: 2026-05-01\n'), [S]: spray('2026-06-01', extra) },
    { [E]: label('stock: 119 mL\nstocked: 2026-05-01\n'), [S]: spray('2026-06-01', extra) },
  ],
]

function block(area: string): string {
  return `name: Upper\nvariety: palava\nrows: 20\nrow_length: 100 m\nrow_spacing: 2 m\nvine_spacing: 1 m\narea: ${area}\n`
}
