import { execFileSync, spawn } from 'node:child_process'

/** The history can't be read: no git, no repository, or no such revision. */
export class NoHistory extends Error {
  constructor(
    message: string,
    readonly help: string,
  ) {
    super(message)
  }
}

/** Nothing that a repository configures may run a program here, reach the network or touch its files. */
const SAFELY = [
  '--no-pager',
  '--literal-pathspecs',
  '--no-replace-objects',
  '-c', 'core.fsmonitor=false',
  '-c', 'core.hooksPath=/dev/null',
  '-c', 'core.quotePath=false',
  '-c', 'log.showSignature=false',
  '-c', 'protocol.allow=never',
] // biome-ignore format: an option and its value read better on one line

const LARGEST_ANSWER = 1024 * 1024 * 1024
const LONGEST_MS = 120_000

/**
 * Runs git in the ledger's folder, without a shell and without the environment's own GIT_ variables.
 * @throws NoHistory where git isn't installed or fails; its message then is git's own.
 */
export function runGit(repository: Place, args: readonly string[], input = ''): Buffer {
  try {
    const how = { ...settings(repository), input, stdio: ['pipe' as const, 'pipe' as const, 'pipe' as const] }
    return execFileSync('git', [...SAFELY, ...args], how)
  } catch (error) {
    throw failed(error as GitFault)
  }
}

/**
 * The same beside whatever else there is to do.
 * @param options.index whether an index that the environment names is the one to read.
 */
export async function askGit(
  repository: Place,
  args: readonly string[],
  options: { input?: string; index?: boolean; safely?: readonly string[] } = {},
): Promise<Buffer> {
  const pieces: Buffer[] = []
  await listenToGit(repository, args, { ...options, hear: (piece) => pieces.push(piece) })
  return Buffer.concat(pieces)
}

/** Hands on what git says, piece by piece. */
export function listenToGit(
  repository: Place,
  args: readonly string[],
  {
    hear,
    input = '',
    index = false,
    safely = SAFELY,
  }: { hear: (piece: Buffer) => void; input?: string; index?: boolean; safely?: readonly string[] },
): Promise<void> {
  const { env, cwd, windowsHide } = settings(repository)
  const { GIT_INDEX_FILE } = repository.variables
  const named = index && GIT_INDEX_FILE !== undefined ? { GIT_INDEX_FILE } : {}
  return new Promise((resolve, reject) => {
    const git = spawn('git', [...safely, ...args], { cwd, windowsHide, env: { ...env, ...named } })
    const patience = setTimeout(() => git.kill(), LONGEST_MS)
    const faults: Buffer[] = []
    git.stdout.on('data', (piece: Buffer) => {
      try {
        hear(piece)
      } catch (error) {
        reject(error)
        git.kill()
      }
    })
    git.stderr.on('data', (piece: Buffer) => faults.push(piece))
    git.on('error', (error: NodeJS.ErrnoException) => {
      clearTimeout(patience)
      reject(failed(error))
    })
    git.on('close', (code, signal) => {
      clearTimeout(patience)
      if (code === 0) resolve()
      else reject(failed({ code: code ?? signal, stderr: Buffer.concat(faults) }))
    })
    // Where git ends before it has read everything, its own message says why.
    git.stdin.on('error', () => {})
    git.stdin.end(input)
  })
}

/** What the user configured, as a path where it is one; null where nothing is. What is set here for safety doesn't count. */
export async function configured(place: Place, name: string): Promise<string | null> {
  const bare = SAFELY.filter((part, index) => part !== '-c' && SAFELY[index - 1] !== '-c')
  try {
    const answer = await askGit(place, ['config', '--type=path', '--get', name], { safely: bare })
    return answer.toString('utf8').replace(/\n$/, '') || null
  } catch (error) {
    // It fails without a word where nothing is configured.
    if (error instanceof NoHistory && error.message === 'git: 1') return null
    throw error
  }
}

/** A folder in which git is run, and the environment for it. */
export interface Place {
  root: string
  variables: Readonly<Record<string, string | undefined>>
}

function settings({ root, variables }: Place) {
  const kept = Object.entries(variables).filter(([name]) => !name.startsWith('GIT_'))
  const env = {
    ...Object.fromEntries(kept),
    LC_ALL: 'C',
    GIT_OPTIONAL_LOCKS: '0',
    GIT_TERMINAL_PROMPT: '0',
    GIT_NO_LAZY_FETCH: '1',
  }
  return { cwd: root, env, maxBuffer: LARGEST_ANSWER, timeout: LONGEST_MS, windowsHide: true }
}

interface GitFault {
  code?: unknown
  stderr?: Buffer
}

function failed({ code, stderr }: GitFault): NoHistory {
  if (code === 'ENOENT') return new NoHistory('git is not installed, or not on the path', 'install git')
  const said = stderr?.toString('utf8').trim().split('\n')[0] ?? ''
  return new NoHistory(`git: ${said || String(code ?? 'it failed')}`, 'look with `git status` in the ledger')
}
