import { spawnSync } from 'node:child_process'
import { cpSync, mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { StandingProgram } from './standing.ts'

const PROJECT = fileURLToPath(new URL('../..', import.meta.url))

export interface Ran {
  status: number | null
  stdout: string
  stderr: string
}

/** A command line that takes longer than this hangs, ms. */
const LIMIT = 60_000

/** The program in a process that stands ready. */
export const standing = (world?: Readonly<Record<string, string>>): StandingProgram =>
  new StandingProgram(join(PROJECT, 'dist/rowbook.cjs'), LIMIT, world)

let here: StandingProgram | undefined

/** What a test's program knows of its surroundings. */
export const SURROUNDINGS = {
  PATH: process.env.PATH ?? '',
  HOME: tmpdir(),
  NO_COLOR: '1',
  COLUMNS: '80',
  XDG_CACHE_HOME: join(tmpdir(), 'rowbook-test-cache'),
}

/**
 * Runs the built program as a user would, without colours and on 80 columns unless told otherwise: in a process of its
 * own where it gets an environment or an input, else in one that stands ready.
 */
export function run(
  args: readonly string[],
  options: { cwd?: string; env?: Record<string, string>; input?: string } = {},
): Ran {
  const { cwd = PROJECT, input = '' } = options
  const env = { ...SURROUNDINGS, ...options.env }
  if (!options.env && input === '') {
    here ??= standing()
    try {
      return here.run({ args, cwd, env })
    } catch (error) {
      // What ended it fails one test, not those after it.
      here = undefined
      throw error
    }
  }
  const { status, stdout, stderr } = spawnSync('node', [join(PROJECT, 'bin/rowbook.js'), ...args], {
    cwd,
    input,
    encoding: 'utf8',
    timeout: LIMIT,
    maxBuffer: 256 * 1024 * 1024,
    env,
  })
  return { status, stdout, stderr }
}

/** A text as one line, however it was broken to fit the screen. */
export const flat = (text: string): string => text.replace(/ \\\n */g, ' ').replace(/\s*\n\s*/g, ' ')

/** An answer of `--json`; tests look into it by name, so its data is left open. */
export interface Envelope {
  rowbook: number
  report: string
  asOf: string
  season: number | null
  // biome-ignore lint/suspicious/noExplicitAny: tests read any key of any report
  data: any
  findings: {
    name: string
    level: string
    message: string
    file: string
    line: number
    column: number
    help: string
  }[]
  cautions: string[]
}

/** Runs a report with `--json` and returns its envelope. */
export function runJson(
  args: readonly string[],
  options: Parameters<typeof run>[1] = {},
): { status: number | null; json: Envelope } {
  const { status, stdout, stderr } = run([...args, '--json'], options)
  try {
    return { status, json: JSON.parse(stdout) }
  } catch {
    throw new Error(`no JSON from rowbook ${args.join(' ')}: ${stdout}${stderr}`)
  }
}

/** A copy of one of the example ledgers in a folder of its own. */
export function ledgerCopy(name = 'far-quillet'): string {
  const folder = join(mkdtempSync(join(tmpdir(), 'rowbook-')), name)
  cpSync(join(PROJECT, 'examples', name), folder, { recursive: true })
  return folder
}
