import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, describe, expect, it } from 'vitest'
import { makeLedger } from '../ledger/make.ts'
import { runJson } from './run.ts'
import { asks, hasTmux, NO_TMUX, Terminal } from './terminal.ts'

let terminal: Terminal | null = null
afterEach(() => terminal?.close())

describe.skipIf(!hasTmux)(`a whole evening typed${hasTmux ? '' : ` (skipped: ${NO_TMUX})`}`, () => {
  it('takes spray, scouting round, stage, sample and work as people say them', async () => {
    const root = makeLedger()
    const at = new Terminal(root)
    terminal = at
    const answer = async (question: string, ...typed: string[]) => {
      for (const text of typed) {
        await at.see(asks(question))
        at.type(text)
      }
    }
    const entries = (kind: string) =>
      readdirSync(join(root, 'seasons/2026', kind))
        .sort()
        .map((name) => readFileSync(join(root, 'seasons/2026', kind, name), 'utf8'))

    at.type('rowbook note spray --as-of 2026-08-14')
    await answer('Which day?', '99/99', 'yesterday')
    await answer('From when to when?', 'evening', '6:30pm-7:10pm')
    await answer('Which blocks?', 'pond', 'upper')
    await answer('Was all of it sprayed?', 'most', 'rows 1-8')
    await answer('How much water?', 'plenty', '300 L/ha')
    await answer('Which products', 'soap', 'sulphur')
    await answer('Dose of Test sulphur?', 'some', '3')
    await answer('Wind, temperature, humidity?', '17', 'none')
    await answer('Who sprayed?', 'A. N.')
    await answer('Anything else', '')
    await answer('Write it?', 'maybe', 'y')
    await at.see('Written: seasons/2026/sprays/2026-08-13-upper.yaml')
    expect(entries('sprays')[0]).toContain('time: 18:30-19:10\nblocks: [upper]\nrows: 1-8\n')

    // Interrupted in the second block: the lines that go on from there hold what was typed.
    at.type('clear; rowbook note scouting --as-of 2026-08-14')
    await answer('Which day?', '')
    await answer('Which blocks?', 'all')
    await answer('Lower: What did you look at?', 'some', '50', '50 bunches')
    await answer('Lower: What did you find?', 'mould 3', 'powdery 3 of 60', 'powdery 3 of 50, rest clean')
    await answer('Anything else', 'rows 2 and 3')
    await at.see(asks('Upper: What did you look at?'))
    at.press('C-c')
    const left = await at.see('To go on where you left:')
    expect(left).toContain('--looked-at bunches=50 --found powdery.bunches=3')
    at.type('clear; rowbook note scouting --as-of 2026-08-14')
    await answer('Which day?', 'today')
    await answer('Which blocks?', '1, 2')
    await answer('Lower: What did you look at?', '50 bunches')
    await answer('Lower: What did you find?', 'powdery 3 of 50, rest clean')
    await answer('Lower: Anything else', '')
    await answer('Upper: What did you look at?', '')
    await answer('Upper: What did you find?', 'clean')
    await answer('Upper: Anything else', '')
    // The rounds differ, so that both are shown.
    const both = await at.see('Write it')
    expect(both).toContain('block: lower')
    expect(both).toContain('block: upper')
    await answer('Write it', 'y')
    await at.see('Written: seasons/2026/scouting/2026-08-14-upper.yaml')
    await answer('Record a spray of all of Lower now?', 'later', '')
    const [lower, upper] = entries('scouting')
    expect(lower).toContain(
      'found: { powdery: { bunches: 3 }, downy: { bunches: 0 }, botrytis: { bunches: 0 } }',
    )
    expect(upper).toContain(
      'found: { powdery: { bunches: 0 }, downy: { bunches: 0 }, botrytis: { bunches: 0 } }',
    )

    at.type('clear; rowbook note stage --as-of 2026-08-14')
    await answer('Which day?', '')
    await answer('Which blocks?', 'upper')
    await answer('Which growth stage?', 'purple', '50 % veraison')
    await answer('Anything else', 'none')
    await answer('Write it', 'y')
    await at.see('Written: seasons/2026/stages/2026-08-14-upper.yaml')
    expect(entries('stages')[0]).toContain('stage: 83\nshare: 50 %\n')

    // Pasted at once, with an escape and an invisible mark in it.
    at.type('clear; rowbook note sample --as-of 2026-08-14')
    await at.see(asks('Which day?'))
    at.write('today\nupper\n100\n18.2 19.0 20.4\n3.1\u200b\nnone\nseeds \u202ebrown\ny\n')
    await at.see('Written: seasons/2026/samples/2026-08-14-upper.yaml')
    expect(entries('samples')[0]).toContain('brix: [18.2, 19.0, 20.4]\nph: 3.1\nnote: seeds brown\n')

    at.type('clear; rowbook note work --as-of 2026-08-14')
    await answer('Which day?', '')
    await answer('Which blocks?', 'upper and lower')
    await answer('What was done?', 'leaf removal')
    await answer('How many hours?', '1, 2, 3', '6')
    await answer('How many people?', '2')
    await answer('Anything else', '')
    await answer('Write it', 'y')
    await at.see('Written: seasons/2026/work/2026-08-14-lower.yaml')
    // 0.1 ha and 0.4 ha: 6 hours shared out by area.
    expect(entries('work').map((text) => /hours: (.*)/.exec(text)?.[1])).toEqual(['1.2', '4.8'])

    at.type('clear; rowbook note weather --as-of 2026-08-14')
    await answer('Which day?', '')
    await answer('Lowest temperature', 'cold', '8')
    await answer('Highest temperature', '-')
    await answer('How much rain?', 'none')
    await answer('Anything else', '')
    await answer('Write it', 'y')
    await at.see('Written: seasons/2026/weather/2026-08-14.yaml')
    expect(entries('weather')[0]).toContain('date: 2026-08-14\nlow: 8 C\nrain: 0 mm\n')

    at.type('clear; rowbook note weather --as-of 2026-08-14')
    await answer('Which day?', 'week')
    await answer('Sat 8 Aug: lowest, highest, rain?', 'cold', '9 22 0')
    await answer('Sun 9 Aug', 'x x 4.5')
    for (const day of ['Mon 10', 'Tue 11', 'Wed 12', 'Thu 13']) await answer(`${day} Aug`, '')
    await answer('Write it', 'y')
    await at.see('Written: seasons/2026/weather/2026-08-09.yaml')
    expect(entries('weather').map((text) => text.replace(/^#.*\n/, ''))).toEqual([
      'date: 2026-08-08\nlow: 9 C\nhigh: 22 C\nrain: 0 mm\n',
      'date: 2026-08-09\nrain: 4.5 mm\n',
      'date: 2026-08-14\nlow: 8 C\nrain: 0 mm\n',
    ])
    const { json } = runJson(['check', '--ledger', root, '--as-of', '2026-08-14'])
    expect(json.data.errors).toBe(0)
  }, 120_000)

  it('says at once what must be recorded first, and takes a flow as the question puts it', async () => {
    const bare = makeLedger({ 'products/sulphur.yaml': null, 'products/copper.yaml': null })
    const at = new Terminal(bare)
    terminal = at
    at.type('rowbook note spray')
    await at.see('no product is recorded yet')
    expect(at.screen()).not.toContain('Which day?')
    at.type('clear; rowbook note sprayer')
    await at.see(asks('What is the sprayer called?'))
    at.type('Pack')
    await at.see(asks('How much does its tank hold?'))
    at.type('15')
    await at.see(asks('How much does it spray in a minute'))
    at.type('1.2 L a minute')
    await at.see(asks('Write it?'))
    at.type('y')
    await at.see('Written: sprayers/pack.yaml')
    expect(readFileSync(join(bare, 'sprayers/pack.yaml'), 'utf8')).toContain('flow: 1.2 L/min\n')
  }, 60_000)
})
