#!/usr/bin/env node
import { existsSync } from 'node:fs'
import { createRequire } from 'node:module'
import { fileURLToPath } from 'node:url'

const program = fileURLToPath(new URL('../dist/rowbook.cjs', import.meta.url))
if (existsSync(program)) {
  const { main } = createRequire(import.meta.url)(program)
  process.exitCode = await main(process.argv.slice(2))
} else {
  const folder = fileURLToPath(new URL('..', import.meta.url))
  process.stderr.write(`rowbook is not built yet: run \`npm install\` in ${folder}\n`)
  process.exitCode = 2
}
