import { execFileSync } from 'node:child_process'
import { chmodSync, existsSync, mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import ICAL from 'ical.js'
import { describe, expect, test } from 'vitest'
import { startGit } from '../../src/ledger/git/run.ts'
import { CALENDAR_MARK, renderCalendar } from '../../src/render/ical.ts'
import { run } from '../commands/run.ts'
import { GitBook, spray } from '../ledger/git-book.ts'
import { lookAt, smallBook } from './book.ts'
import { times } from './size.ts'

/** Line breaks of every kind, and text that ends a value or begins another in iCalendar. */
const INJECTIONS = [
  'A\r\nBEGIN:VALARM\r\nACTION:DISPLAY',
  'A\nEND:VCALENDAR\nBEGIN:VCALENDAR',
  'A\rX-PLANTED:1',
  'A\u0085X-PLANTED:1',
  'A\u2028X-PLANTED:1',
  'A\\nX-PLANTED:1',
  'A;VALUE=URI:http://planted.invalid',
  'A,B\\,C\\',
  `${'ö'.repeat(80)}\nX-PLANTED:1`,
]

describe('I1: names cannot plant anything in a calendar', () => {
  test.each(INJECTIONS)('%j stays the name of one calendar', (site) => {
    const report = { asOf: '2026-06-20', data: { events: [], missing: [] } } as never
    const text = renderCalendar(report, { site, now: 0 })
    const lines = text.split('\r\n')
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
    expect(lines.filter((line) => /^(?:BEGIN|END|X-PLANTED)/.test(line))).toEqual([
      'BEGIN:VCALENDAR',
      'END:VCALENDAR',
    ])
    expect(lines.some((line) => line === CALENDAR_MARK)).toBe(true)
    const read = new ICAL.Component(ICAL.parse(text)).getFirstPropertyValue('x-wr-calname') as string
    const unescaped = read.replace(/\\([\\;,])/g, '$1')
    // Plain letters come back unchanged; characters that would steer a screen are shown as escapes.
    if (/^[ -~]*$/.test(site)) expect(unescaped).toBe(site)
  })

  test.each(INJECTIONS.filter((name) => /[\r\n\u0085\u2028]/.test(name)))(
    '%j is refused in a text of one line, and taken in a note',
    (name) => {
      const quoted = JSON.stringify(name).replace('\u0085', '\\x85').replace('\u2028', '\\u2028')
      const site = (text: string) =>
        smallBook({ 'vineyard.yaml': `latitude: 51.5\ntimezone: Europe/Berlin\n${text}` })
      const found = lookAt(site(`name: ${quoted}\n`)).findings
      expect(found.map(({ name, line }) => [name, line])).toEqual([
        [expect.stringMatching(/line-break|control/), 3],
      ])
      if (/^[^\r]*\n/.test(name)) expect(lookAt(site(`name: A\nnote: ${quoted}\n`)).findings).toEqual([])
    },
  )

  test('a name in a block scalar keeps no line break at its end', () => {
    const root = smallBook({
      'vineyard.yaml': 'name: |\n  Folded Rows\nlatitude: 51.5\ntimezone: Europe/Berlin\n',
    })
    const { ledger, findings } = lookAt(root)
    expect([ledger.vineyard.name, findings]).toEqual(['Folded Rows', []])
  })
})

/** A ledger whose repository names a promisor remote that runs a program as soon as git fetches from it. */
function hostile(): { book: GitBook; ran: string } {
  const book = new GitBook().write({ 'seasons/2026/sprays/a.yaml': spray('2026-06-14', 'upper') })
  book.commit('One')
  book.write({ 'seasons/2026/sprays/a.yaml': spray('2026-06-15', 'upper') })
  book.commit('Two')
  const ran = join(mkdtempSync(join(tmpdir(), 'rowbook-ran-')), 'ran')
  const settings = {
    'core.repositoryFormatVersion': '1',
    'extensions.partialClone': 'origin',
    'remote.origin.url': `ext::touch ${ran}`,
    'remote.origin.promisor': 'true',
    'protocol.ext.allow': 'always',
    'protocol.allow': 'always',
  }
  for (const [name, value] of Object.entries(settings)) book.git('config', name, value)
  // git fetches a missing object from that remote.
  const blob = book.git('rev-parse', 'HEAD~1:seasons/2026/sprays/a.yaml').trim()
  const file = join(book.root, '.git/objects', blob.slice(0, 2), blob.slice(2))
  chmodSync(file, 0o644)
  execFileSync('rm', [file])
  return { book, ran }
}

/** A `git` that doesn't know GIT_NO_LAZY_FETCH, like versions before 2.45. */
function oldGit(): string {
  const folder = mkdtempSync(join(tmpdir(), 'rowbook-old-git-'))
  const real = execFileSync('sh', ['-c', 'command -v git'], { encoding: 'utf8' }).trim()
  writeFileSync(join(folder, 'git'), `#!/bin/sh\nunset GIT_NO_LAZY_FETCH\nexec ${real} "$@"\n`, {
    mode: 0o755,
  })
  return `${folder}:${process.env.PATH}`
}

describe('G1: a repository that runs a program when git fetches a missing object', () => {
  test.each([
    ['changes', 'HEAD~1'],
    ['changes', '--since', '2026-01-01'],
    ['check', '--changed', 'HEAD~1'],
    ['check', '--staged'],
    ['diary'],
  ])('%s %s %s runs nothing', (...args) => {
    const { book, ran } = hostile()
    const { stderr } = run([...args.filter(Boolean), '--as-of', '2026-06-30'], {
      cwd: book.root,
      env: { PATH: oldGit() },
    })
    expect(stderr).not.toMatch(/\n\s+at /)
    expect(existsSync(ran)).toBe(false)
  })

  test('the repository is dangerous: git itself runs the program', () => {
    const { book, ran } = hostile()
    const blob = book.git('rev-parse', 'HEAD~1:seasons/2026/sprays/a.yaml').trim()
    try {
      execFileSync('git', ['cat-file', 'blob', blob], {
        cwd: book.root,
        stdio: 'ignore',
        env: { PATH: process.env.PATH, GIT_NO_LAZY_FETCH: '0' },
      })
    } catch {
      // It finds no object there.
    }
    expect(existsSync(ran)).toBe(true)
  })
})

describe('G2: a git that hangs', () => {
  const hanging = (script: string) => {
    const folder = mkdtempSync(join(tmpdir(), 'rowbook-hanging-'))
    writeFileSync(join(folder, 'git'), `#!/bin/sh\n${script}\n`, { mode: 0o755 })
    return `${folder}:${process.env.PATH}`
  }

  test.each([
    ['itself', 'exec sleep 300'],
    ['and takes no signal', "trap '' TERM; while :; do sleep 1; done"],
    ['by what it started, which holds its pipes', 'sleep 300 & wait'],
  ])('%s: given up after its patience, and told', async (_, script) => {
    const place = { root: tmpdir(), variables: { ...process.env, PATH: hanging(script) } }
    const started = performance.now()
    const git = startGit(place, ['log'], { onOutput: () => {}, patience: 300 })
    await expect(git.ended).rejects.toThrow('git gave no answer for 0.3 s')
    expect(performance.now() - started).toBeLessThan(5000)
  })

  // The program's own time limit is too long for an everyday test.
  test.runIf(times(0, 1) === 1)('the program waits once, not call after call', () => {
    const book = new GitBook()
    book.commit('One')
    const started = performance.now()
    const { status, stderr } = run(['changes', 'HEAD'], {
      cwd: book.root,
      env: { PATH: hanging('exec sleep 300') },
    })
    expect([status, stderr]).toEqual([2, expect.stringContaining('git gave no answer')])
    expect(performance.now() - started).toBeLessThan(30_000)
  })
})
