import { spawnSync } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { type Browser, chromium, type Page } from 'playwright-core'

const PLACES = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  process.env.CHROMIUM ?? '',
]

/** Where Chromium is on this machine; undefined where it isn't, and then tests that need one are skipped. */
export const BROWSER_PATH = PLACES.find((path) => path !== '' && existsSync(path))

export const HAS_PDFTOTEXT = spawnSync('pdftotext', ['-v']).status === 0

export function openBrowser(): Promise<Browser> {
  const args = process.getuid?.() === 0 ? ['--no-sandbox'] : []
  return chromium.launch({ executablePath: BROWSER_PATH!, args })
}

/** Letters of a drawing smaller than this aren't read in the row, px. */
const SMALLEST_LETTER = 11

/** What doesn't fit: the page, tables, cells left alone on a card, and texts of drawings outside of them or too small. */
const MISFITS = `(() => {
  const found = []
  const root = document.documentElement
  if (root.scrollWidth > root.clientWidth) found.push('page is ' + root.scrollWidth + ' px wide')
  for (const box of document.querySelectorAll('.table'))
    if (box.scrollWidth > box.clientWidth) found.push('table scrolls: ' + box.getAttribute('aria-label'))
  for (const card of document.querySelectorAll('.table tbody tr')) {
    if (getComputedStyle(card).display !== 'grid') continue
    const cells = [...card.children].filter((cell) => cell.offsetWidth > 0 && cell.offsetWidth < card.offsetWidth * 0.6)
    const beside = (cell) => cells.filter((other) => Math.abs(other.getBoundingClientRect().bottom - cell.getBoundingClientRect().bottom) < 2)
    for (const cell of cells) if (beside(cell).length === 1) found.push('alone in its line of a card: ' + cell.textContent)
  }
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

export const misfits = (page: Page) => page.evaluate(MISFITS) as Promise<string[]>

export const heightOf = (page: Page) =>
  page.evaluate('document.documentElement.scrollHeight') as Promise<number>

/** Opens, or with false closes, all that is folded. */
export const unfold = (page: Page, open = true) =>
  page.evaluate(`for (const one of document.querySelectorAll("details")) one.open = ${open}`)

/** What axe finds against reading by everybody, each with its first place; of colours alone where that is asked. */
export async function violations(page: Page, of?: 'colours'): Promise<string[]> {
  await page.evaluate(readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8'))
  const how = JSON.stringify({ resultTypes: ['violations'], runOnly: of && ['cat.color'] })
  const found = (await page.evaluate(`axe.run(${how})`)) as {
    violations: { id: string; nodes: { html: string }[] }[]
  }
  return found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)
}

/** Each printed sheet's lines of text. */
export function linesOfSheets(pdf: Buffer): string[][] {
  const { stdout } = spawnSync('pdftotext', ['-layout', '-', '-'], { input: pdf, encoding: 'utf8' })
  return stdout
    .split('\f')
    .slice(0, -1)
    .map((sheet) => sheet.split('\n').filter((line) => line.trim() !== ''))
}

export const countSheets = (pdf: Buffer): number =>
  pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0
