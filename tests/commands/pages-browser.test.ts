import { spawnSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { BROWSER_PATH, openBrowser } from './browser.ts'
import { ledgerCopy, run } from './run.ts'

const REPORTS = [
  'today',
  'season',
  'ready',
  'window',
  'ripeness',
  'crop',
  'harvest',
  'scouting',
  'cover',
  'pressure',
  'totals',
  'heat',
  'diary',
  'compare',
]
const ARGUMENTS: Record<string, string[]> = { compare: ['2025', '2026'] }

/** The most px that a season of three blocks may be tall on a telephone before anything is unfolded. */
const TALLEST = 8000
/** The most sheets of A4 that the example's season is printed on. */
const MOST_SHEETS = 8
/** Letters of a drawing smaller than this aren't read in the row, px. */
const SMALLEST_LETTER = 11
/** A sheet with fewer lines than this holds a row that was left over, under the headings that repeat. */
const FEWEST_LINES = 3

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const folder = mkdtempSync(join(tmpdir(), 'rowbook-pages-'))
const hasPdftotext = spawnSync('pdftotext', ['-v']).status === 0

/** The example with names far longer than any drawing or column has room for, one of them without a space. */
function longNames(): string {
  const root = ledgerCopy()
  const names = [
    'The upper terrace behind the old lime kiln, beside the brook, planted again in 1998',
    'Oberhalbderaltenkalkbrennereiamwestlichenmuehlbachgelegenesteilstueck',
    'WWWWWWWW MMMMMMMM WWWWWWWW MMMMMMMM',
  ]
  for (const kind of ['blocks', 'products'])
    for (const [index, file] of readdirSync(join(root, kind))
      .filter((name) => name.endsWith('.yaml'))
      .entries()) {
      const path = join(root, kind, file)
      const text = readFileSync(path, 'utf8')
      writeFileSync(path, text.replace(/^name: .*$/m, `name: ${names[index % 3]} ${index}`))
    }
  return root
}

/** The example without any weather. */
function withoutWeather(): string {
  const root = ledgerCopy()
  for (const season of readdirSync(join(root, 'seasons')))
    for (const file of readdirSync(join(root, 'seasons', season)).filter((name) => /weather/.test(name)))
      writeFileSync(join(root, 'seasons', season, file), '')
  return root
}

function draw(name: string, ledger: string): string {
  const file = join(folder, `${name}-${Math.random().toString(36).slice(2)}.html`)
  const { status, stderr } = run([
    name,
    ...(ARGUMENTS[name] ?? []),
    ...['--ledger', ledger, '--as-of', '2026-09-14', '--season', '2026', '--html', file],
  ])
  // 1 says that the report found something against picking.
  expect(status, stderr).toBeLessThanOrEqual(1)
  return pathToFileURL(file).href
}

/** What doesn't fit: the page, tables, and texts of drawings outside of them or too small. */
const MISFITS = `(() => {
  const found = []
  const root = document.documentElement
  if (root.scrollWidth > root.clientWidth) found.push('page is ' + root.scrollWidth + ' px wide')
  for (const box of document.querySelectorAll('.table'))
    if (box.scrollWidth > box.clientWidth) found.push('table scrolls: ' + box.getAttribute('aria-label'))
  for (const svg of document.querySelectorAll('svg')) {
    const frame = svg.getBoundingClientRect()
    if (frame.width === 0) continue
    const scale = frame.width / svg.viewBox.baseVal.width
    for (const text of svg.querySelectorAll('text')) {
      const { left, right, top, bottom } = text.getBoundingClientRect()
      if (left < frame.left - 1 || right > frame.right + 1 || top < frame.top - 1 || bottom > frame.bottom + 1)
        found.push('outside of its drawing: ' + text.textContent)
      if (parseFloat(getComputedStyle(text).fontSize) * scale < ${SMALLEST_LETTER})
        found.push('too small: ' + text.textContent)
    }
  }
  return found
})()`

const unfold = (page: Page) =>
  page.evaluate('for (const one of document.querySelectorAll("details")) one.open = true')

async function violations(page: Page): Promise<string[]> {
  await page.evaluate(axe)
  const found = (await page.evaluate('axe.run()')) as {
    violations: { id: string; nodes: { html: string }[] }[]
  }
  return found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)
}

/** Each sheet's lines of text. */
function sheetsOf(pdf: Buffer): string[][] {
  const { stdout } = spawnSync('pdftotext', ['-layout', '-', '-'], { input: pdf, encoding: 'utf8' })
  return stdout
    .split('\f')
    .slice(0, -1)
    .map((sheet) => sheet.split('\n').filter((line) => line.trim() !== ''))
}

describe.skipIf(BROWSER_PATH === undefined)(
  'a page in a browser (skipped where no Chromium is installed)',
  () => {
    let browser: Browser
    let long: string
    beforeAll(async () => {
      browser = await openBrowser()
      long = longNames()
    })
    afterAll(() => browser?.close())

    const open = async (url: string, width: number, colorScheme: 'light' | 'dark' = 'light') => {
      const context = await browser.newContext({
        viewport: { width, height: 740 },
        colorScheme,
        bypassCSP: true,
      })
      const page = await context.newPage()
      await page.goto(url)
      return page
    }

    const books = [
      ['the example', () => 'examples/far-quillet'],
      ['long names', () => long],
    ] as const
    describe.each(books)('of %s', (book, ledger) => {
      test.each(REPORTS)(
        '%s fits 360 and 1280 px with all unfolded, is read by everybody in light and dark, and is printed whole',
        async (name) => {
          const url = draw(name, ledger())
          for (const [width, scheme] of [
            [360, 'light'],
            [360, 'dark'],
            [1280, 'light'],
          ] as const) {
            const page = await open(url, width, scheme)
            await unfold(page)
            expect(await page.evaluate(MISFITS), `at ${width} px`).toEqual([])
            // The markup is the same whatever the names are.
            if (width === 360 && book === 'the example') expect(await violations(page), scheme).toEqual([])
            await page.context().close()
          }
          const page = await open(url, 1280)
          await page.emulateMedia({ media: 'print' })
          const heads = await page.evaluate(
            '[...document.querySelectorAll("thead")].map((head) => getComputedStyle(head).display)',
          )
          expect(new Set(heads as string[])).toEqual(
            new Set((heads as string[]).length > 0 ? ['table-header-group'] : []),
          )
          const pdf = await page.pdf({ format: 'A4' })
          if (hasPdftotext)
            for (const sheet of sheetsOf(pdf)) expect(sheet.length).toBeGreaterThanOrEqual(FEWEST_LINES)
          await page.context().close()
        },
        120_000,
      )

      test('the season is short before it is unfolded', async () => {
        const page = await open(draw('season', ledger()), 360)
        expect(await page.evaluate('document.documentElement.scrollHeight')).toBeLessThanOrEqual(TALLEST)
        expect(await page.evaluate('document.querySelectorAll("details[open]").length')).toBe(0)
        await page.context().close()
      }, 60_000)
    })

    test('the season of the example is printed on few sheets, with what a grower files', async () => {
      const page = await open(draw('season', 'examples/far-quillet'), 1280)
      const pdf = await page.pdf({ format: 'A4' })
      const sheets = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g) ?? []
      expect(sheets.length).toBeGreaterThan(1)
      expect(sheets.length).toBeLessThanOrEqual(MOST_SHEETS)
      if (hasPdftotext) {
        const text = sheetsOf(pdf).flat().join('\n')
        expect(text).toContain('Quillet Sulphur 80')
        expect(text).toContain('Gates of Kiln Bank')
        expect(text).not.toContain('Every day in a table')
      }
      await page.context().close()
    }, 60_000)

    test('no chart is drawn where there is no weather', async () => {
      const bare = withoutWeather()
      for (const name of ['pressure', 'heat']) {
        const page = await open(draw(name, bare), 360)
        expect(await page.evaluate('document.querySelectorAll("svg").length'), name).toBe(0)
        await page.context().close()
      }
    }, 60_000)
  },
)
