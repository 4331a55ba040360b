import {
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { SITE } from '../ledger/make.ts'
import { ENTRIES, smallBook } from './book.ts'
import { PROGRAM, pause, type Running, startNode } from './processes.ts'
import { times } from './size.ts'

const QUESTIONS = ['check', 'totals', 'ready'] as const
type Question = (typeof QUESTIONS)[number]

const SPRAY = 'seasons/2026/sprays/2026-06-14-upper.yaml'
const SAMPLES = 'seasons/2026/samples.yaml'
const SULPHUR = 'products/sulphur.yaml'

/**
 * The states of the ledger, each the one before it with one file changed, the file as long as it was where that
 * can be: only a text that is compared tells the two apart.
 */
const STEPS: readonly { file: string; before: string; after: string }[] = [
  { file: SAMPLES, before: ENTRIES[SAMPLES]!, after: ENTRIES[SAMPLES]!.replace('[18.2', '[38.2') },
  {
    file: SULPHUR,
    before: SITE[SULPHUR]!,
    after: SITE[SULPHUR]!.replace('t sulphur', 't sulphut').replace('150-', '750-'),
  },
  { file: SPRAY, before: ENTRIES[SPRAY]!, after: ENTRIES[SPRAY]!.replace('sulphur', 'sulfurs') },
]
/** Before the picks of the small ledger, so that its samples matter. */
const AS_OF = '2026-09-14'
const STATES = STEPS.length + 1

const newFolder = (what: string) => mkdtempSync(join(tmpdir(), `rowbook-${what}-`))

const root = smallBook()
const outside = newFolder('aside')

/** Puts the ledger from one state into the next or the one before, by renaming. */
function replace(file: string, text: string): void {
  const ready = join(outside, 'ready.yaml')
  writeFileSync(ready, text)
  renameSync(ready, join(root, file))
}

/** Waits until a file is there, so that slow-starting processes ask at the same moment. */
const barrier = join(outside, 'barrier.cjs')
writeFileSync(
  barrier,
  `const { existsSync, writeSync } = require('node:fs')
   writeSync(1, 'ready\\n')
   while (!existsSync(process.env.GO)) Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 1)\n`,
)

const argumentsOf = (question: Question) => [question, '--json', '--ledger', root, '--as-of', AS_OF]
const answerOf = ({ status, stdout, stderr }: { status: number | null; stdout: string; stderr: string }) =>
  JSON.stringify([status, stdout, stderr])

const cold: Record<Question, string[]> = { check: [], totals: [], ready: [] }

/** The answer to each question in each state, with nothing kept. */
beforeAll(async () => {
  for (let state = 0; state < STATES; state += 1) {
    if (state > 0) replace(STEPS[state - 1]!.file, STEPS[state - 1]!.after)
    const running = QUESTIONS.map((question) =>
      startNode([PROGRAM, ...argumentsOf(question)], { XDG_CACHE_HOME: newFolder('nothing-kept') }),
    )
    const ended = await Promise.all(running.map((one) => one.ended))
    for (const [index, question] of QUESTIONS.entries()) cold[question].push(answerOf(ended[index]!))
  }
  for (const { file, before } of STEPS.toReversed()) replace(file, before)
}, 60_000)

test('the states differ, so that an answer of another one would be seen', () => {
  // Totals don't use samples.
  expect(QUESTIONS.map((question) => new Set(cold[question]).size)).toEqual([STATES, STATES - 1, STATES])
})

/** Which state the ledger was in, and since when, by the clock of this process. */
class History {
  readonly changes: { state: number; from: number; done: number }[] = []

  constructor(private state = 0) {
    this.changes.push({ state, from: 0, done: 0 })
  }

  go(to: number): void {
    const step = STEPS[Math.min(to, this.state)]!
    const from = performance.now()
    replace(step.file, to > this.state ? step.after : step.before)
    this.changes.push({ state: to, from, done: performance.now() })
    this.state = to
  }

  between(start: number, end: number): number[] {
    const states = this.changes.filter(({ from }, index) => {
      const next = this.changes[index + 1]
      return from <= end && (next === undefined || next.done >= start)
    })
    return [...new Set(states.map(({ state }) => state))]
  }
}

/** Files of the cache, without those that a process is writing. */
const filesOf = (cache: string): string[] =>
  (readdirSync(cache, { recursive: true, encoding: 'utf8' }) as string[])
    .map((name) => join(cache, name))
    .filter((path) => !UNFINISHED.test(path) && statSync(path, { throwIfNoEntry: false })?.isFile())

const UNFINISHED = /\.\d+$/

/** Damages a file of the cache, or two, in a way of its own each time; other processes are reading and replacing them. */
function damage(cache: string, turn: number): void {
  const files = filesOf(cache)
  const file = files[(turn * 7) % files.length]
  const other = files[(turn * 11 + 3) % files.length]
  if (!file || !other) return
  try {
    const bytes = readFileSync(file)
    const middle = Math.floor(bytes.length * (0.2 + (turn % 7) / 10))
    const ways = [
      () => truncateSync(file, middle),
      () => truncateSync(file, bytes.indexOf(10) + 1),
      () => writeFileSync(file, bytes.fill((turn * 37) % 256, middle, Math.min(middle + 400, bytes.length))),
      () => writeFileSync(file, Buffer.alloc(bytes.length, turn % 3)),
      () => writeFileSync(file, Buffer.concat([bytes.subarray(0, middle), bytes.subarray(middle + 2)])),
      () => {
        renameSync(file, `${file}-aside`)
        renameSync(other, file)
        renameSync(`${file}-aside`, other)
      },
    ]
    ways[turn % ways.length]!()
  } catch (error) {
    // Another process may have replaced it in between.
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error
  }
}

interface Asked extends Pick<Running, 'ended' | 'ready'> {
  question: Question
  end: number
}

/** Starts processes that wait for `go`. */
function ask(count: number, env: Record<string, string>, turn: number): Asked[] {
  return Array.from({ length: count }, (_, who) => {
    // Half of them ask the same.
    const question = QUESTIONS[who % 2 ? (turn + (who >> 1)) % QUESTIONS.length : turn % QUESTIONS.length]!
    const { ready, ended } = startNode(['--require', barrier, PROGRAM, ...argumentsOf(question)], env)
    const asked: Asked = { question, ready, ended, end: 0 }
    asked.ended = ended.then((one) => {
      asked.end = performance.now()
      return { ...one, stdout: one.stdout.replace(/^ready\n/, '') }
    })
    return asked
  })
}

type Meanwhile = 'before' | 'changed' | 'damaged'

describe('processes that share what is kept between runs answer as if nothing were kept', () => {
  test.each([
    [2, times(3, 90)],
    [8, times(2, 60)],
  ])(
    '%d at once, %d times',
    async (count, rounds) => {
      const cache = newFolder('shared')
      const history = new History()
      const wrong: string[] = []
      let turn = 0
      let certain = 0
      let widest = 0
      for (let round = 0; round < rounds; round += 1) {
        const meanwhile: Meanwhile = (['before', 'damaged', 'changed'] as const)[round % 3]!
        const here = zigzag(round)
        const there = zigzag(round + 1)
        const go = join(outside, `go-${count}-${round}`)
        const asked = ask(count, { XDG_CACHE_HOME: cache, GO: go }, round)
        await Promise.all(asked.map(({ ready }) => ready))
        if (meanwhile === 'before') history.go(there)
        const start = performance.now()
        writeFileSync(go, '')
        let running = count
        for (const { ended } of asked)
          ended.then(() => {
            running -= 1
          })
        let at = meanwhile === 'before' ? there : here
        while (running > 0) {
          await pause(10 + ((turn * 13) % 40))
          turn += 1
          if (meanwhile !== 'before') {
            at = at === here ? there : here
            history.go(at)
          }
          if (meanwhile === 'damaged') damage(cache, turn)
        }
        if (at !== there) history.go(there)
        for (const one of asked) {
          const states = history.between(start, one.end)
          const answer = answerOf(await one.ended)
          if (!states.some((state) => cold[one.question][state] === answer))
            wrong.push(`${meanwhile}, states ${states}: ${one.question} ${answer.slice(0, 400)}`)
          if (states.length === 1) certain += 1
          widest = Math.max(widest, states.length)
        }
      }
      expect(wrong).toEqual([])
      // An answer that fits every state proves nothing; neither do processes that met no change.
      expect(certain).toBeGreaterThanOrEqual(count)
      expect(widest).toBe(2)
      const names = readdirSync(cache, { recursive: true, encoding: 'utf8' }) as string[]
      expect(names.filter((name) => UNFINISHED.test(name))).toEqual([])
      for (const kind of [/ledger-\w+-standing$/, /ledger-\w+-2026$/, /code/])
        expect(names.some((name) => kind.test(name))).toBe(true)
      await isUsed(cache)
      while (history.changes.at(-1)!.state > 0) history.go(history.changes.at(-1)!.state - 1)
    },
    times(60_000, 3_600_000),
  )
})

/** The states one after another, up and down again. */
function zigzag(round: number): number {
  const at = round % (2 * STEPS.length)
  return at < STATES ? at : 2 * STEPS.length - at
}

/** Afterwards the next process uses what one process kept: nothing is written again. */
async function isUsed(cache: string): Promise<void> {
  const settle = async () => {
    await startNode([PROGRAM, ...argumentsOf('ready')], { XDG_CACHE_HOME: cache }).ended
    return filesOf(cache)
      .sort()
      .map((file) => `${file} ${statSync(file, { bigint: true }).mtimeNs}`)
  }
  // What the first round reads anew may leave a file that only the second one misses.
  await settle()
  const settled = await settle()
  expect(await settle()).toEqual(settled)
}
