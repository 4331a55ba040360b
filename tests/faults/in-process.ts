import type { Env } from '../../src/commands/plumbing/env.ts'
import { run } from '../../src/commands/plumbing/run.ts'

export interface InProcess {
  status: number
  out: string
  err: string
  /** The report of an internal error. */
  fault: string | null
}

/**
 * Runs a command in this process, which is quicker than starting one; the clock is at noon of the given day.
 * @param cache a folder in which records are cached, as the program does; without it every run reads all files.
 */
export async function runHere(
  args: readonly string[],
  cwd = '/',
  today = '2026-10-05',
  columns = 80,
  cache?: string,
): Promise<InProcess> {
  let out = ''
  let err = ''
  const jobs: (() => void)[] = []
  const env: Env = {
    cwd,
    cache: cache === undefined ? undefined : { folder: cache, label: 'tests' },
    later: (job) => jobs.push(job),
    out: (text) => {
      out += text
    },
    err: (text) => {
      err += text
    },
    today: () => today,
    zone: 'UTC',
    now: () => Date.parse(`${today}T12:00:00Z`),
    variables: {},
    outIsTerminal: false,
    inIsTerminal: false,
    columns,
  }
  const status = await run(args, env)
  for (const job of jobs) job()
  return { status, out, err, fault: status === 70 ? err : null }
}

/** The arguments that some reports need, for tests that run all of them. */
export const NEEDED: Readonly<Record<string, readonly string[]>> = {
  calibrate: ['--flow', '5.5 L/min', '--speed', '5 km/h', '--width', '2 m'],
  sugar: ['--brix', '21.5'],
  compare: ['2025', '2026'],
  completion: ['bash'],
  schema: ['spray'],
  sheet: ['scouting'],
  explain: [],
}

/** Commands that write or ask, which tests of reading don't run. */
export const WRITERS = new Set(['start', 'note', 'import'])
