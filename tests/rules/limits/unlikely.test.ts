import { describe, expect, test } from 'vitest'
import { findingsOf } from '../../ledger/in-memory.ts'
import { asTold } from '../as-told.ts'
import { BLOCKS } from './spans/block.ts'
import { CROP } from './spans/crop.ts'
import { DAYS } from './spans/day.ts'
import { PRODUCT_WORDS } from './spans/disagrees.ts'
import { PICKS } from './spans/pick.ts'
import { PRODUCTS } from './spans/product.ts'
import type { Row } from './spans/row.ts'
import { SAMPLES, STEPS } from './spans/sample.ts'
import { SITES } from './spans/site.ts'
import { SPRAY_ROWS } from './spans/spray.ts'
import { SPRAYERS } from './spans/sprayer.ts'
import { TIMES } from './spans/ten-times.ts'
import { WALKS } from './spans/walk.ts'

// What no vineyard has: each end of each span, silent on it and speaking just beyond. The spans themselves are
// common practice without a source, so that these rows hold the rule to what it says of itself.

const SPANS: [rule: string, rows: Row[]][] = [
  ['unlikely-block', BLOCKS],
  ['unlikely-product', PRODUCTS],
  ['unlikely-sprayer', SPRAYERS],
  ['unlikely-spray', SPRAY_ROWS],
  ['unlikely-sample', [...SAMPLES, ...STEPS]],
  ['unlikely-crop', CROP],
  ['unlikely-day', DAYS],
  ['unlikely-pick', PICKS],
  ['unlikely-site', SITES],
  ['unlikely-walk', WALKS],
  ['ten-times-usual', TIMES],
  ['product-disagrees', PRODUCT_WORDS],
]

describe.each(SPANS)('%s', (rule, rows) => {
  test.each(rows)('%s', (_, make, within, beyond) => {
    for (const value of within)
      expect({ value, found: findingsOf(rule, make(value)) }).toEqual({ value, found: [] })
    for (const value of beyond)
      expect({ value, count: findingsOf(rule, make(value)).length > 0 }).toEqual({ value, count: true })
  })
})

// The words were read over when they were kept; a change of them shows in the difference and is read again.
test.each(SPANS)('%s: what is told just beyond each span, word by word', async (rule, rows) => {
  const told = rows.flatMap(([what, make, , beyond]) =>
    beyond.map((value) => `# ${what}: ${value}\n${findingsOf(rule, make(value)).map(asTold).join('')}`),
  )
  await expect(told.join('\n')).toMatchFileSnapshot(`spans/${rule}.txt`)
})
