// Draws the picture of the readiness page in the README from the built program and the invented example vineyard:
// `node tests/picture.mjs`. Needs Chromium.
import { execFileSync } from 'node:child_process'
import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { chromium } from 'playwright-core'

const project = fileURLToPath(new URL('..', import.meta.url))
const page = join(mkdtempSync(join(tmpdir(), 'rowbook-picture-')), 'ready.html')
const day = ['--ledger', 'examples/far-quillet', '--as-of', '2026-09-14', '--season', '2026']
try {
  execFileSync('node', ['bin/rowbook.js', 'ready', ...day, '--html', page], { cwd: project })
} catch (error) {
  // 1 says that a block is not to be picked, as one of the example is by design.
  if (error.status !== 1) throw error
}

const executablePath = process.env.CHROMIUM ?? '/usr/bin/chromium'
const args = process.getuid?.() === 0 ? ['--no-sandbox'] : []
const browser = await chromium.launch({ executablePath, args })
const tab = await browser.newPage({ viewport: { width: 800, height: 640 } })
await tab.goto(pathToFileURL(page).href)
// Down to the end of what leads the page; the blocks one by one come after.
const figure = await tab.locator('figure').first().boundingBox()
const clip = { x: 0, y: 0, width: 800, height: Math.ceil(figure.y + figure.height + 24) }
await tab.screenshot({ path: join(project, 'examples/ready.png'), fullPage: true, clip })
await browser.close()
