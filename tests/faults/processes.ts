import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { buildSync } from 'esbuild'

export const PROJECT = fileURLToPath(new URL('../..', import.meta.url))
export const PROGRAM = join(PROJECT, 'bin/rowbook.js')

/** Bundles a source file of the tests so that Node can run it. */
export function bundled(file: string): string {
  const outfile = join(mkdtempSync(join(tmpdir(), 'rowbook-child-')), 'child.cjs')
  buildSync({
    entryPoints: [join(PROJECT, file)],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    logLevel: 'error',
  })
  return outfile
}

export interface Ended {
  status: number | null
  signal: NodeJS.Signals | null
  stdout: string
  stderr: string
  milliseconds: number
}

export interface Running {
  child: ChildProcess
  /** Resolves with the first bytes of stdout. */
  ready: Promise<void>
  ended: Promise<Ended>
}

/** Starts a Node process. */
export function startNode(args: readonly string[], env: Record<string, string> = {}): Running {
  const started = performance.now()
  const child = spawn('node', args, {
    cwd: PROJECT,
    stdio: ['ignore', 'pipe', 'pipe'],
    env: {
      PATH: process.env.PATH ?? '',
      HOME: tmpdir(),
      NO_COLOR: '1',
      COLUMNS: '80',
      XDG_CACHE_HOME: join(tmpdir(), 'rowbook-test-cache'),
      ...env,
    },
  })
  let stdout = ''
  let stderr = ''
  const ready = new Promise<void>((resolve) => {
    child.stdout.on('data', (piece: Buffer) => {
      stdout += piece
      resolve()
    })
    child.on('close', () => resolve())
  })
  child.stderr.on('data', (piece: Buffer) => {
    stderr += piece
  })
  const ended = new Promise<Ended>((resolve) => {
    child.on('close', (status, signal) =>
      resolve({ status, signal, stdout, stderr, milliseconds: performance.now() - started }),
    )
  })
  return { child, ready, ended }
}

/** The built program, as a user starts it. */
export const startProgram = (args: readonly string[], env: Record<string, string> = {}): Running =>
  startNode([PROGRAM, ...args], env)

export const pause = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, milliseconds))
