#!/usr/bin/env node
'use strict'
const { join } = require('node:path')
const { loadProgram } = require('./load.js')

const program = loadProgram(join(__dirname, '../dist'), process.argv[2])
if (program) {
  program.main(process.argv.slice(2), program.build).then((status) => {
    process.exitCode = status
  })
} else {
  process.stderr.write(`rowbook is not built yet: run \`npm install\` in ${join(__dirname, '../')}\n`)
  process.exitCode = 2
}
