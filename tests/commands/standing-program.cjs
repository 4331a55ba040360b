// Runs the built program for one command line after another. Starting Node and compiling take most of the time of a
// run; each command line gets the program anew, so nothing is left of the one before.
const fs = require('node:fs')
const { createRequire, wrap } = require('node:module')
const { Script } = require('node:vm')
const { Worker } = require('node:worker_threads')

const [file, requests, answers, limit] = process.argv.slice(2)
const asked = fs.openSync(requests, 'r')
const answered = fs.openSync(answers, 'w')
const begin = new Script(wrap(fs.readFileSync(file, 'latin1')), { filename: file }).runInThisContext()
const started = new Float64Array(new SharedArrayBuffer(8))
const WATCH = `const { workerData: { started, limit } } = require('node:worker_threads')
setInterval(() => { if (started[0] > 0 && Date.now() - started[0] > limit) process.kill(process.pid, 'SIGKILL') }, 500)`
new Worker(WATCH, { eval: true, workerData: { started, limit: Number(limit) } })

const output = { 1: [], 2: [] }
const { writeSync } = fs
fs.writeSync = (descriptor, bytes, offset = 0, ...rest) => {
  if (!(descriptor in output)) return writeSync(descriptor, bytes, offset, ...rest)
  output[descriptor].push(Buffer.from(bytes.subarray(offset)))
  return bytes.length - offset
}

function nextRequest() {
  const pieces = []
  const piece = Buffer.alloc(65_536)
  for (;;) {
    const length = fs.readSync(asked, piece)
    if (length === 0) process.exit()
    pieces.push(Buffer.from(piece.subarray(0, length)))
    if (piece[length - 1] === 10) return JSON.parse(Buffer.concat(pieces).toString())
  }
}

async function answer({ args, cwd, env, cache }) {
  for (const name of Object.keys(process.env)) delete process.env[name]
  Object.assign(process.env, env)
  process.chdir(cwd)
  process.removeAllListeners('SIGINT').removeAllListeners('SIGTERM')
  const program = { exports: {} }
  begin(program.exports, createRequire(file), program)
  const status = await program.exports.main(args, { folder: cache, build: 'standing' })
  const [stdout, stderr] = [1, 2].map((descriptor) => Buffer.concat(output[descriptor].splice(0)).toString())
  return { status, stdout, stderr }
}

;(async () => {
  for (;;) {
    const request = nextRequest()
    started[0] = Date.now()
    const bytes = Buffer.from(`${JSON.stringify(await answer(request))}\n`)
    started[0] = 0
    for (let done = 0; done < bytes.length; ) done += writeSync(answered, bytes, done)
  }
})()
