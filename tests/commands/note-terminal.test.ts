import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, describe, expect, it } from 'vitest'
import { makeLedger } from '../ledger/make.ts'
import { ledgerCopy } from './run.ts'
import { asks, hasTmux, NO_TMUX, Terminal } from './terminal.ts'

const SPRAYS = `- date: 2026-06-01
  time: 18:00-19:10
  blocks: [upper, lower]
  sprayer: mounted
  water: 300 L/ha
  products:
    - { product: sulphur, rate: 3 kg/ha, for: powdery }
  operator: A.
`
const WIDE = 'name: Knapsack\ntank: 15 L\n'

let terminal: Terminal | null = null
afterEach(() => terminal?.close())

function open(files: Record<string, string>): { at: Terminal; root: string } {
  const root = makeLedger(files)
  terminal = new Terminal(root)
  return { at: terminal, root }
}

const sprays = (root: string) => {
  const folder = join(root, 'seasons/2026/sprays')
  return existsSync(folder) ? readdirSync(folder).map((name) => readFileSync(join(folder, name), 'utf8')) : []
}

describe.skipIf(!hasTmux)(`note in a terminal${hasTmux ? '' : ` (skipped: ${NO_TMUX})`}`, () => {
  it('takes a repeated spray with one line and one answer', async () => {
    const { at, root } = open({ 'seasons/2026/sprays.yaml': SPRAYS })
    at.type('rowbook note spray --like last --as-of 2026-06-14')
    const shown = await at.see('Write it?')
    expect(shown).toContain('  - { product: sulphur, rate: 3 kg/ha, for: powdery }')
    expect(shown).toContain('Keep out until')
    expect(shown).toContain('Pick from')
    expect(sprays(root)).toEqual([])
    at.type('y')
    await at.see('Written: seasons/2026/sprays/2026-06-14-upper-lower.yaml')
    expect(sprays(root)).toHaveLength(1)
  })

  it('keeps what was pasted behind the kind', async () => {
    const { at } = open({})
    at.type('rowbook note --as-of 2026-06-14')
    await at.see('What do you want to note?')
    at.write('work\nyesterday\n')
    const shown = await at.see(/> yesterday\n[^>]*\n> ?\s*$/)
    expect(shown).toContain('Which day?')
    at.press('C-c')
  })

  it('takes a spray from nothing in at most twelve answers', async () => {
    const { at, root } = open({ 'sprayers/knapsack.yaml': WIDE })
    at.type('rowbook note spray --as-of 2026-06-14')
    let answers = 0
    const answer = async (question: string, typed: string) => {
      await at.see(asks(question))
      answers += 1
      at.type(typed)
    }
    await answer('Which day?', 'yesterday')
    await answer('From when to when?', '6 pm-7:10 pm')
    await answer('Which blocks?', '2')
    await answer('Was all of it sprayed?', '')
    await answer('Which sprayer?', 'mount')
    await answer('How much water?', '300L/ha')
    await answer('Which products were in the tank?', 'sulph')
    await answer('Dose of Test sulphur? The label says 2-6 kg/ha.', '3kg/ha')
    await answer('Wind, temperature, humidity?', '2 m/s SW 17C')
    await answer('Who sprayed?', 'none')
    await answer('Anything else to note?', '')
    await answer('Write it?', 'y')
    await at.see('Written: seasons/2026/sprays/2026-06-13-upper.yaml')
    expect(answers).toBeLessThanOrEqual(12)
    expect(sprays(root)[0]).toBe(`# yaml-language-server: $schema=../../../.rowbook/schema/spray.json
date: 2026-06-13
time: 18:00-19:10
blocks: [upper]
sprayer: mounted
water: 300 L/ha
products:
  - { product: sulphur, rate: 3 kg/ha, for: powdery }
weather: { wind: 2 m/s, from: SW, temperature: 17 C }
`)
  })

  it('asks for the water that was left out where a dose is for a volume of spray', async () => {
    const { at, root } = open({ 'sprayers/knapsack.yaml': WIDE })
    at.type('rowbook note spray --as-of 2026-06-14 --block lower --date today --time 18:00-18:30')
    for (const [question, text] of [
      ['Was all of it sprayed?', ''],
      ['Which sprayer?', 'knap'],
      ['How much water?', ''],
      ['Which products were in the tank?', 'sulphur'],
      ['Dose of', '10 g/L'],
      ['How much water after all?', 'lots'],
      ['How much water after all?', '300 L/ha'],
      ['Wind, temperature, humidity?', ''],
      ['Who sprayed?', ''],
      ['Anything else to note?', ''],
      ['Write it?', 'y'],
    ] as const) {
      await at.see(asks(question))
      at.type(text)
    }
    await at.see('Written: ')
    expect(sprays(root)[0]).toContain('water: 300 L/ha\n')
    expect(sprays(root)[0]).toContain('concentration: 10 g/L')
  })

  it('leaves unknown what a dash leaves out, where none would be a figure', async () => {
    const { at, root } = open({})
    at.type('rowbook note weather --as-of 2026-06-14 --date today')
    for (const [question, text] of [
      ['Lowest temperature', '8'],
      ['Highest temperature', 'unknown'],
      ['How much rain?', '-'],
      ['Anything else to note?', ''],
      ['Write it?', 'y'],
    ] as const) {
      await at.see(asks(question))
      at.type(text)
    }
    await at.see('Written: ')
    const text = readFileSync(join(root, 'seasons/2026/weather/2026-06-14.yaml'), 'utf8')
    expect(text).toContain('low: 8 C\n')
    expect(text).not.toMatch(/high|rain/)
    at.type('clear; rowbook note scouting --as-of 2026-06-14 --block lower --looked-at bunches=50')
    await at.see(asks('Which day?'))
    at.type('')
    await at.see(asks('What did you find?'))
    at.type('not measured')
    await at.see('This is needed.')
    at.type('none')
    await at.see(asks('Anything else to note?'))
    at.press('C-c')
  })

  it('checks each answer as it is typed, goes back, and loses nothing when left', async () => {
    const { at, root } = open({})
    at.type('rowbook note sample --as-of 2026-09-01')
    await at.see(asks('Which day?'))
    at.type('')
    await at.see(asks('Which blocks?'))
    at.type('upper')
    await at.see(asks('How many berries'))
    at.type('100')
    await at.see(asks('Sugar by refractometer'))
    at.type('19,6')
    await at.see('can be read in two ways')
    at.type('19.6')
    await at.see(asks('pH?'))
    at.type('<')
    await at.see(/Sugar by refractometer[^?]*\?[^[]*\[19\.6\]/)
    at.type('')
    await at.see(/pH\?[^$]*pH\?[^\n]*\n> $/m)
    at.write('3.1')
    await at.see('> 3.1')
    at.press('C-c')
    await at.see('To go on where you left:')
    await at.see(
      'rowbook note sample --as-of 2026-09-01 --block upper --date 2026-09-01 --berries 100 --brix 19.6 --ph 3.1',
    )
    expect(existsSync(join(root, 'seasons'))).toBe(false)
  })

  it('keeps the other blocks where one lacks its figures and is left', async () => {
    const { at } = open({})
    at.type('rowbook note sample --as-of 2026-06-14 --date today')
    await at.see(asks('Which blocks?'))
    at.type('all')
    for (const brix of ['', '19.4'])
      for (const [question, text] of [
        ['How many berries', ''],
        ['Sugar by refractometer', brix],
        ['pH?', ''],
        ['Titratable acidity', ''],
        ['Anything else to note?', ''],
      ] as const) {
        await at.see(asks(question))
        at.type(text)
      }
    await at.see('Something is still missing for')
    at.press('C-c')
    const shown = await at.see('To go on where you left')
    expect(shown).toContain('--brix 19.4')
  })

  it('writes nothing on a no, and says how to go on', async () => {
    const { at, root } = open({ 'seasons/2026/sprays.yaml': SPRAYS })
    at.type('rowbook note spray --like last --as-of 2026-06-14')
    await at.see('Write it?')
    at.type('n')
    await at.see('Nothing written. To go on:')
    await at.see('  rowbook note spray --as-of 2026-06-14 --like last')
    expect(sprays(root)).toEqual([])
  })

  it('stops at an error and leaves the line to correct', async () => {
    const { at, root } = open({ 'seasons/2026/sprays.yaml': SPRAYS })
    at.type('rowbook note spray --like last --as-of 2026-06-14 --product sulphur=30kg/ha')
    await at.see('Nothing written. Correct the entry')
    expect(at.screen()).toMatch(/over-rate[\s\S]*Nothing written/)
    expect(at.screen()).toContain('--product sulphur=30kg/ha')
    expect(sprays(root)).toEqual([])
  })
})

describe.skipIf(!hasTmux)('changing and taking back in a terminal', () => {
  const PICK = 'seasons/2026/picks/2026-09-29-upper.yaml'
  const TEXT = 'date: 2026-09-29\nblock: upper\nweight: 1820 kg # by the scale\npeople: 6\n'

  it('opens an entry with all its values, keeps them by Enter, and changes what is typed', async () => {
    const { at, root } = open({ [PICK]: TEXT })
    const answer = async (question: string, text: string) => {
      await at.see(asks(question))
      at.type(text)
    }
    at.type(`rowbook note --amend ${PICK} --as-of 2026-10-01`)
    await answer('[Tue 29 Sep 2026]', '')
    await answer('Which block? [Upper]', '')
    await answer('[1820 kg]', 'heavy')
    await at.see(/heavy[\s\S]*\[1820 kg\]\s*\n> ?\s*$/)
    at.type('1280 kg')
    await answer('How many people picked? For example 6. [6]', '<')
    await answer('[1280 kg]', '')
    await answer('[6]', '-')
    await answer('For how many hours did they pick?', '')
    await answer('Sugar of the must', '20.8')
    await answer('Anything else to note?', '')
    await answer('Anything to add? Name a field:', 'crates')
    await answer('Crates: crates filled?', '107')
    await answer('Anything to add? Name a field:', '')
    await at.see('Change it')
    expect(readFileSync(join(root, PICK), 'utf8')).toBe(TEXT)
    at.type('y')
    await at.see(`Changed: ${PICK}`)
    expect(readFileSync(join(root, PICK), 'utf8')).toBe(
      `${TEXT.replace('1820', '1280').replace('people: 6\n', '')}brix: 20.8\ncrates: 107\n`,
    )
    at.type('rowbook note --undo --as-of 2026-10-01')
    await at.see('Take it back?')
    at.type('y')
    await at.see('is again as it was')
    expect(readFileSync(join(root, PICK), 'utf8')).toBe(TEXT)
  })

  it('opens a spray, and changes part, dose and weather; left early it says how to go on', async () => {
    const file = 'seasons/2026/sprays/2026-06-10-upper.yaml'
    const text =
      'date: 2026-06-10\nblocks: [upper]\nmethod: spot\nvines: 12\nwater: 8 L\nproducts:\n  - { product: sulphur, concentration: 4 g/L, for: powdery } # weighed\n  - { product: copper, concentration: 2 g/L }\nweather: { wind: 1 m/s, temperature: 17 C }\n'
    const { at, root } = open({ [file]: text })
    const answer = async (question: string, typed: string) => {
      await at.see(asks(question))
      at.type(typed)
    }
    at.type(`rowbook note --amend ${file} --as-of 2026-06-12`)
    await answer('[Wed 10 Jun 2026]', '')
    await answer('From when to when?', '18:00-18:30')
    await answer('Which blocks? Several with commas, or all. [Upper]', '')
    await answer('[spot 12 vines]', 'rows 3-4')
    await answer('Which sprayer?', '')
    await at.see(asks('[8 L]'))
    at.press('C-c')
    await at.see(
      `rowbook note --amend ${file} --as-of 2026-06-12 --time 18:00-18:30 --vines '' --method '' --rows 3-4`,
    )
    // Over two lines, so that it can be pasted as it stands.
    expect(at.lines()).toMatch(/--as-of 2026-06-12 .*\\\n {4}--/)
    expect(readFileSync(join(root, file), 'utf8')).toBe(text)
    at.type(`clear; rowbook note --amend ${file} --as-of 2026-06-12 --anyway`)
    await answer('[Wed 10 Jun 2026]', '')
    await answer('From when to when?', '')
    await answer('Which blocks?', '')
    await answer('[spot 12 vines]', 'spot 20 vines')
    await answer('Which sprayer?', '')
    await answer('[8 L]', '')
    await answer('[Test sulphur, Test copper]', 'sulphur')
    await answer('[4 g/L]', '5 g/L')
    await answer('[1 m/s 17 C]', '2 m/s SW')
    await answer('Who sprayed?', '')
    await answer('Anything else to note?', '')
    await answer('Anything to add?', '')
    await answer('Change it', 'y')
    await at.see(`Changed: ${file}`)
    expect(readFileSync(join(root, file), 'utf8')).toBe(
      text
        .replace('vines: 12', 'vines: 20')
        .replace('4 g/L', '5 g/L')
        .replace('  - { product: copper, concentration: 2 g/L }\n', '')
        .replace('wind: 1 m/s, temperature: 17 C', 'wind: 2 m/s, temperature: 17 C, from: SW'),
    )
  })

  it('opens a scouting round in words', async () => {
    const file = 'seasons/2026/scouting/2026-07-12-upper.yaml'
    const text =
      'date: 2026-07-12\nblock: upper\nlooked_at: { bunches: 50, leaves: 50 }\nfound: { powdery: { bunches: 3, severity: 2 %, rows: 8-9 }, downy: { leaves: 0 } }\n'
    const { at, root } = open({ [file]: text })
    const answer = async (question: string, typed: string) => {
      await at.see(asks(question))
      at.type(typed)
    }
    at.type(`rowbook note --amend ${file} --as-of 2026-07-13`)
    await answer('Which day?', '')
    await answer('Which block? [Upper]', '')
    await answer('[50 bunches, 50 leaves]', '')
    await answer('What did you find?', 'powdery 5 bunches')
    expect(at.screen().replace(/\s+/g, ' ')).toContain(
      '[powdery 3 bunches severity 2 % in rows 8-9, downy 0 leaves]',
    )
    await answer('Anything else to note?', '')
    await answer('Anything to add?', '')
    await answer('Change it', 'y')
    await at.see(`Changed: ${file}`)
    expect(readFileSync(join(root, file), 'utf8')).toBe(
      text.replace('bunches: 3, severity: 2 %, rows: 8-9', 'bunches: 5'),
    )
  })

  it('takes a spray typed again with another dose as a correction, which is not lost', async () => {
    const { at, root } = open({
      'seasons/2026/sprays/a.yaml': SPRAYS.replace(/^- /, '  ').replace(/^ {2}/gm, ''),
    })
    at.type(
      'rowbook note spray --date 2026-06-01 --block upper --block lower --time 18:00-19:10 --sprayer mounted --water "300 L/ha" --product "sulphur=4 kg/ha" --for powdery --as-of 2026-06-02',
    )
    await at.see('Is this the same spray as in seasons/2026/sprays/a.yaml, but for products?')
    at.type('y')
    await at.see('Change it')
    at.type('y')
    await at.see('Changed: seasons/2026/sprays/a.yaml')
    expect(sprays(root)).toHaveLength(1)
    expect(sprays(root)[0]).toContain('rate: 4 kg/ha, for: powdery')
    expect(sprays(root)[0]).toContain('operator: A.')
  })

  it('asks whether an entry with one field more is the same, and adds the field to that one', async () => {
    const { at, root } = open({ [PICK]: TEXT })
    at.type(
      'rowbook note pick --date 2026-09-29 --block upper --weight "1820 kg" --people 6 --crates 150 --as-of 2026-10-01',
    )
    await at.see('Is this the same pick as in')
    expect(at.screen()).toContain('but for crates')
    at.type('y')
    await at.see('Change it')
    at.type('y')
    await at.see(`Changed: ${PICK}`)
    expect(readdirSync(join(root, 'seasons/2026/picks'))).toHaveLength(1)
    expect(readFileSync(join(root, PICK), 'utf8')).toBe(`${TEXT}crates: 150\n`)
  })
})

describe.skipIf(!hasTmux)('a find, and the spray that it leads to', () => {
  const ROUND =
    'rowbook note scouting --as-of 2026-07-12 --block plum --looked-at "50 bunches" --found "powdery 3, rest clean"'

  /** Tansy Corner on the morning of 12 July. */
  function tansy() {
    const root = ledgerCopy('tansy-corner')
    for (const kind of ['scouting', 'sprays', 'stages', 'samples', 'crop', 'picks', 'work'])
      for (const name of readdirSync(join(root, 'seasons/2026', kind)))
        if (name >= '2026-07-12') rmSync(join(root, 'seasons/2026', kind, name))
    terminal = new Terminal(root)
    const newest = (kind: string) => {
      const folder = join(root, 'seasons/2026', kind)
      return readFileSync(join(folder, readdirSync(folder).sort().at(-1)!), 'utf8')
    }
    return { at: terminal, newest }
  }

  it('is offered for its rows, asks of the part alone, and takes vines in their place', async () => {
    const { at, newest } = tansy()
    at.type(`${ROUND} --found powdery.rows=8-9`)
    await at.see('Write it?')
    at.type('')
    await at.see(
      /Written: seasons\/2026\/scouting\/2026-07-12-plum-side.yaml\n\nRecord a spray of rows 8-9 of Plum Side now\?/,
    )
    at.type('y')
    for (const [question, typed] of [
      ['Which day?', ''],
      ['From when to when?', '8 pm - 8:15 pm'],
      ['[spot rows 8-9]', 'spot 12 vines'],
      // Neither the 42 L nor the tank of the last spray, which was of both blocks.
      ['How much spray was used on them? For example 2 L.', '-'],
      ['How much spray was used on them? For example 2 L.', '300 L/ha'],
      ['How much spray was used on them? For example 2 L.', '2'],
      ['Which products were in the tank? Several with commas.', 'bicarb'],
      ['Dose of Tansy Bicarbonate?', '100 g per 10 litres'],
      ['Wind, temperature, humidity?', ''],
      ['Who sprayed?', ''],
      ['Anything else to note?', ''],
      ['Write it?', 'y'],
    ] as const) {
      await at.see(asks(question))
      at.type(typed)
    }
    await at.see('Written: seasons/2026/sprays/2026-07-12-plum-side.yaml')
    expect(at.screen().replace(/\s+/g, ' ')).toContain(
      'Keep out until the spray is dry, at the earliest the end of Sun 12 Jul (re-entry interval, REI).',
    )
    expect(newest('sprays')).toContain('vines: 12\nsprayer: knapsack\nwater: 2 L\n')
    expect(newest('sprays')).toContain('concentration: 100 g in 10 L, for: powdery }')
  }, 60_000)

  it('takes a count of bunches and a pick in buckets, after slips of the hand', async () => {
    const { at, newest } = tansy()
    const answer = async (question: string, ...typed: string[]) => {
      for (const text of typed) {
        await at.see(asks(question))
        at.type(text)
      }
    }
    at.type('rowbook note crop --as-of 2026-07-19')
    await answer('Which day?', '<')
    await at.see('This is the first question.')
    await answer('Which day?', '')
    await answer('Which blocks?', 'plum')
    await answer('When were they weighed?', '12 10', 'lag')
    await answer('Bunches on each vine', '12 10 13')
    await answer('Weight of each bunch?', 'light', '10 bunches 1.4 kg', '58 66 52')
    await at.see('Type each reading by itself, like 48 55 51 g.')
    await answer('Anything else', 'y', '')
    await at.see('Type the note itself')
    await answer('Write it?', '')
    await at.see('Written: seasons/2026/crop/2026-07-19-plum-side.yaml')
    expect(newest('crop')).toContain(
      'bunches_per_vine: [12, 10, 13]\nbunch_weight: [58 g, 66 g, 52 g]\nat: lag\n',
    )

    at.type('clear; rowbook note pick --as-of 2026-09-26')
    await answer('Which day?', '')
    await answer('Which blocks?', 'plum')
    await answer('Weight of fruit picked? For example 1820 kg, or 30 buckets.', '29 bukets', '29 buckets')
    await answer('How many people', '3')
    await answer('how many hours', '4.5')
    await answer('Sugar of the must', '20,3', '20.3')
    await answer('Anything else', '')
    await at.see('Write it')
    at.type('y')
    await at.see('Written: seasons/2026/picks/2026-09-26-plum-side.yaml')
    expect(newest('picks')).toContain('weight: 261 kg\npeople: 3\nhours: 4.5\nbrix: 20.3\n')
  }, 90_000)

  it('keeps the round where the offer is left, and names the whole block where no rows are noted', async () => {
    const { at, newest } = tansy()
    at.type(ROUND)
    await at.see('so this is for the whole block:')
    at.type('y')
    await at.see('No rows are noted. Record a spray of all of Plum Side now?')
    at.press('C-c')
    await at.see(/Plum Side now\?[\s\S]*\nready> $/m)
    expect(newest('scouting')).toContain('powdery: { bunches: 3 }')
    expect(newest('sprays')).toContain('date: 2026-07-03')
  }, 60_000)
})
