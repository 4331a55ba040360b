import { execFileSync, spawn } from 'node:child_process'
import { mkdirSync, mkdtempSync, openSync, readSync, writeSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Ran } from './run.ts'

interface Request {
  args: readonly string[]
  cwd: string
  env: Readonly<Record<string, string>>
}

/** A process that keeps the built program at hand, and the pipes that lead to it and back. */
export class StandingProgram {
  private readonly requests: number
  private readonly answers: number
  private readonly cache: string

  /**
   * @param limit ms after which a command line that has not ended is killed.
   * @param world variables of the process's start, where Node reads its language; each command line has its own too.
   */
  constructor(file: string, limit: number, world: Readonly<Record<string, string>> = {}) {
    const folder = mkdtempSync(join(tmpdir(), 'rowbook-standing-'))
    this.cache = join(folder, 'cache')
    mkdirSync(this.cache, { mode: 0o700 })
    const [requests, answers] = ['requests', 'answers'].map((name) => join(folder, name))
    execFileSync('mkfifo', [requests!, answers!])
    const program = fileURLToPath(new URL('standing-program.cjs', import.meta.url))
    const flags = ['--interrupt-budget=1200000']
    spawn('node', [...flags, program, file, requests!, answers!, String(limit)], {
      stdio: 'ignore',
      env: { ...process.env, ...world },
    }).unref()
    this.requests = openSync(requests!, 'w')
    this.answers = openSync(answers!, 'r')
  }

  /** @throws Error where the program ended or was killed instead of answering. */
  run({ args, cwd, env }: Request): Ran {
    const bytes = Buffer.from(`${JSON.stringify({ args, cwd, env, cache: this.cache })}\n`)
    for (let done = 0; done < bytes.length; ) done += writeSync(this.requests, bytes, done)
    const pieces: Buffer[] = []
    const piece = Buffer.alloc(65_536)
    for (;;) {
      const length = readSync(this.answers, piece)
      if (length === 0) throw new Error(`no answer from rowbook ${args.join(' ')}`)
      pieces.push(Buffer.from(piece.subarray(0, length)))
      if (piece[length - 1] === 10) return JSON.parse(Buffer.concat(pieces).toString())
    }
  }
}
