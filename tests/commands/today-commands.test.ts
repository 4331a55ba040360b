import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { ledgerCopy, run, runJson } from './run.ts'

/** The words of a command line, quotes taken off. */
const wordsOf = (line: string) =>
  [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare!)

/** All that an item says to type next. */
const commandsOf = ({ next, also }: { next: string; also: string[] }) => [next, ...also]

test.each([
  '2026-04-20',
  '2026-06-16',
  '2026-06-26',
  '2026-06-27',
  '2026-07-09',
  '2026-07-31',
  '2026-08-15',
  '2026-09-20',
])(
  'on %s every command that today prints runs as printed, or asks only for what a grower has to say',
  (asOf) => {
    const ledger = ledgerCopy()
    const { items } = runJson(['today', '--ledger', ledger, '--as-of', asOf]).json.data
    const lines: string[] = items.flatMap(commandsOf)
    const commands = new Set(lines.filter((line) => line.startsWith('rowbook ')))
    expect(commands.size).toBeGreaterThan(0)
    for (const line of commands) {
      const [, ...words] = wordsOf(line)
      const { status, stdout, stderr } = run([...words, '--ledger', ledger, '--as-of', asOf], { cwd: ledger })
      const said = `${line}: ${status}\n${stderr}`
      // `note` asks for what was seen, and `import weather FILE` for the station's file.
      if (words[0] === 'note') expect(stderr, said).toMatch(/missing|needs|say|name|write/i)
      else if (words[0] === 'import') expect(stderr, said).toMatch(/FILE/)
      else if (words[0] === 'check' || words[0] === 'ready') expect([0, 1], said).toContain(status)
      else expect(status, said).toBe(0)
      if (words[0] === 'mix') expect(stdout, said).not.toMatch(/over the label/i)
    }
  },
)

test('two diseases of one block are sprayed from one tank where the products may be mixed', () => {
  const ledger = ledgerCopy()
  const { items } = runJson(['today', '--ledger', ledger, '--as-of', '2026-06-21']).json.data
  const both = items.find(({ text }: { text: string }) => /Downy.*Botrytis/.test(text))
  expect(both.next).toContain('--product "copper-hydroxide=1.2 kg/ha" --product "bacillus=1.2 kg/ha"')
  expect(both).not.toHaveProperty('tank')
  const apart = join(ledger, 'products/bacillus.yaml')
  writeFileSync(apart, 'keep_apart: [ { from: copper, gap: 3 d } ]\n', { flag: 'a' })
  const split = runJson(['today', '--ledger', ledger, '--as-of', '2026-06-21']).json.data.items
  const commands = split.flatMap(commandsOf).filter((next: string) => /mix .*brook-rows/.test(next))
  expect(commands.some((next: string) => next.includes('copper') && !next.includes('bacillus'))).toBe(true)
  expect(commands.some((next: string) => next.includes('bacillus') && !next.includes('copper'))).toBe(true)
})

test('over the label no spray is recommended in the block, by today or after a find', () => {
  const ledger = ledgerCopy()
  const spray = `date: 2026-06-15
time: 18:00-19:00
blocks: [kiln-bank]
sprayer: mounted
water: 300 L/ha
products:
  - { product: sulphur-80, rate: 30 kg/ha, for: powdery }
`
  const file = join(ledger, 'seasons/2026/sprays/2026-06-15-over.yaml')
  writeFileSync(file, spray)
  const look = () => runJson(['today', '--ledger', ledger, '--as-of', '2026-06-20']).json.data.items
  const mixes = (items: { next: string; also: string[] }[]) =>
    items.flatMap(commandsOf).filter((next) => /mix .*kiln-bank/.test(next))
  const items = look()
  expect(mixes(items)).toEqual([])
  const asked = items.find(
    ({ what, block }: Record<string, string>) => what === 'cover' && block === 'kiln-bank',
  )
  expect(asked).toMatchObject({ urgency: 'now' })
  expect(asked.text).toContain('Ask your adviser or the authority first')
  const find = [
    'note',
    'scouting',
    '--block',
    'kiln-bank',
    '--looked-at',
    'bunches=100',
    '--found',
    'powdery.bunches=12',
  ]
  const noted = run([...find, '--dry-run', '--yes', '--ledger', ledger, '--as-of', '2026-06-20']).stdout
  expect(noted).toContain('No spray')
  expect(noted).not.toContain('rowbook mix')
  const cleared = 'cleared: { on: 2026-06-18, by: A. Adviser, pick_from: 2026-09-01'
  writeFileSync(file, `${spray}${cleared} }\n`)
  expect(mixes(look())).toEqual([])
  writeFileSync(file, `${spray}${cleared}, enter_from: 2026-06-19 }\n`)
  expect(mixes(look()).length).toBeGreaterThan(0)
})
