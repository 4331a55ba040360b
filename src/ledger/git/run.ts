import { execFileSync, spawn } from 'node:child_process'
import { UserError } from '../../records/user-error.ts'

/** The history can't be read: no git, no repository, or no such revision. */
export class NoHistory extends UserError {}

/** Keeps a repository's configuration from running programs, reaching the network or touching files. */
const SAFELY = [
  '--no-pager',
  '--literal-pathspecs',
  '--no-replace-objects',
  '-c', 'core.fsmonitor=false',
  '-c', 'core.hooksPath=/dev/null',
  '-c', 'core.quotePath=false',
  '-c', 'log.showSignature=false',
  '-c', 'protocol.allow=never',
  '-c', 'safe.bareRepository=explicit',
  '-c', 'i18n.logOutputEncoding=UTF-8',
] // biome-ignore format: an option and its value read better on one line

/** A git that is silent for this long hangs: the largest history tried answered in a tenth of it. */
const PATIENCE_MS = 20_000

/**
 * Runs git in the ledger's folder, without a shell and without the environment's own GIT_ variables.
 * @param largest bytes of an answer. @returns null where it is larger.
 * @throws NoHistory where git isn't installed or fails; its message then is git's own.
 */
export function runGit(place: Place, args: readonly string[], largest: number): Buffer | null {
  const how = { maxBuffer: largest, timeout: PATIENCE_MS, killSignal: 'SIGKILL', stdio: 'pipe' } as const
  try {
    return execFileSync('git', [...SAFELY, ...args], { ...settings(place), ...how })
  } catch (error) {
    const fault = error as GitFault
    if (fault.code === 'ENOBUFS') return null
    throw fault.code === 'ETIMEDOUT' ? new GitHangs(PATIENCE_MS) : failed(fault)
  }
}

/** Git gives no answer, and asking again would only wait again. */
export class GitHangs extends NoHistory {
  constructor(milliseconds: number) {
    super(
      `git gave no answer for ${milliseconds / 1000} s; no history was read`,
      'try `git status` in the ledger: a program that git starts, or a network drive, may be waiting',
    )
  }
}

interface How {
  /** How long git may say nothing, in ms. */
  patience?: number
  /** Whether an index that the environment names is the one to read. */
  index?: boolean
  safely?: readonly string[]
}

/** The same, asynchronously, with an answer of any size as text. */
export async function askGit(place: Place, args: readonly string[], how: How = {}): Promise<string> {
  const pieces: Buffer[] = []
  const git = startGit(place, args, { ...how, onOutput: (piece) => pieces.push(piece) })
  git.end()
  await git.ended
  return Buffer.concat(pieces).toString('utf8')
}

/** A running git, which passes on its output piece by piece. */
export interface RunningGit {
  write(text: string): void
  /** Tells it that nothing more will be written. */
  end(): void
  /** Ends it; nothing waits for that. */
  stop(): void
  /** Fulfilled when it ends well, else rejected with NoHistory. */
  ended: Promise<void>
}

export function startGit(
  place: Place,
  args: readonly string[],
  {
    onOutput,
    index,
    safely = SAFELY,
    patience: longest = PATIENCE_MS,
  }: How & { onOutput: (piece: Buffer) => void },
): RunningGit {
  const git = spawn('git', [...safely, ...args], settings(place, index))
  const faults: Buffer[] = []
  const stop = () => {
    clearTimeout(patience)
    // Programs that git started may hold its pipes open; don't wait for them.
    for (const stream of [git.stdin, git.stdout, git.stderr]) stream.destroy()
    git.kill('SIGKILL')
    git.unref()
  }
  let giveUp: (fault: Error) => void
  const patience = setTimeout(() => {
    giveUp(new GitHangs(longest))
    stop()
  }, longest)
  const ended = new Promise<void>((resolve, reject) => {
    giveUp = reject
    git.stdout.on('data', (piece: Buffer) => {
      patience.refresh()
      try {
        onOutput(piece)
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
  })
  // If git ends before it has read everything, its own message says why.
  git.stdin.on('error', () => {})
  return {
    write(text) {
      patience.refresh()
      git.stdin.write(text)
    },
    end: () => git.stdin.end(),
    stop,
    ended,
  }
}

/** A setting of the user's, as a path where it is one; null where unset. Settings made here for safety don't count. */
export async function configured(place: Place, name: string): Promise<string | null> {
  const bare = SAFELY.filter((part, index) => part !== '-c' && SAFELY[index - 1] !== '-c')
  try {
    const answer = await askGit(place, ['config', '--type=path', '--get', name], { safely: bare })
    return answer.replace(/\n$/, '') || null
  } catch (error) {
    // Git fails without a message where nothing is configured.
    if (error instanceof NoHistory && error.message === 'git: 1') return null
    throw error
  }
}

/** A folder in which git is run, and the environment for it. */
export interface Place {
  root: string
  variables: Readonly<Record<string, string | undefined>>
}

function settings({ root, variables }: Place, index = false) {
  const kept = Object.entries(variables).filter(
    ([name]) => !name.startsWith('GIT_') || (index && name === 'GIT_INDEX_FILE'),
  )
  const env = {
    ...Object.fromEntries(kept),
    LC_ALL: 'C',
    GIT_OPTIONAL_LOCKS: '0',
    GIT_TERMINAL_PROMPT: '0',
    GIT_NO_LAZY_FETCH: '1',
    // An older git, which ignores the line before, could still fetch: no protocol has this name. It overrides the
    // repository's setting.
    GIT_ALLOW_PROTOCOL: 'none',
  }
  return { cwd: root, env, windowsHide: true }
}

interface GitFault {
  code?: unknown
  stderr?: Buffer
}

function failed({ code, stderr }: GitFault): NoHistory {
  if (code === 'ENOENT') return new NoHistory('git is not installed, or not on the path', 'install git')
  const [message] = (stderr?.toString('utf8') ?? '').trim().split('\n')
  return new NoHistory(
    `git: ${message || String(code ?? 'it failed')}`,
    'look with `git status` in the ledger',
  )
}
