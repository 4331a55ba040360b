import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { EXAMPLE, ON, PAGES, pageFile } from './pages-made.ts'
import { run } from './run.ts'

const BOOK = ['--ledger', EXAMPLE, ...ON]
const read = (name: string) => readFileSync(pageFile(name), 'utf8')

/** The words of a page, its blanks all alike. */
const textOf = (page: string) =>
  page
    .replace(/<style>[\s\S]*?<\/style>/, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ')
    .replaceAll(' .', '.')

describe('--html', () => {
  test.each(PAGES)('%s writes a page that holds no script and names nothing to be fetched', (name) => {
    const page = read(name)
    expect(page).toMatch(/^<!doctype html>/)
    expect(page).toContain('Content-Security-Policy')
    expect(page).not.toMatch(/<script|\bsrc=|@import|url\(/i)
    expect(page).not.toMatch(/NaN|undefined/)
  })

  test('says the answer of the terminal first, and the cautions right under it', () => {
    const page = read('ready')
    const printed = run(['ready', ...BOOK])
      .stdout.split('\n\n', 1)[0]!
      .replace(/\n/g, ' ')
    const header = textOf(page.slice(0, page.indexOf('</header>')))
    const [answer, order] = printed.split(/ Order of picking[^:]*: /) as [string, string]
    const [first, ...rest] = answer.split('. ') as [string, ...string[]]
    expect(page).toContain(`<p class="answer">${first}.</p>`)
    expect(header).toContain(`${first}. ${rest.join('. ')}`)
    expect(header.indexOf('By what is recorded here')).toBeGreaterThan(header.indexOf(rest.at(-1)!))
    expect(textOf(page)).toContain(`the rest by date: ${order}`)
  })

  test.each(PAGES)('%s sets commands as code, and keeps a number with its thousands and unit', (name) => {
    const page = read(name).replace(/<code>[\s\S]*?<\/code>|<style>[\s\S]*?<\/style>|<title[^>]*>[^<]*/g, '')
    const words = page.replace(/<[^>]*>/g, '\n')
    expect(words).not.toContain('`')
    expect(words).not.toMatch(/\d \d{3}(?!\d)|\d (?:kg|L|ha|Brix|Jan|Jun|Sep)\b/)
  })

  test('replaces its own page, and nobody else’s', () => {
    expect(run(['heat', ...BOOK, '--html', pageFile('heat')]).status).toBe(0)
    const mine = join(mkdtempSync(join(tmpdir(), 'rowbook-mine-')), 'mine.html')
    writeFileSync(mine, 'mine')
    const refused = run(['heat', ...BOOK, '--html', mine])
    expect(refused.status).toBe(2)
    expect(refused.stderr).toContain('--force')
    expect(readFileSync(mine, 'utf8')).toBe('mine')
    expect(run(['heat', ...BOOK, '--html', mine, '--force']).status).toBe(0)
  })

  test('harvest has the day: blocks by the hour, people, buckets and clippers', () => {
    const page = read('harvest')
    expect(page).toContain('<h2>Picking day</h2>')
    expect(page).toMatch(/data-name="from">08:00</)
    expect(textOf(page)).toMatch(/6 people: .*Have ready: 12 buckets and 8 clippers/)
  })

  test('goes to stdout for -', () => {
    expect(run(['heat', ...BOOK, '--html', '-']).stdout).toMatch(/^<!doctype html>[\s\S]*<\/html>\n$/)
  })
})
