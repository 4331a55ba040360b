import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { AS_OF, lookAt, smallBook } from './book.ts'
import { bundled, type Ended, PROGRAM, pause, startNode, startProgram } from './processes.ts'
import { times } from './size.ts'

const FOLDER = 'seasons/2026/work'
const WRITER = bundled('tests/faults/writer.ts')
const textOf = (who: number, number: number) =>
  `date: 2026-03-03\nblock: lower\njob: mowing\nhours: 1\nnote: writer ${who} entry ${number}\n`

interface Told {
  start: number
  end: number
  files: string[]
}

/** How many pairs of writers worked at the same time. */
function overlaps(told: readonly Told[]): number {
  let pairs = 0
  for (const [index, one] of told.entries())
    for (const other of told.slice(index + 1))
      if (one.start <= other.end && other.start <= one.end) pairs += 1
  return pairs
}

const allPairs = (count: number) => (count * (count - 1)) / 2

describe('F9: several writers started at once, all wanting the same names', () => {
  test.each([
    [2, times(20, 100)],
    [8, times(10, 50)],
    [16, 25],
  ])('%d writers, %d entries each', async (writers, entries) => {
    const root = smallBook({ 'seasons/2026/work.yaml': null })
    const [go, goOn] = [join(root, '.go'), join(root, '.go-on')]
    const running = Array.from({ length: writers }, (_, who) => {
      const texts = Array.from({ length: entries }, (_, number) => textOf(who, number))
      return startNode([
        WRITER,
        JSON.stringify({ root, folder: FOLDER, stem: '2026-03-03-lower', texts, go, goOn }),
      ])
    })
    await Promise.all(running.map(({ ready }) => ready))
    writeFileSync(go, '')
    // However slow the machine is, each has written its first entry before any writes its second.
    const written = () => (existsSync(join(root, FOLDER)) ? readdirSync(join(root, FOLDER)) : [])
    while (written().filter((name) => name.endsWith('.yaml')).length < writers) await pause(5)
    writeFileSync(goOn, '')
    const ended = await Promise.all(running.map((one) => one.ended))
    expect(ended.map(({ status }) => status)).toEqual(running.map(() => 0))
    const told = ended.map(({ stdout }) => JSON.parse(stdout.split('\n')[1]!) as Told)
    // Writers that never overlapped would prove nothing.
    expect(overlaps(told)).toBe(allPairs(writers))
    const files = told.flatMap((one) => one.files)
    expect(new Set(files).size).toBe(writers * entries)
    const { ledger, findings } = lookAt(root)
    expect(findings.filter(({ level }) => level === 'error')).toEqual([])
    const notes = ledger.work.map(({ note }) => note)
    expect(notes.length).toBe(writers * entries)
    expect(new Set(notes).size).toBe(writers * entries)
    expect(readdirSync(join(root, FOLDER)).filter((name) => name.startsWith('.'))).toEqual([])
  })
})

test('F9: the program itself, started several times at once', async () => {
  const root = smallBook({ 'seasons/2026/work.yaml': null })
  const rounds = times(1, 25)
  for (let round = 0; round < rounds; round += 1) {
    const running = Array.from({ length: times(6, 16) }, (_, who) => {
      const started = startProgram([
        'note', 'work', '--yes', '--ledger', root, '--as-of', AS_OF, '--date', '2026-03-03', '--block', 'lower',
        '--job', 'mowing', '--note', `writer ${who} entry ${round}`,
      ]) // biome-ignore format: one command line
      return { started, from: Date.now() }
    })
    const ended = await Promise.all(running.map(({ started }) => started.ended))
    expect(ended.map(({ status, stderr }) => [status, stderr])).toEqual(running.map(() => [0, '']))
    const spans = ended.map(({ milliseconds }, index) => {
      const start = running[index]!.from
      return { start, end: start + milliseconds, files: [] }
    })
    expect(overlaps(spans)).toBeGreaterThan(0)
  }
  const { ledger, findings } = lookAt(root)
  expect(findings.filter(({ level }) => level === 'error')).toEqual([])
  expect(new Set(ledger.work.map(({ note }) => note)).size).toBe(rounds * times(6, 16))
})

test('F10: a reader during eight writers always finds whole files', async () => {
  const root = smallBook({ 'seasons/2026/work.yaml': null })
  const go = join(root, '.go')
  const running = Array.from({ length: 8 }, (_, who) =>
    startNode([
      WRITER,
      JSON.stringify({
        root,
        folder: FOLDER,
        stem: `2026-03-03-w${who}`,
        texts: Array.from({ length: times(25, 100) }, (_, number) => textOf(who, number)),
        go,
      }),
    ]),
  )
  await Promise.all(running.map(({ ready }) => ready))
  let writing = true
  const ended = Promise.all(running.map((one) => one.ended)).then((all: Ended[]) => {
    writing = false
    return all
  })
  writeFileSync(go, '')
  let reads = 0
  let before = 0
  let grew = 0
  while (writing || reads < times(10, 500)) {
    const { ledger, findings } = lookAt(root)
    expect(findings.filter(({ level }) => level === 'error')).toEqual([])
    expect(ledger.work.length).toBeGreaterThanOrEqual(before)
    if (ledger.work.length > before) grew += 1
    before = ledger.work.length
    reads += 1
    await new Promise((resolve) => setImmediate(resolve))
  }
  expect((await ended).every(({ status }) => status === 0)).toBe(true)
  expect(grew).toBeGreaterThan(0)
  expect(lookAt(root).ledger.work.length).toBe(8 * times(25, 100))
})

describe('F2: killed at each call to the disk', () => {
  const STEPS = 9
  test.each(Array.from({ length: STEPS }, (_, step) => step))('at call %d', async (step) => {
    const runs = Array.from({ length: times(1, 5) }, async () => {
      const root = smallBook({
        'seasons/2026/work.yaml': null,
        [`${FOLDER}/2026-01-01-lower.yaml`]: textOf(0, 0),
      })
      const text = textOf(1, 1)
      const job = { root, folder: FOLDER, stem: '2026-03-03-lower', texts: [text], killAt: step }
      const { signal } = await startNode([WRITER, JSON.stringify(job)]).ended
      expect(signal).toBe('SIGKILL')
      const path = join(root, FOLDER, '2026-03-03-lower.yaml')
      if (existsSync(path)) expect(readFileSync(path, 'utf8')).toBe(text)
      // The file exists from the moment it is named, not before.
      expect(existsSync(path)).toBe(step > 4)
      expect(lookAt(root).findings.filter(({ level }) => level === 'error')).toEqual([])
    })
    await Promise.all(runs)
  })

  test('the number of calls is as expected', async () => {
    const root = smallBook({
      'seasons/2026/work.yaml': null,
      [`${FOLDER}/2026-01-01-lower.yaml`]: textOf(0, 0),
    })
    const job = { root, folder: FOLDER, stem: '2026-03-03-lower', texts: [textOf(1, 1)], killAt: STEPS }
    expect((await startNode([WRITER, JSON.stringify(job)]).ended).status).toBe(0)
  })
})

test('the program that is started is the one that was built', () => expect(existsSync(PROGRAM)).toBe(true))
