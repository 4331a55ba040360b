import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, describe, expect, it } from 'vitest'
import { makeLedger } from '../ledger/make.ts'
import { hasTmux, NO_TMUX, Terminal } from './terminal.ts'

const SITE = 'name: Test Rows\nlatitude: 51.5\nlongitude: 7.1\ntimezone: Europe/Berlin\n'
const FILE = 'seasons/2026/weather.csv'

let terminal: Terminal | null = null
afterEach(() => terminal?.close())

function open(text: string): { at: Terminal; file: string } {
  const root = makeLedger({ 'vineyard.yaml': SITE })
  writeFileSync(join(root, 'station.csv'), text)
  terminal = new Terminal(root)
  terminal.type('rowbook import weather station.csv')
  return { at: terminal, file: join(root, FILE) }
}

describe.skipIf(!hasTmux)(`import in a terminal${hasTmux ? '' : ` (skipped: ${NO_TMUX})`}`, () => {
  it('asks what a column holds that is not understood, then its unit, and takes both as their options do', async () => {
    const { at, file } = open(
      'Time,Temp °C,Abc %,Def,Ghi\n2026-06-01T00:00,12,80,3,7\n2026-06-01T01:00,12,81,4,7\n',
    )
    await at.see('What does column `Abc %` hold (80, 81)? [humidity]')
    at.type('')
    await at.see('What does column `Def` hold (3, 4)? [leave out]')
    at.type('wind')
    await at.see('Column `Def` is wind without a unit. Which is it?')
    at.type('km/h')
    await at.see('What does column `Ghi` hold (7, 7)? [leave out]')
    at.type('-')
    await at.see("--columns 'humidity=Abc %, wind=Def' --column-units 'wind=km/h'")
    await at.see('Write it?')
    expect(existsSync(file)).toBe(false)
    at.type('y')
    await at.see('2 rows added')
    expect(readFileSync(file, 'utf8')).toBe(
      'time,temperature_c,humidity_pct,wind_ms\n2026-06-01T00:00,12,80,0.83\n2026-06-01T01:00,12,81,1.11\n',
    )
  })

  it('asks for what can be read in two ways, and writes nothing where it is left', async () => {
    const { at, file } = open('Date,T max,T min\n3/6/2026,20,9\n')
    await at.see('can be read with the day or the month first. Which is it?')
    at.press('C-c')
    await at.see(/ready> ?\s*$/)
    expect(existsSync(file)).toBe(false)
    at.type('clear; rowbook import weather station.csv')
    await at.see('Which is it?')
    at.type('day')
    await at.see('Write it?')
    at.type('y')
    await at.see('1 row added')
    expect(readFileSync(file, 'utf8')).toBe('date,min_c,max_c\n2026-06-03,9,20\n')
  })
})
