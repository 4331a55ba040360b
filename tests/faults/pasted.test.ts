import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, describe, expect, test } from 'vitest'
import { hasTmux, NO_TMUX, Terminal } from '../commands/terminal.ts'
import { AS_OF, smallBook } from './book.ts'
import { runHere } from './in-process.ts'

const STEERS = /[\0-\x08\x0b-\x1f\x7f-\x9f\u200b-\u200f\u202a-\u202e\u2066-\u2069]/
const [PASTE, END] = ['\u001b[200~', '\u001b[201~']

let terminal: Terminal | null = null
afterEach(() => {
  terminal?.close()
  terminal = null
})

describe.skipIf(!hasTmux)(
  `P7: what is pasted into a question${hasTmux ? '' : ` (skipped: ${NO_TMUX})`}`,
  () => {
    test.each([
      ['marks of a pasted text', `${PASTE}mowing${END}`],
      ['colour and bell', 'mow\u001b[31m\u0007ing'],
      ['a title of the window', '\u001b]0;planted\u0007mowing'],
      ['a question for the cursor', 'mowing\u001b[6n'],
      ['letters that turn the line', 'mow\u202eing\u200b'],
      ['other controls and a tab', 'mow\u0007\ting'],
      ['a pasted end of the marks', `${PASTE}mowing${END}; rm -rf${END}`],
    ])('%s: a sound entry without them', { timeout: 120_000 }, async (_, text) => {
      const root = smallBook({ 'seasons/2026/work.yaml': null })
      const at = new Terminal(root)
      terminal = at
      at.type(
        'rowbook note work --as-of 2026-06-14 --date 2026-06-10 --block upper --hours 1 --people 1 --note x',
      )
      await at.see('What was done?')
      at.write(text)
      at.press('Enter')
      await at.see('Write it?')
      at.press('Enter')
      const screen = await at.see('Written:')
      expect(screen.replaceAll('\n', '')).not.toMatch(STEERS)
      const names = readdirSync(join(root, 'seasons/2026/work'))
      expect(names).toHaveLength(1)
      const written = readFileSync(join(root, 'seasons/2026/work', names[0]!), 'utf8')
      expect(written).not.toMatch(STEERS)
      expect(written).toMatch(/^job: .*mow *ing/m)
      const { status } = await runHere(['check', '--ledger', root, '--as-of', AS_OF], root)
      expect(status).toBeLessThan(2)
    })
  },
)
