// Run by the build: runs typical commands, and keeps what V8 compiled for them beside the program.
'use strict'
const fs = require('node:fs')
const { join } = require('node:path')
const { Parts } = require('./load.js')

const dist = join(__dirname, '../dist')
const example = [
  '--ledger',
  join(__dirname, '../examples/far-quillet'),
  '--as-of',
  '2026-09-14',
  '--season',
  '2026',
]

const MIX = [
  '--block',
  'top-terrace',
  '--product',
  'sulphur-80=3kg/ha',
  '--sprayer',
  'mounted',
  '--water',
  '300L/ha',
]
const REPORTS = [
  ['check'],
  ['mix', ...MIX],
  ...['totals', 'ready', 'window', 'pressure', 'cover', 'ripeness', 'scouting', 'heat', 'today'].map(
    (name) => [name],
  ),
]

async function compile() {
  const parts = new Parts(dist)
  const { main } = parts.load(fs.readFileSync(join(dist, 'entry.txt'), 'latin1').trim())
  const { writeSync } = fs
  process.stdout.write = process.stderr.write = () => true
  fs.writeSync = (_descriptor, bytes) => bytes.length
  for (const command of [['--version'], ['--help'], ['check', '--help'], ['completion', 'bash']])
    await main(command)
  for (const command of REPORTS) {
    await main([...command, ...example])
    await main([...command, ...example, '--json'])
  }
  fs.writeSync = writeSync
  process.exitCode = 0
  parts.keepCompiled(join(dist, 'code'))
}

compile()
