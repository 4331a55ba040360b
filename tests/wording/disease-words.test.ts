import { expect, test } from 'vitest'
import { runHere } from '../faults/in-process.ts'
import { makeLedger } from '../ledger/make.ts'

const PRODUCT = `name: Rot Stop
form: WG
kind: fungicide
actives: [ { name: mancozeb, content: 750 g/kg, group: M03 } ]
authorisation: { number: DEMO-1, until: 2039-12-31 }
uses: [ { against: black-rot, rate: 1-2 kg/ha, interval: 7-14 d } ]
water: 100-1000 L/ha
before_harvest: 28 d
re_entry: 24 h
label: invented
`

test.each([['today'], ['cover', '--for', 'black-rot'], ['scouting'], ['pressure'], ['season']])(
  '%s says black rot, but in what is to be typed',
  async (...line) => {
    const root = makeLedger({
      'products/rot-stop.yaml': PRODUCT,
      'seasons/2026/scouting.yaml':
        '- { date: 2026-06-18, block: upper, looked_at: { bunches: 100 }, found: { black-rot: { bunches: 4 } } }\n',
    })
    const { out } = await runHere([...line, '--as-of', '2026-06-18', '--ledger', root])
    expect(out).toMatch(/black rot/i)
    expect(out.replace(/--for black-rot/g, '')).not.toMatch(/black-rot/i)
  },
)
