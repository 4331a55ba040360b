import { type Files, SPRAYS, spray } from '../limits/both-sides.ts'
import { ERROR, NONE, type Told, WARNING } from './row.ts'

const ROWS = 'rows: 20\nrow_length: 100 m\n'
/** 20 rows of 100 m at 2 m are 0.4 ha, and 2000 vines a metre apart. */
const upper = (more: string, geometry?: unknown): Files => ({
  'blocks/upper.yaml': `name: Upper\nvariety: palava\nrow_spacing: 2 m\nvine_spacing: 1 m\n${more}${geometry === undefined ? '' : 'boundary: upper.geojson\n'}`,
  ...(geometry === undefined
    ? {}
    : { 'blocks/upper.geojson': typeof geometry === 'string' ? geometry : JSON.stringify(geometry) }),
})
/** At 51.5° north 0.001° of longitude are 69.2 m and 0.0005° of latitude 55.6 m: 0.385 ha, times a figure. */
const plot = (times: number, from = 7.1) => {
  const [west, east, south, north] = [from, from + 0.001 * times, 51.5, 51.5005]
  return [
    [
      [west, south],
      [east, south],
      [east, north],
      [west, north],
      [west, south],
    ],
  ]
}
const outline = (times: number) => ({ type: 'Polygon', coordinates: plot(times) })

export const AREAS: Told[] = [
  ['written area a seventh above that of the rows', NONE, upper(`${ROWS}area: 0.46 ha\n`)],
  ['written area a little more above it', WARNING, upper(`${ROWS}area: 0.461 ha\n`)],
  ['written area below it by as much', NONE, upper(`${ROWS}area: 0.348 ha\n`)],
  ['written area below it by a little more', WARNING, upper(`${ROWS}area: 0.347 ha\n`)],
  ['half of it', WARNING, upper(`${ROWS}area: 0.2 ha\n`)],
  ['less than half of it', ERROR, upper(`${ROWS}area: 0.199 ha\n`)],
  ['rows alone', NONE, upper(ROWS)],
  ['an area alone', NONE, upper('area: 3 ha\n')],
  ['an area, and rows without their length', NONE, upper('area: 3 ha\nrows: 20\n')],
  ['an area, and a length without rows', NONE, upper('area: 3 ha\nrow_length: 100 m\n')],
  ['an outline that agrees', NONE, upper(ROWS, outline(1))],
  ['an outline with headlands, 1.29 times', NONE, upper(ROWS, outline(1.341))],
  ['an outline of 1.32 times', WARNING, upper(ROWS, outline(1.373))],
  ['an outline of more than twice', ERROR, upper(ROWS, outline(2.09))],
  ['an outline that is too small', WARNING, upper(ROWS, outline(0.78))],
  ['an outline beside a written area', WARNING, upper('area: 0.8 ha\n', outline(1.2))],
  [
    'an outline of two parts, which agree together',
    NONE,
    upper(ROWS, { type: 'MultiPolygon', coordinates: [plot(0.5), plot(0.5, 7.2)] }),
  ],
  ['an outline of nothing, all corners in one', WARNING, upper(ROWS, outline(0))],
  ['an outline that is not JSON', WARNING, upper(ROWS, 'POLYGON ((7.1 51.5))')],
  ['an outline without a polygon', WARNING, upper(ROWS, { type: 'Point', coordinates: [7.1, 51.5] })],
  [
    'an outline in metres',
    WARNING,
    upper(ROWS, {
      type: 'Polygon',
      coordinates: [
        [
          [400000, 5700000],
          [400100, 5700000],
          [400100, 5700100],
        ],
      ],
    }),
  ],
  ['half of the vines missing', NONE, upper(`${ROWS}missing: 1000\n`)],
  ['more than half of the vines missing', WARNING, upper(`${ROWS}missing: 1001\n`)],
  ['all vines missing', WARNING, upper(`${ROWS}missing: 2000\n`)],
  ['one vine more missing than was planted', ERROR, upper(`${ROWS}missing: 2001\n`)],
  ['by area and spacing alone, half missing', NONE, upper('area: 0.4 ha\nmissing: 1000\n')],
  ['by area and spacing alone, more than half missing', WARNING, upper('area: 0.4 ha\nmissing: 1001\n')],
  [
    'by area and spacing, the length of rows unknown',
    ERROR,
    upper('area: 0.4 ha\nrows: 20\nmissing: 2001\n'),
  ],
]

const part = 'product: sulphur, rate: 3 kg/ha, for: powdery'
/** A sprayer of 5 L/min. In two hours it puts out 600 L, 660 L with what flow and clock may be off. */
const output = (water: string, more: string, of: { blocks?: string; sprayer?: string } = {}): Files => ({
  'sprayers/mounted.yaml': of.sprayer ?? 'name: M\ntank: 200 L\nflow: 5 L/min\n',
  [SPRAYS]: spray({ products: [part, 'product: copper, rate: 1 kg/ha, for: downy'], water, more }).replace(
    '[upper]',
    of.blocks ?? '[upper]',
  ),
})
const BY = '  time: 05:00-07:00\n  sprayer: mounted\n'
/** Has an area, but not its rows. */
const BARE: Files = {
  'blocks/bare.yaml': 'name: Bare\nvariety: palava\narea: 0.5 ha\nrow_spacing: 2 m\nvine_spacing: 1 m\n',
}

export const OUTPUT: Told[] = [
  ['all that can be put out, and a tenth', NONE, output('660 L', BY)],
  ['a litre more', WARNING, output('661 L', BY)],
  ['for ground area, on one block of 0.4 ha', NONE, output('1650 L/ha', BY)],
  [
    'for ground area, on blocks of 0.4 ha and 0.1 ha',
    WARNING,
    output('1650 L/ha', BY, { blocks: '[upper, lower]' }),
  ],
  ['for ground area, on half of the rows', NONE, output('1650 L/ha', `  rows: 1-10\n${BY}`)],
  ['in all, on two blocks', NONE, output('660 L', BY, { blocks: '[upper, lower]' })],
  ['past midnight', WARNING, output('661 L', '  time: 23:00-01:00 +1\n  sprayer: mounted\n')],
  ['the end not written', NONE, output('9000 L', '  time: 05:00\n  sprayer: mounted\n')],
  ['no time written', NONE, output('9000 L', '  sprayer: mounted\n')],
  ['no sprayer written', NONE, output('9000 L', '  time: 05:00-07:00\n')],
  ['a sprayer of unknown flow', NONE, output('9000 L', BY, { sprayer: 'name: M\ntank: 200 L\n' })],
  [
    'no water written',
    NONE,
    { ...output('1 L', BY), [SPRAYS]: output('1 L', BY)[SPRAYS]!.replace('  water: 1 L\n', '') },
  ],
  [
    'rows of a block that does not say how many it has',
    NONE,
    { ...BARE, ...output('9000 L/ha', `  rows: 1-4\n${BY}`, { blocks: '[bare, upper]' }) },
  ],
]
