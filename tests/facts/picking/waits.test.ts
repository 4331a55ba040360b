import { expect, test } from 'vitest'
import { beforeHarvestGate, reEntryGate } from '../../../src/facts/picking/waits.ts'
import { legalFrom, spraysOf } from '../../../src/facts/spraying/legal-from.ts'
import { bookOf, sprayed } from '../book.ts'

test('three products without an interval are listed as `a, b and c`', () => {
  const product = (name: string) =>
    `name: ${name}\nform: WG\nkind: fungicide\nactives: [ { name: sulphur, content: 800 g/kg, group: M02 } ]\nuses: [ { against: powdery, rate: 2-6 kg/ha } ]\n`
  const names = ['one', 'two', 'three']
  const ledger = bookOf(
    sprayed(
      '2026-06-10',
      names.map((name) => `product: ${name}, rate: 3 kg/ha`),
    ),
    Object.fromEntries(names.map((name) => [`products/${name}.yaml`, product(name)])),
  )
  const asked = { ledger, season: 2026, asOf: '2026-06-12', block: ledger.blocks.get('upper')! }
  const sprays = spraysOf(ledger, { ...asked, block: 'upper' })
  expect(beforeHarvestGate(asked, legalFrom(ledger, sprays)).detail).toMatch(/record of one, two and three$/)
  expect(reEntryGate(asked, sprays).detail).toMatch(/record of one, two and three$/)
})
