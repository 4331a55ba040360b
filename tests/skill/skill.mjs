// Prints how good the windows are on simulated seasons: `npm run skill`, or `npm run skill -- SEASONS SEED`.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { build } from 'esbuild'

const folder = mkdtempSync(join(tmpdir(), 'rowbook-skill-'))
try {
  const outfile = join(folder, 'skill.mjs')
  await build({
    entryPoints: [fileURLToPath(new URL('table.ts', import.meta.url))],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    logLevel: 'warning',
  })
  await import(pathToFileURL(outfile).href)
} finally {
  rmSync(folder, { recursive: true })
}
