import { execFileSync, spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'

/** Whether tmux is there to give a program a real terminal. */
export const hasTmux = spawnSync('tmux', ['-V']).status === 0

export const NO_TMUX = 'needs tmux for a real terminal: apt-get install tmux'

const PROGRAM = fileURLToPath(new URL('../../bin/rowbook.js', import.meta.url))

let count = 0

/** A shell in a real terminal of 100 by 60, in which `rowbook` is the built program. */
export class Terminal {
  private readonly server: string

  constructor(cwd: string) {
    count += 1
    this.server = `rowbook-test-${process.pid}-${count}`
    const shell = `env -i PATH='${process.env.PATH}' HOME=/tmp TERM=xterm NO_COLOR=1 PS1='ready> ' bash --norc --noprofile`
    this.tmux('new-session', '-d', '-x', '100', '-y', '60', '-c', cwd, shell)
    this.type(`rowbook() { node '${PROGRAM}' "$@"; }; clear`)
  }

  private tmux(...args: string[]): string {
    return execFileSync('tmux', ['-L', this.server, '-f', '/dev/null', ...args], { encoding: 'utf8' })
  }

  /** Types a line and Enter. */
  type(line: string): void {
    if (line !== '') this.tmux('send-keys', '-l', '--', line)
    this.tmux('send-keys', 'Enter')
  }

  /** Types a text without Enter. */
  write(text: string): void {
    this.tmux('send-keys', '-l', '--', text)
  }

  /** Presses keys by tmux's names: `Enter`, `Space`, `y`, `C-c`. */
  press(...keys: string[]): void {
    for (const key of keys) this.tmux('send-keys', key)
  }

  /** The screen with what has scrolled off; a command that goes on below stands on one line. */
  screen(): string {
    return this.lines().replace(/ \\\n */g, ' ')
  }

  /** The screen with what has scrolled off, line by line. */
  lines(): string {
    return this.tmux('capture-pane', '-p', '-J', '-S', '-500')
  }

  /** Waits until the screen shows a text after its last mark. @throws Error after 20 s, with the screen. */
  async see(text: string | RegExp): Promise<string> {
    for (const until = performance.now() + 20_000; performance.now() < until; ) {
      const screen = this.screen()
      if (typeof text === 'string' ? screen.includes(text) : text.test(screen)) return screen
      await new Promise((resolve) => setTimeout(resolve, 50))
    }
    throw new Error(`the terminal never showed ${text}:\n${this.screen()}`)
  }

  close(): void {
    spawnSync('tmux', ['-L', this.server, 'kill-server'])
  }
}

/** A question that waits for its answer. */
export const asks = (question: string) =>
  new RegExp(`${question.replace(/[?.*+()[\]]/g, '\\$&')}[^>]*\\n> ?\\s*$`)
