import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, describe, expect, it } from 'vitest'
import { makeLedger } from '../ledger/make.ts'
import { asks, hasTmux, NO_TMUX, Terminal } from './terminal.ts'

let terminal: Terminal | null = null
afterEach(() => terminal?.close())

/** Answers questions in turn; of one that is refused first, what is said then. */
async function answers(at: Terminal, list: readonly (readonly [question: string, ...typed: string[]])[]) {
  for (const [question, ...typed] of list)
    for (const text of typed) {
      await at.see(asks(question))
      at.type(text)
    }
}

describe.skipIf(!hasTmux)(`new things by prompt${hasTmux ? '' : ` (skipped: ${NO_TMUX})`}`, () => {
  const open = () => {
    const root = makeLedger()
    terminal = new Terminal(root)
    return { at: terminal, root }
  }

  it('takes a block by its rows, with a variety that is new', async () => {
    const { at, root } = open()
    at.type('rowbook note block')
    await answers(at, [
      ['What is the block called?', 'Upper', 'Weg'],
      ['Which variety?', '7', 'Regent'],
      ['What colour are the berries of this new variety?', 'blue', 're'],
      ['How big is it?', 'lots', '12 rows of 85 paces', '0 vines', '12 rows of 85'],
      ['How far is it from row to row', '2', '0 m and 1 m', '2.2 1.2'],
      ['How many vines are missing', 'none'],
      ['In which year', ''],
      ['Write it?', 'y'],
    ])
    const shown = await at.see('Written: blocks/weg.yaml')
    expect(shown).toContain('There is a block `upper` already. Type another name.')
    expect(shown).toContain('`blue` is not in the list.')
    expect(shown).toContain('Type rows and their length, like 12 rows of 85 m')
    expect(shown).toContain('Type two distances')
    expect(shown).toContain('`paces` is not a unit that rowbook knows')
    expect(shown).toContain('0 is outside what is possible')
    expect(shown).toContain('0 m is outside what is possible')
    expect(readFileSync(join(root, 'varieties/regent.yaml'), 'utf8')).toContain('name: Regent\ncolour: red\n')
    expect(readFileSync(join(root, 'blocks/weg.yaml'), 'utf8')).toContain(
      'rows: 12\nrow_length: 85 m\nrow_spacing: 2.2 m\nvine_spacing: 1.2 m\nmissing: 0\n',
    )
  })

  it('takes a product in the order of its label', async () => {
    const { at, root } = open()
    at.type('rowbook note product')
    await answers(at, [
      ['What is the product called?', 'Bicarb X'],
      ['Active substance', '99', 'potassium bicarbonate 990 g/kg NC'],
      ['Which form is it?', 'powder', 'SP'],
      ['What kind of product is it?', ''],
      ['Authorisation number?', ''],
      ['What is it for', '?', 'powdery mildew, botrytis'],
      ['Dose against powdery', '5 to 10', '5-10 g/L'],
      ['Dose against botrytis', '50 g in 10 L'],
      ['How many days between two sprays', 'a week', '7-10'],
      ['Pre-harvest interval (PHI), in days?', '1'],
      ['Re-entry interval (REI)?', 'until dry'],
      ['Most applications a season?', '6'],
      ['Water per hectare or acre', 'none'],
      ['Where did you read these figures?', 'label of 2026'],
      ['Write it?', 'y'],
    ])
    const shown = await at.see('Written: products/bicarb-x.yaml')
    expect(shown).toContain('`99` names no substance.')
    expect(shown).toContain('Diseases that rowbook knows: powdery')
    expect(shown).toContain('Type days, like 7-14, or 10.')
    expect(readFileSync(join(root, 'products/bicarb-x.yaml'), 'utf8')).toContain(
      '  - { against: botrytis, concentration: 50 g in 10 L, interval: 7-10 d }\nbefore_harvest: 1 d\nre_entry: until dry\nmax_per_season: 6\n',
    )
  })

  it('takes a sprayer and a variety, and keeps what was typed when left', async () => {
    const { at, root } = open()
    at.type('rowbook note sprayer')
    await answers(at, [
      ['What is the sprayer called?', 'Back Pack'],
      ['How much does its tank hold?', '15'],
    ])
    await at.see(asks('How much does it spray in a minute'))
    at.press('C-d')
    await at.see("rowbook note sprayer --name 'Back Pack' --tank '15 L'")
    expect(existsSync(join(root, 'sprayers/back-pack.yaml'))).toBe(false)
    at.type("clear; rowbook note sprayer --name 'Back Pack' --tank '15 L'")
    await answers(at, [
      ['How much does it spray in a minute', ''],
      ['Write it?', ''],
    ])
    await at.see('Written: sprayers/back-pack.yaml')
    at.type('clear; rowbook note variety')
    await answers(at, [
      ['What is the variety called?', 'Solaris'],
      ['What colour are its berries?', 'white'],
      ['How easily does it catch powdery mildew?', 'low'],
      ['How easily does it catch downy mildew?', '1'],
      ['How easily does it catch botrytis?', 'none'],
      ['Write it?', 'y'],
    ])
    await at.see('Written: varieties/solaris.yaml')
    expect(readFileSync(join(root, 'varieties/solaris.yaml'), 'utf8')).toContain(
      'susceptibility: { powdery: low, downy: low }',
    )
  })
})
