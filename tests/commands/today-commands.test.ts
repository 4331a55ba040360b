import { expect, test } from 'vitest'
import { ledgerCopy, run, runJson } from './run.ts'

/** The words of a command line, quotes taken off. */
const wordsOf = (line: string) =>
  [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare!)

test.each([
  '2026-04-20',
  '2026-06-16',
  '2026-06-26',
  '2026-07-09',
  '2026-07-29',
  '2026-08-15',
  '2026-09-02',
  '2026-09-20',
])(
  'on %s every command that today prints runs as printed, or asks only for what a grower has to say',
  (asOf) => {
    const ledger = ledgerCopy()
    const { items } = runJson(['today', '--ledger', ledger, '--as-of', asOf]).json.data
    const lines: string[] = items.map(({ next }: { next: string }) => next)
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
