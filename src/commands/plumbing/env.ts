import { fstatSync, statSync, writeSync } from 'node:fs'
import { clockRunsBy } from '../../records/clock.ts'
import { Progress } from './progress.ts'
import type { Timings } from './timings.ts'

/** Everything that a command may know about the world outside the ledger. */
export interface Env {
  cwd: string
  /**
   * Adds to the answer; it is written as one piece when the command is done. What could steer a terminal is
   * shown as an escape, except in `data` for another program.
   */
  out: (text: string, as?: 'data') => void
  /** Writes a message about the run at once. */
  err: (text: string) => void
  /** Today in the given IANA time zone, or in the machine's where none is given, as ISO date. */
  today: (timezone?: string) => string
  /** The machine's IANA time zone. */
  zone: string
  /** This moment, as milliseconds since 1970. */
  now: () => number
  variables: Readonly<Record<string, string | undefined>>
  outIsTerminal: boolean
  inIsTerminal: boolean
  columns: number
  /** Sets the clock of the process to a time zone, as `today` does, without returning the day. */
  runBy?: (timezone: string | undefined) => void
  /** The cache folder, and what cached records depend on besides the ledger; undefined without a cache. */
  cache?: { folder: string; label: string } | undefined
  /** Records the end of each stage of work, for `--timings`. */
  timings?: Timings | undefined
  /** Shows on a terminal what is being done, if it takes long. */
  progress?: Progress
  /** Runs a job after the answer is written. */
  later?: (job: () => void) => void
}

/** The current folder; null where it has been deleted or the user may not read it. */
export function workingFolder(): string | null {
  try {
    return process.cwd()
  } catch {
    return null
  }
}

/**
 * The environment as Node gives it. Each value is read when it is first used, since asking about terminals and time
 * zones takes longer than a short command. `flush` writes the answer and returns whether all of it was written.
 * @param kept the program's own folder in the user's cache, and the name of the build.
 */
export function nodeEnv(
  cwd: string,
  kept?: { folder: string; build: string },
): {
  env: Env
  flush: () => Promise<boolean>
} {
  const pieces: string[] = []
  const jobs: (() => void)[] = []
  const progress = new Progress(tell, () => mayBeTerminal(2) && process.stderr.isTTY === true)
  const env: Env = {
    cwd,
    out: (text) => pieces.push(text),
    err: (text) => {
      progress.clear()
      tell(text)
    },
    progress,
    today: (timezone) => localDate(timezone),
    get zone() {
      return Intl.DateTimeFormat().resolvedOptions().timeZone
    },
    now: () => Date.now(),
    variables: process.env,
    get outIsTerminal() {
      return mayBeTerminal(1) && process.stdout.isTTY === true
    },
    get inIsTerminal() {
      return mayBeTerminal(0) && process.stdin.isTTY === true
    },
    runBy: clockBy,
    cache: kept && { folder: kept.folder, label: labelOf(kept.build) },
    later: (job) => jobs.push(job),
    get columns() {
      const { COLUMNS } = process.env
      const typed = COLUMNS && /^[1-9]\d*$/.test(COLUMNS) ? Number(COLUMNS) : 80
      return Math.max(60, Math.min((mayBeTerminal(1) && process.stdout.columns) || typed, 200))
    },
  }
  const flush = async () => {
    progress.clear()
    const isOut = await write(pieces.join(''))
    for (const job of jobs) job()
    return isOut
  }
  return { env, flush }
}

/** False for pipes, files and the null device, found without loading Node's streams. */
function mayBeTerminal(descriptor: 0 | 1 | 2): boolean {
  try {
    const stat = fstatSync(descriptor)
    return stat.isCharacterDevice() && stat.rdev !== statSync('/dev/null', { throwIfNoEntry: false })?.rdev
  } catch {
    return false
  }
}

/** What a cached record depends on besides its file: the program, Node, its time zones. */
const labelOf = (build: string) =>
  `${build} ${process.version} ${process.versions.tz} ${process.versions.unicode}`

function clockBy(timezone: string | undefined): void {
  if (!timezone) return
  process.env.TZ = timezone
  clockRunsBy(timezone)
}

/**
 * Today's date in a time zone. Sets the clock of the process to that zone, so that `Date` answers in it; no report
 * reads the clock.
 */
function localDate(timezone: string | undefined): string {
  clockBy(timezone)
  const now = new Date()
  const [year, month, day] = [now.getFullYear(), now.getMonth() + 1, now.getDate()]
  return `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`
}

/** Writes to stderr. Where that is full or closed, the text is dropped: nothing else could report it. */
export function tell(text: string): void {
  const bytes = Buffer.from(text)
  let done = 0
  try {
    while (done < bytes.length) done += writeSync(2, bytes, done)
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EAGAIN') process.stderr.write(bytes.subarray(done))
  }
}

/** Writes the answer straight to the descriptor, and through Node's stream only where that would have to wait. */
function write(text: string): Promise<boolean> {
  const bytes = Buffer.from(text)
  let done = 0
  try {
    while (done < bytes.length) done += writeSync(1, bytes, done)
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException
    return code === 'EAGAIN' ? writeLater(bytes.subarray(done)) : Promise.resolve(isWritten(code))
  }
  return Promise.resolve(true)
}

function writeLater(bytes: Uint8Array): Promise<boolean> {
  return new Promise((resolve) => {
    process.stdout.on('error', (error: NodeJS.ErrnoException) => resolve(isWritten(error.code)))
    process.stdout.write(bytes, () => resolve(true))
  })
}

/** Whether a failed write counts as done: a reader that has seen enough (`| head`) is no fault, a full disk is. */
function isWritten(code: string | undefined): boolean {
  if (code === 'EPIPE') return true
  tell(`rowbook: the answer could not be written (${code ?? 'unknown fault'})\n`)
  return false
}
