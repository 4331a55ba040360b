// A process that writes entries, bundled by `writers.test.ts`: it waits for the start, or kills itself at a call.
import { existsSync } from 'node:fs'
import { createFile } from '../../src/ledger/write/write.ts'
import { watchedDisk } from './faulty-disk.ts'

const job = JSON.parse(process.argv[2]!) as {
  root: string
  folder: string
  stem: string
  texts: string[]
  /** Writing begins when this file is there. */
  go?: string
  /** The call to the disk at which the process kills itself. */
  killAt?: number
}

process.stdout.write('ready\n')
while (job.go && !existsSync(job.go)) Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 1)
const start = Date.now()
const files = job.texts.map((text) =>
  createFile(
    { root: job.root, folder: job.folder, stem: job.stem, text },
    watchedDisk((_, index) => {
      if (index === job.killAt) process.kill(process.pid, 'SIGKILL')
      return undefined
    }).disk,
  ),
)
process.stdout.write(`${JSON.stringify({ start, end: Date.now(), files })}\n`)
