import fc from 'fast-check'
import { expect, test } from 'vitest'
import { areaOf, treatedAreaOf, vinesOf } from '../../src/facts/block-size.ts'
import { applied } from './book.ts'

const blockOf = (fields: string) =>
  applied(['product: extra, rate: 1 kg/ha'], '', 'small', {
    'blocks/small.yaml': `name: Small\nvariety: palava\nrow_spacing: 2 m\nvine_spacing: 1.2 m\n${fields}\n`,
    'products/extra.yaml':
      'name: Extra\nform: WG\nkind: fungicide\nactives: [ { name: sulphur } ]\nuses:\n  - { against: powdery, rate: 2 kg/ha }\n',
  })[0]!.block

test('a block of 180 vines at 2 m by 1.2 m is 432 m2', () => {
  const block = blockOf('vines: 180')
  expect(areaOf(block)).toBeCloseTo(0.0432, 12)
  expect(vinesOf(block)).toEqual({ planted: 180, alive: 180 })
})

test('missing vines reduce the number of living vines, not the area', () => {
  const block = blockOf('vines: 180\nmissing: 12')
  expect(areaOf(block)).toBeCloseTo(0.0432, 12)
  expect(vinesOf(block)).toEqual({ planted: 180, alive: 168 })
})

test('a recorded area comes first, then the rows, then the number of vines', () => {
  expect(areaOf(blockOf('vines: 180\narea: 0.05 ha'))).toBe(0.05)
  expect(areaOf(blockOf('vines: 180\nrows: 6\nrow_length: 36 m'))).toBeCloseTo(0.0432, 12)
  expect(areaOf(blockOf('vines: 180\nrows: 6'))).toBeCloseTo(0.0432, 12)
})

test('treated vines count as their share of the block, and never more than all of it', () => {
  const block = blockOf('vines: 180\narea: 0.05 ha')
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 1000 }), (vines) => {
      const area = treatedAreaOf({ vines, method: 'spot' }, block)!
      expect(area).toBeCloseTo((0.05 * Math.min(180, vines)) / 180, 12)
    }),
  )
})
