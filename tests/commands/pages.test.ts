import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { BROWSER_PATH, openBrowser } from './browser.ts'
import { run } from './run.ts'

const PAGES = [
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
  'explain',
  'sheet-scouting',
  'sheet-sampling',
  'sheet-crop',
  'sheet-spray',
]
const FILL = ['--block', 'brook-rows', '--product', 'sulphur-80=3kg/ha', '--sprayer', 'mounted']
const ARGUMENTS: Record<string, string[]> = {
  compare: ['2025', '2026'],
  'sheet-scouting': ['scouting'],
  'sheet-sampling': ['sampling'],
  'sheet-crop': ['crop'],
  'sheet-spray': ['spray', ...FILL],
}
const BOOK = ['--ledger', 'examples/far-quillet', '--as-of', '2026-09-14']
const folder = mkdtempSync(join(tmpdir(), 'rowbook-pages-'))
const fileOf = (name: string) => join(folder, `${name}.html`)

beforeAll(() => {
  for (const name of PAGES)
    run([name.split('-')[0]!, ...(ARGUMENTS[name] ?? []), ...BOOK, '--html', fileOf(name)])
}, 120_000)

describe('--html', () => {
  test.each(PAGES)('%s writes a page that holds no script and names nothing to be fetched', (name) => {
    const page = readFileSync(fileOf(name), 'utf8')
    expect(page).toMatch(/^<!doctype html>/)
    expect(page).toContain('Content-Security-Policy')
    expect(page).not.toMatch(/<script|\bsrc=|@import|url\(/i)
    expect(page).not.toContain('NaN')
    expect(page).not.toContain('undefined')
  })

  test('says the answer of the terminal first, and the cautions right under it', () => {
    const page = readFileSync(fileOf('ready'), 'utf8')
    const printed = run(['ready', ...BOOK])
      .stdout.split('\n\n', 1)[0]!
      .replace(/\n/g, ' ')
    expect(page).toContain(printed)
    const caution = page.indexOf('By what is recorded here; the label and local rules decide.')
    expect(caution).toBeGreaterThan(page.indexOf(printed))
    expect(caution).toBeLessThan(page.indexOf('</header>'))
  })

  test('replaces its own page, and nobody else’s', () => {
    expect(run(['heat', ...BOOK, '--html', fileOf('heat')]).status).toBe(0)
    const mine = join(folder, 'mine.html')
    writeFileSync(mine, 'mine')
    const refused = run(['heat', ...BOOK, '--html', mine])
    expect(refused.status).toBe(2)
    expect(refused.stderr).toContain('--force')
    expect(readFileSync(mine, 'utf8')).toBe('mine')
    expect(run(['heat', ...BOOK, '--html', mine, '--force']).status).toBe(0)
  })

  test('goes to stdout for -', () => {
    expect(run(['heat', ...BOOK, '--html', '-']).stdout).toMatch(/^<!doctype html>[\s\S]*<\/html>\n$/)
  })
})

describe.skipIf(BROWSER_PATH === undefined)(
  'a page in a browser (skipped where no Chromium is installed)',
  () => {
    let browser: Browser
    const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
    beforeAll(async () => {
      browser = await openBrowser()
    })
    afterAll(() => browser?.close())

    test.each(PAGES)(
      '%s is quiet, fetches nothing, fits a telephone and can be read by everybody',
      async (name) => {
        for (const colorScheme of name === 'season' ? (['light', 'dark'] as const) : (['light'] as const)) {
          const context = await browser.newContext({
            viewport: { width: 360, height: 740 },
            colorScheme,
            javaScriptEnabled: true,
            bypassCSP: true,
          })
          const page = await context.newPage()
          const heard: string[] = []
          page.on('console', (message) => heard.push(message.text()))
          page.on('pageerror', (error) => heard.push(error.message))
          page.on('request', (request) => {
            if (!/^(file|data):/.test(request.url())) heard.push(request.url())
          })
          await page.goto(pathToFileURL(fileOf(name)).href)
          const width = await page.evaluate('document.documentElement.scrollWidth')
          expect(width).toBeLessThanOrEqual(360)
          expect(heard).toEqual([])
          await page.evaluate(axe)
          const found = (await page.evaluate('axe.run()')) as { violations: { id: string; impact: string }[] }
          expect(
            found.violations.filter(({ impact }) => impact === 'serious' || impact === 'critical'),
          ).toEqual([])
          await context.close()
        }
      },
      120_000,
    )

    test('without its policy put aside the page keeps its look and stays quiet', async () => {
      const page = await browser.newPage()
      const heard: string[] = []
      page.on('console', (message) => heard.push(message.text()))
      await page.goto(pathToFileURL(fileOf('ready')).href)
      const widest = await page.evaluate('getComputedStyle(document.querySelector("main")).maxWidth')
      expect(widest).toBe('992px')
      expect(heard).toEqual([])
      await page.close()
    })
  },
)
