#!/usr/bin/env node
'use strict'
const { existsSync } = require('node:fs')
const { join } = require('node:path')

const dist = join(__dirname, '../dist')
if (existsSync(join(dist, 'start.cjs'))) {
  const { runProgram } = require('../dist/start.cjs')
  runProgram(join(dist, 'rowbook.cjs'), process.argv.slice(2)).then((status) => {
    process.exitCode = status
  })
} else {
  process.stderr.write(`rowbook is not built yet: run \`npm install\` in ${join(__dirname, '../')}\n`)
  process.exitCode = 2
}
