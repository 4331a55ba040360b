import { vinesPerHa } from '../../agronomy/crop/area.ts'
import { say } from '../../facts/say.ts'
import { yearOf } from '../../records/date.ts'
import type { Rule } from '../rule.ts'
import { odd, unusual } from './usual.ts'

/** A block whose figures no vineyard has, and a variety or a site likewise. */
export const unlikelyBlock: Rule = {
  name: 'unlikely-block',
  about: {
    what: 'Spacing, length, canopy, year or targets of a block or a variety are outside what vineyards have, or contradict each other.',
    limits:
      'row spacing 0.8-4.5 m, vine spacing 0.4-3.5 m, 800-20 000 vines/ha, rows up to 600 m, canopy up to 2.5 m high, 0.1 m wide or more and narrower than the row, sugar targets 12-30 Brix',
    source: 'common practice, no source',
    basis: 'common practice',
  },
  check: ({ ledger, asOf }) => [
    ...[...ledger.blocks.values()].flatMap((block) => {
      const { row_spacing, vine_spacing, canopy, planted = 0, targets } = block
      const { height = Infinity, width = 0 } = canopy ?? {}
      const name = 'unlikely-block'
      const spacing = unusual(name, block, [
        { path: ['row_spacing'], value: row_spacing, low: 0.8, high: 4.5, unit: 'm', what: 'row spacing' },
        { path: ['vine_spacing'], value: vine_spacing, low: 0.4, high: 3.5, unit: 'm', what: 'vine spacing' },
      ])
      const density = vinesPerHa({ rowSpacing: row_spacing, vineSpacing: vine_spacing })
      return [
        ...spacing,
        ...(spacing.length > 0
          ? []
          : unusual(name, block, [
              {
                path: ['vine_spacing'],
                value: density,
                low: 800,
                high: 20_000,
                unit: 'vines/ha',
                what: 'density',
              },
            ])),
        ...unusual(name, block, [
          { path: ['row_length'], value: block.row_length, low: 5, high: 600, unit: 'm', what: 'row length' },
          { path: ['rows'], value: block.rows, low: 1, high: 500, what: 'number of rows' },
          {
            path: ['canopy', 'height'],
            value: canopy?.height,
            low: 0.3,
            high: 2.5,
            unit: 'm',
            what: 'height of the leaf wall',
          },
          {
            path: ['canopy', 'width'],
            value: canopy?.width,
            low: 0.1,
            high: 6,
            unit: 'm',
            what: 'width of the canopy',
          },
          { path: ['targets', 'brix'], value: targets?.brix?.low, low: 12, high: 30, what: 'sugar target' },
          {
            path: ['targets', 'brix'],
            value:
              targets?.brix && targets.brix.low >= 12 && targets.brix.low <= 30
                ? targets.brix.high
                : undefined,
            low: 12,
            high: 35,
            what: 'sugar target',
          },
          { path: ['targets', 'ph'], value: targets?.ph?.low, low: 2.8, high: 3.8, what: 'pH target' },
          { path: ['targets', 'ph'], value: targets?.ph?.high, low: 2.8, high: 4.1, what: 'pH target' },
          {
            path: ['targets', 'ta'],
            value: targets?.ta?.high,
            low: 3,
            high: 16,
            unit: 'g/L',
            what: 'acid target',
          },
        ]),
        ...(vine_spacing > row_spacing * 1.3
          ? [
              odd(
                name,
                block,
                ['vine_spacing'],
                `vines ${say(vine_spacing, 'm')} apart in rows only ${say(row_spacing, 'm')} apart`,
              ),
            ]
          : []),
        ...(width > 1 && width > height * 2
          ? [
              odd(
                name,
                block,
                ['canopy', 'width'],
                `a canopy ${say(width, 'm')} wide and only ${say(height, 'm')} high`,
              ),
            ]
          : []),
        ...(width >= row_spacing
          ? [
              odd(
                name,
                block,
                ['canopy', 'width'],
                `a canopy ${say(width, 'm')} wide fills the ${say(row_spacing, 'm')} between the rows`,
              ),
            ]
          : []),
        ...(planted > yearOf(asOf)
          ? [odd(name, block, ['planted'], `planted in ${planted}, which is still to come on ${asOf}`)]
          : []),
      ]
    }),
    ...[...ledger.varieties.values()].flatMap((variety) => {
      const { heat, targets, after_veraison } = variety
      const sums = Object.entries(heat?.sugar ?? {}).toSorted(([a], [b]) => Number(a) - Number(b))
      const backwards = sums.findIndex(([, sum], index) => index > 0 && sum <= sums[index - 1]![1])
      const { flowering = 0, veraison = Infinity } = heat ?? {}
      const brix = targets?.brix
      return [
        ...(brix && brix.high - brix.low > 10
          ? [
              odd(
                'unlikely-block',
                variety,
                ['targets', 'brix'],
                `ripe from ${say(brix.low)} to ${say(brix.high)} Brix is too wide to mean anything`,
              ),
            ]
          : []),
        ...unusual('unlikely-block', variety, [
          { path: ['targets', 'brix'], value: targets?.brix?.low, low: 12, high: 30, what: 'sugar target' },
          {
            path: ['after_veraison'],
            value: after_veraison?.high,
            low: 15,
            high: 100,
            unit: 'd',
            what: 'time from veraison to ripeness',
          },
        ]),
        ...(veraison <= flowering
          ? [
              odd(
                'unlikely-block',
                variety,
                ['heat', 'veraison'],
                `veraison at ${veraison} degree days, but flowering at ${flowering}`,
              ),
            ]
          : []),
        ...(backwards > 0
          ? [
              odd(
                'unlikely-block',
                variety,
                ['heat', 'sugar', sums[backwards]![0]],
                `more sugar with no more heat: ${sums[backwards]!.join(' g/L at ')} degree days, ${sums[backwards - 1]!.join(' g/L at ')}`,
              ),
            ]
          : []),
      ]
    }),
  ],
}
