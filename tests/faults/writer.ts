// A process that writes entries, bundled by `writers.test.ts`: it waits for the start, or kills itself at a call.
import { existsSync } from 'node:fs'
import { createFiles } from '../../src/ledger/write/new-files.ts'
import { watchedDisk } from './faulty-disk.ts'

const job = JSON.parse(process.argv[2]!) as {
  root: string
  folder: string
  stem: string
  texts: string[]
  /** Writing begins when this file is there, and goes on after the first entry when the other is there. */
  go?: string
  goOn?: string
  /** The call to the disk at which the process kills itself. */
  killAt?: number
}

process.stdout.write('ready\n')
waitFor(job.go)
const start = Date.now()
const files = job.texts.map((text, index) => {
  if (index === 1) waitFor(job.goOn)
  return createFiles(
    [{ root: job.root, folder: job.folder, stem: job.stem, text }],
    watchedDisk((_, call) => {
      if (call === job.killAt) process.kill(process.pid, 'SIGKILL')
      return undefined
    }).disk,
  )[0]!
})
process.stdout.write(`${JSON.stringify({ start, end: Date.now(), files })}\n`)

function waitFor(file: string | undefined): void {
  while (file && !existsSync(file)) Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 1)
}
