import fc from 'fast-check'
import { expect, test } from 'vitest'
import { runHere } from '../../faults/in-process.ts'

interface Listed {
  /** Fills of this kind. */
  count: number
  water: number
  /** Grams in each. */
  grams: number
}

/** The fills that a page lists, as somebody in the shed would read them. */
function fillsOf(page: string): Listed[] {
  return page
    .split(/\n(?=[A-Z0-9][^\n]*\n {2}\[ \] water to half)/)
    .slice(1)
    .map((part) => {
      const grams = /\[ \] stuff +([\d.]+) (kg|g)/.exec(part)
      const water = /in all ([\d.]+) L/.exec(part)
      if (!grams || !water) throw new Error(`no amount in:\n${part}`)
      return {
        count: Number(/^(\d+) FILLS ALIKE/.exec(part)?.[1] ?? 1),
        water: Number(water[1]),
        grams: Number(grams[1]) * (grams[2] === 'kg' ? 1000 : 1),
      }
    })
}

const shed = async (water: number, more: readonly string[]) => {
  const args = ['--area', '1 ha', '--water', `${water} L/ha`, '--tank', '100 L', '--dose', 'stuff=10 g/L']
  const { out, status } = await runHere(['mix', ...args, '--shed', ...more])
  expect(status).toBe(0)
  return out
}

test('the page lists every fill with its amount, whatever the volume, equal fills and water in the tank', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.integer({ min: 1, max: 700 }),
      fc.boolean(),
      fc.integer({ min: 0, max: 60 }),
      async (water, even, stands) => {
        const inTank = Math.min(stands, water)
        const page = await shed(water, [
          ...(even ? ['--even'] : []),
          ...(inTank ? ['--in-tank', `${inTank} L`] : []),
        ])
        const fills = fillsOf(page)
        const sum = (of: (one: Listed) => number) =>
          fills.reduce((total, one) => total + one.count * of(one), 0)
        // 10 g in each litre; printed to the gram or three digits that count for each fill.
        expect(Math.abs(sum(({ grams }) => grams) / (water * 10) - 1)).toBeLessThan(0.01)
        expect(Math.abs(sum(({ water: added }) => added) - (water - inTank))).toBeLessThan(0.01 * water + 0.5)
      },
    ),
    { numRuns: 60 },
  )
})

test('one equal fill is a fill too', async () => {
  expect(await shed(41, ['--even'])).toMatch(
    /\nTHE FILL\n {2}\[ \] water to half +\(in all 41 L\)\n {2}\[ \] stuff +410 g\n/,
  )
})

test('equal fills are listed once, to tick off', async () => {
  expect(await shed(250, ['--even'])).toContain('3 FILLS ALIKE: TICK OFF __ __ __')
})

test('what stands in the tank is not poured again', async () => {
  expect(await shed(250, ['--in-tank', '20 L'])).toMatch(
    /FIRST FILL \(WATER IS IN IT\)\n[^\n]*\(in all 80 L\)/,
  )
})
