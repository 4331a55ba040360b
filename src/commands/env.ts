/** Everything that a command may know of the world outside the ledger: read once, at the edge. */
export interface Env {
  cwd: string
  /** Adds to the answer; it is written as one piece when the command is done. */
  out: (text: string) => void
  /** What is said about the run, at once. */
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
}

/** The world as Node shows it. `flush` writes the answer and tells whether it went out whole. */
export function nodeEnv(): { env: Env; flush: () => Promise<boolean> } {
  const pieces: string[] = []
  const { COLUMNS } = process.env
  const columns = process.stdout.columns ?? (COLUMNS && /^\d+$/.test(COLUMNS) ? Number(COLUMNS) : 80)
  const env: Env = {
    cwd: process.cwd(),
    out: (text) => pieces.push(text),
    err: (text) => process.stderr.write(text),
    today: (timezone) => localDate(Date.now(), timezone),
    zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    now: () => Date.now(),
    variables: process.env,
    outIsTerminal: process.stdout.isTTY === true,
    inIsTerminal: process.stdin.isTTY === true,
    columns: Math.max(60, Math.min(columns, 200)),
  }
  return { env, flush: () => write(pieces.join('')) }
}

function localDate(time: number, timezone?: string): string {
  const parts = new Intl.DateTimeFormat('en-CA', {
    ...(timezone ? { timeZone: timezone } : {}),
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
  })
  return parts.format(time)
}

function write(text: string): Promise<boolean> {
  if (text === '') return Promise.resolve(true)
  return new Promise((resolve) => {
    process.stdout.on('error', (error: NodeJS.ErrnoException) => {
      // A reader that has seen enough (`| head`) is no fault; a full disk is.
      if (error.code === 'EPIPE') return resolve(true)
      process.stderr.write(`rowbook: the answer could not be written (${error.code ?? 'unknown fault'})\n`)
      resolve(false)
    })
    process.stdout.write(text, () => resolve(true))
  })
}
