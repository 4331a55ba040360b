import { spawn, spawnSync } from 'node:child_process'
import { existsSync, readdirSync, readFileSync, symlinkSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { faultReport } from '../../src/render/fault.ts'
import { COMMANDS } from '../commands/whole-table.ts'
import { AS_OF, smallBook } from './book.ts'
import { runHere } from './in-process.ts'
import { PROGRAM, PROJECT } from './processes.ts'
import { times } from './size.ts'

const EXAMPLE = join(PROJECT, 'examples/far-quillet')
const LEDGER = ['--ledger', EXAMPLE, '--as-of', '2026-09-14']

/** Runs the program in a shell, where `$R` stands for it. */
function shell(line: string) {
  const { status, stdout, stderr } = spawnSync('bash', ['-c', `set -o pipefail; ${line}`], {
    encoding: 'utf8',
    timeout: 60_000,
    env: {
      PATH: process.env.PATH ?? '',
      HOME: tmpdir(),
      XDG_CACHE_HOME: join(tmpdir(), 'rowbook-test-cache'),
      R: `node ${PROGRAM}`,
      L: LEDGER.join(' '),
    },
  })
  return { status, stdout, stderr }
}

describe('O6: an answer that cannot be written', () => {
  test.each(['check', 'totals', 'diary --form full', 'check --json', '--help'])(
    '%s into a full device: exit 2 and one line',
    (command) => {
      const line = command === '--help' ? '$R --help > /dev/full' : `$R ${command} $L > /dev/full`
      const { status, stderr } = shell(line)
      expect([status, stderr]).toEqual([2, 'rowbook: the answer could not be written (ENOSPC)\n'])
    },
  )

  // Node opens a closed descriptor as /dev/null before our first line runs, so this looks like /dev/null on purpose.
  // What can be checked is that nothing else goes wrong.
  test.each(['check', 'totals', 'diary --form full'])(
    '%s with stdout closed: as into /dev/null',
    (command) => {
      const { status, stderr } = shell(`$R ${command} $L >&-`)
      expect([status, stderr]).toEqual([shell(`$R ${command} $L >/dev/null`).status, ''])
    },
  )

  test.each(['check', 'totals', 'diary --form full', 'pressure --json'])(
    '%s to a reader that has seen enough: quiet',
    (command) => {
      const { stdout, stderr, status } = shell(`$R ${command} $L | head -1`)
      expect(stderr).toBe('')
      expect([0, 1]).toContain(status)
      expect(stdout.split('\n').length).toBeLessThanOrEqual(2)
    },
  )

  test.each(['chek', 'check --ledger /nowhere'])(
    '%s with stderr closed or full: still exit 2, and no trace',
    (command) => {
      for (const where of ['2>&-', '2>/dev/full']) {
        const { status, stdout, stderr } = shell(`$R ${command} ${where}`)
        expect([command, where, status, stdout, stderr]).toEqual([command, where, 2, '', ''])
      }
    },
  )

  test('it ends even with everything closed', () => {
    expect([0, 2]).toContain(shell('$R check $L <&- >&- 2>&-').status)
  })
})

test(`O7: ${times(1, 10)} MB through a slow pipe arrive whole`, async () => {
  const entry = (index: number) =>
    `- { date: 2026-03-0${1 + (index % 9)}, block: upper, job: mowing, note: "${`round ${index} `.padEnd(900, 'x')}" }\n`
  const root = smallBook({
    'seasons/2026/work.yaml': null,
    ...Object.fromEntries(
      Array.from({ length: times(1, 10) }, (_, file) => [
        `seasons/2026/work/part-${file}.yaml`,
        Array.from({ length: 1000 }, (_one, index) => entry(file * 1000 + index)).join(''),
      ]),
    ),
  })
  const args = [PROGRAM, 'export', 'work', '--format', 'jsonl', '--ledger', root, '--as-of', AS_OF]
  const env = {
    PATH: process.env.PATH ?? '',
    HOME: tmpdir(),
    XDG_CACHE_HOME: join(tmpdir(), 'rowbook-test-cache'),
  }
  const whole = spawnSync('node', args, { env, encoding: 'utf8', maxBuffer: 1 << 28 }).stdout
  expect(whole.length).toBeGreaterThan(times(900_000, 9_000_000))
  const child = spawn('node', args, { env, stdio: ['ignore', 'pipe', 'ignore'] })
  let got = ''
  child.stdout.on('data', (piece: Buffer) => {
    got += piece
    child.stdout.pause()
    setTimeout(() => child.stdout.resume(), 5)
  })
  const status = await new Promise((resolve) => child.on('close', resolve))
  expect([status, got.length, got === whole]).toEqual([0, whole.length, true])
})

describe('O5: the JSON of every report', () => {
  const READS = COMMANDS.filter(({ name }) =>
    [
      'check',
      'totals',
      'ripeness',
      'window',
      'ready',
      'pressure',
      'cover',
      'scouting',
      'crop',
      'harvest',
      'heat',
      'diary',
      'today',
    ].includes(name),
  )

  test.each(READS.map(({ name }) => name))(
    '%s: the envelope first, the same bytes twice, no figure that is none',
    async (name) => {
      const args = [name, '--ledger', EXAMPLE, '--as-of', '2026-09-14', '--json']
      const [one, two] = [await runHere(args), await runHere(args)]
      expect(one.fault).toBeNull()
      expect(one.out).toBe(two.out)
      const json = JSON.parse(one.out) as Record<string, unknown>
      expect(Object.keys(json).slice(0, 4)).toEqual(['rowbook', 'report', 'asOf', 'season'])
      expect(one.out).not.toMatch(/NaN|Infinity|undefined/)
    },
  )
})

describe('O8: an answer written to a file', () => {
  const files = COMMANDS.filter(({ html }) => html).map(({ name }) => name)

  test('never over its input or another file, onto a folder, or through a link', () => {
    const root = smallBook({ 'mine.html': 'mine\n' })
    symlinkSync(join(root, 'mine.html'), join(root, 'link.html'))
    symlinkSync(join(root, 'nothing.html'), join(root, 'dangling.html'))
    const before = readFileSync(join(root, 'vineyard.yaml'), 'utf8')
    const [first] = files
    if (first === undefined) throw new Error('no command writes pages')
    for (const target of ['vineyard.yaml', 'mine.html', 'blocks', 'link.html', 'dangling.html']) {
      const line = `cd ${root} && $R ${first} --ledger ${root} --as-of ${AS_OF} --html ${target}`
      const { status, stderr } = shell(line)
      expect([target, status, /\n\s+at /.test(stderr)]).toEqual([target, 2, false])
    }
    expect(readFileSync(join(root, 'vineyard.yaml'), 'utf8')).toBe(before)
    expect(readFileSync(join(root, 'mine.html'), 'utf8')).toBe('mine\n')
    expect(existsSync(join(root, 'nothing.html'))).toBe(false)
    expect(readdirSync(join(root, 'blocks')).sort()).toEqual(['lower.yaml', 'upper.yaml'])
  })
})

describe('a fault of the program itself', () => {
  const about = {
    version: '1.2.3',
    variables: { HOME: '/home/grower', USERPROFILE: undefined },
    cwd: '/srv/book of mine',
    command: 'check',
  }

  test('is reported briefly, without private paths or a stack trace', () => {
    const error = new TypeError(
      "can't read '/home/grower/vines/blocks/a.yaml' in /srv/book of mine/x \x1b[31m",
    )
    const told = faultReport(error, about)
    expect(told.split('\n').length).toBeLessThanOrEqual(6)
    expect(told).not.toMatch(/grower|srv|\n\s+at |\x1b/)
    expect(told).toContain('1.2.3')
    expect(told).toMatch(/ \(at output\.test\.ts:\d+:\d+\)$/m)
  })

  test('also where the thrown value is not an Error', () => {
    expect(faultReport('odd /home/grower/x', about)).not.toContain('grower')
  })
})
