import { readdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { AS_OF, lookAt, smallBook } from './book.ts'
import { startProgram } from './processes.ts'
import { SOAK, times } from './size.ts'

/** A repeatable sequence of shares from 0 to 1 (a linear congruence). */
function* shares(seed: number): Generator<number> {
  for (let state = seed; ; ) {
    state = (state * 1_664_525 + 1_013_904_223) % 4_294_967_296
    yield state / 4_294_967_296
  }
}

const MAP =
  'columns: { date: Day, blocks: Block, product: What, rate: Dose, water: Water, note: Note }\nunits: { rate: kg/ha, water: L/ha }\nrow: product\n'

/** A command that writes, and the notes of the entries that it reports as written. */
type Writing = (root: string, number: number) => { args: string[]; entries: string[] }

const note: Writing = (root, number) => ({
  args: [
    'note', 'spray', '--yes', '--ledger', root, '--as-of', AS_OF, '--date', '2026-05-10', '--time', '18:00-19:00',
    '--block', 'lower', '--sprayer', 'mounted', '--water', '300 L/ha', '--product', 'sulphur=3kg/ha', '--for',
    'powdery', '--anyway', '--note', `entry ${number}`,
  ], // biome-ignore format: one command line
  entries: [`entry ${number}`],
})

const importRows: Writing = (root, number) => {
  const entries = [1, 2, 3].map((row) => `entry ${number}, row ${row}`)
  const rows = entries.map((entry, index) => `2026-05-${10 + index},lower,sulphur,3,300,"${entry}"`)
  writeFileSync(join(root, 'rows.csv'), `Day,Block,What,Dose,Water,Note\n${rows.join('\n')}\n`)
  writeFileSync(join(root, 'map.yaml.txt'), MAP)
  return {
    args: [
      'import', 'sprays', join(root, 'rows.csv'), '--map', join(root, 'map.yaml.txt'), '--yes', '--anyway',
      '--ledger', root, '--as-of', AS_OF,
    ], // biome-ignore format: one command line
    entries,
  }
}

const LOST = ['syntax', 'empty-file', 'missing-key']
/** Time from the signal to the end. A busy machine may take longer, so only the long form checks the limit. */
const MOST_MS = SOAK ? 200 : 5000

describe.each<[string, Writing, number]>([
  ['note', note, 200],
  ['import', importRows, 100],
])('F1, F15: `%s` killed or stopped at a random moment', (_, writing, long) => {
  test.each<[NodeJS.Signals, number]>([
    ['SIGKILL', times(6, long)],
    ['SIGINT', times(3, 20)],
    ['SIGTERM', times(3, 20)],
  ])('%s, %d times', async (signal, count) => {
    const root = smallBook()
    const first = writing(root, -1)
    const whole = (await startProgram(first.args).ended).milliseconds
    const delays = shares(signal.length * 977)
    const acknowledged = [...first.entries]
    let stopped = 0
    for (let number = 0; number < count; number += 1) {
      const { args, entries } = writing(root, number)
      const running = startProgram(args)
      let sent = 0
      const timer = setTimeout(
        () => {
          sent = performance.now()
          running.child.kill(signal)
        },
        delays.next().value! * 1.2 * whole,
      )
      const { status, signal: ending, stdout, stderr } = await running.ended
      const lasted = performance.now() - sent
      clearTimeout(timer)
      expect(stderr).not.toMatch(/\n\s+at /)
      // A shell shows an end by a signal as 130 or 143.
      if (ending !== null) {
        stopped += 1
        expect(ending).toBe(signal)
        if (signal !== 'SIGKILL') expect(lasted).toBeLessThan(MOST_MS)
      }
      if (status === 0 && stdout !== '') acknowledged.push(...entries)
      const { ledger, findings } = lookAt(root)
      expect(findings.filter(({ name }) => LOST.includes(name))).toEqual([])
      const notes = new Set(ledger.sprays.map((spray) => spray.note))
      for (const entry of acknowledged) expect(notes).toContain(entry)
      const left = readdirSync(join(root, 'seasons/2026/sprays')).filter((name) => name.startsWith('.'))
      // Only a signal that can't be caught leaves a hidden file, which is removed later (F8).
      if (signal !== 'SIGKILL') expect(left).toEqual([])
    }
    if (SOAK) expect(stopped).toBeGreaterThan(0)
    expect((await startProgram(writing(root, count).args).ended).status).toBe(0)
  })
})
