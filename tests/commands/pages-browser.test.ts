import { pathToFileURL } from 'node:url'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { SOAK } from '../faults/size.ts'
import {
  BROWSER_PATH,
  countSheets,
  HAS_PDFTOTEXT,
  heightOf,
  linesOfSheets,
  misfits,
  openBrowser,
  unfold,
  violations,
} from './browser.ts'
import { EXAMPLE, longNames, PAGES, pageFile, withoutWeather } from './pages-made.ts'

/** The most px that a page may be tall on a telephone before anything is unfolded. */
const TALLEST = 4500
/** What is decided standing in the row or at the tank. */
const TALLEST_TO_DECIDE = 4000
const TO_DECIDE = ['ready', 'window', 'totals', 'today']
/** The most sheets of A4 that the example's season is printed on. */
const MOST_SHEETS = 8
/** A sheet with fewer lines than this holds a row that was left over, under the headings that repeat. */
const FEWEST_LINES = 3
/** One page of each look and kind; the long form asks of all, in the dark too. */
const FOR_AXE = SOAK ? PAGES : ['season', 'ready', 'scouting', 'helpers', 'sheet sampling', 'sheet spray']
const PRINTED = SOAK
  ? PAGES
  : ['ready', 'diary', 'harvest', 'helpers', ...PAGES.filter((name) => name.startsWith('sheet'))]
/** The season holds the tables and drawings of the other reports. */
const WITH_LONG_NAMES = SOAK
  ? PAGES
  : ['season', 'today', 'cover', 'helpers', 'sheet sampling', 'sheet spray', 'diary']

describe.skipIf(BROWSER_PATH === undefined)(
  'a page in a browser (skipped where no Chromium is installed)',
  () => {
    let browser: Browser
    let page: Page
    const heard: string[] = []
    beforeAll(async () => {
      browser = await openBrowser()
      page = await browser.newPage()
      page.on('console', (message) => heard.push(message.text()))
      page.on('pageerror', (error) => heard.push(error.message))
      page.on('request', (request) => {
        if (!/^(file|data):/.test(request.url())) heard.push(request.url())
      })
    })
    afterAll(() => browser?.close())

    const open = async (name: string, ledger = EXAMPLE, width = 360) => {
      heard.length = 0
      await page.setViewportSize({ width, height: 740 })
      await page.goto(pathToFileURL(pageFile(name, ledger)).href)
    }

    const fits = async () => {
      await unfold(page)
      for (const width of [360, 1280]) {
        await page.setViewportSize({ width, height: 740 })
        expect(await misfits(page), `at ${width} px`).toEqual([])
      }
    }

    /** In the dark only colours differ (`render/html/look.ts`): only what axe says of them is asked for. */
    const inTheDark = async (name: string) => {
      await page.emulateMedia({ colorScheme: 'dark' })
      expect(await violations(page, 'colours'), `${name} in the dark`).toEqual([])
      await page.emulateMedia({ colorScheme: null })
    }

    test.each(PAGES)(
      '%s is quiet, fetches nothing, and fits 360 and 1280 px with all unfolded',
      async (name) => {
        await open(name)
        // A sheet is printed, not read on a telephone.
        if (!name.startsWith('sheet'))
          expect(await heightOf(page)).toBeLessThanOrEqual(
            TO_DECIDE.includes(name) ? TALLEST_TO_DECIDE : TALLEST,
          )
        await fits()
        expect(heard).toEqual([])
      },
    )

    test.each(WITH_LONG_NAMES)(
      '%s of a US ledger with long names fits, is read in light and dark, and printed',
      async (name) => {
        long ??= longNames()
        await open(name, long)
        await fits()
        if (FOR_AXE.includes(name)) {
          expect(await violations(page), 'light').toEqual([])
          await inTheDark(name)
        }
        if (!HAS_PDFTOTEXT || !PRINTED.includes(name)) return
        for (const sheet of linesOfSheets(await page.pdf({ format: 'Letter' })))
          expect(sheet.length, sheet.join('\n')).toBeGreaterThanOrEqual(FEWEST_LINES)
      },
    )
    let long: string | undefined

    test.each(FOR_AXE)('%s is read by everybody', async (name) => {
      await open(name)
      await unfold(page)
      expect(await violations(page), 'light').toEqual([])
      if (SOAK || name === 'ready') await inTheDark(name)
    })

    test.each(PRINTED)(
      '%s is printed with headings that repeat and no row alone on a sheet',
      async (name) => {
        await open(name, EXAMPLE, 1280)
        await page.emulateMedia({ media: 'print' })
        const heads = (await page.evaluate(
          '[...document.querySelectorAll("thead")].map((head) => getComputedStyle(head).display)',
        )) as string[]
        await page.emulateMedia({ media: null })
        expect(heads.filter((display) => display !== 'table-header-group')).toEqual([])
        for (const format of ['A4', 'Letter']) {
          const pdf = await page.pdf({ format })
          if (HAS_PDFTOTEXT)
            for (const sheet of linesOfSheets(pdf))
              expect(sheet.length, `${format}: ${sheet.join('\n')}`).toBeGreaterThanOrEqual(FEWEST_LINES)
        }
      },
    )

    test.each(['sheet scouting', 'sheet sampling', 'sheet crop'])(
      '%s is printed on one sheet of paper a block, in lines that a hand can write in',
      async (name) => {
        await open(name, EXAMPLE, 1280)
        const blocks = (await page.evaluate('document.querySelectorAll("section.part").length')) as number
        expect(blocks).toBe(4)
        for (const format of ['A4', 'Letter'])
          expect(countSheets(await page.pdf({ format })), format).toBeLessThanOrEqual(blocks)
        await page.emulateMedia({ media: 'print' })
        const lowest = await page.evaluate(
          'Math.min(...[...document.querySelectorAll("section.part > .table tbody tr, .abreast tbody tr")].map((row) => row.getBoundingClientRect().height))',
        )
        await page.emulateMedia({ media: null })
        // 6 mm at 96 px an inch.
        expect(lowest).toBeGreaterThanOrEqual((6 / 25.4) * 96)
      },
    )

    test('the season is folded, and printed on few sheets with what a grower files', async () => {
      await open('season')
      expect(await page.evaluate('document.querySelectorAll("details[open]").length')).toBe(0)
      const pdf = await page.pdf({ format: 'A4' })
      expect(countSheets(pdf)).toBeGreaterThan(1)
      expect(countSheets(pdf)).toBeLessThanOrEqual(MOST_SHEETS)
      if (!HAS_PDFTOTEXT) return
      const text = linesOfSheets(pdf).flat().join('\n')
      expect(text).toContain('Quillet Sulphur 80')
      expect(text).toContain('Kiln Bank: what was checked')
      expect(text).not.toContain('Every day in a table')
    })

    test('no chart is drawn where there is no weather', async () => {
      const bare = withoutWeather()
      for (const name of ['pressure', 'heat']) {
        await open(name, bare)
        expect(await page.evaluate('document.querySelectorAll("svg").length'), name).toBe(0)
      }
    })

    test('its policy lets it keep its look', async () => {
      await open('ready')
      expect(await page.evaluate('getComputedStyle(document.querySelector("main")).maxWidth')).toBe('992px')
    })
  },
)
