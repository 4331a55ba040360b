import { existsSync } from 'node:fs'
import { type Browser, chromium } from 'playwright-core'

const PLACES = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  process.env.CHROMIUM ?? '',
]

/** Where Chromium is on this machine; undefined where it isn't, and then tests that need one are skipped. */
export const BROWSER_PATH = PLACES.find((path) => path !== '' && existsSync(path))

export function openBrowser(): Promise<Browser> {
  const args = process.getuid?.() === 0 ? ['--no-sandbox'] : []
  return chromium.launch({ executablePath: BROWSER_PATH!, args })
}
