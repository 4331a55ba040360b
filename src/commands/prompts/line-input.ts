import { createInterface, type Interface } from 'node:readline/promises'
import { Writable } from 'node:stream'
import { tell } from '../plumbing/env.ts'

/** A line as typed; `left` where the user left, with what was on the line by then. */
type Line = { text: string; left?: undefined } | { left: true; text: string }

/** Controls and invisible marks, which could steer a terminal or hide in a file. */
const UNSAFE = /[\0-\x1f\x7f-\x9f\xad\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff]/g
/** The same for what is echoed, without the line ends and cursor movements that readline itself prints. */
const UNSAFE_ECHO = /[\x7f-\x9f\xad\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff]/g

/**
 * Lines typed on a terminal. Where several are pasted at once, each waits for the question that it answers. Ctrl-C and
 * Ctrl-D leave.
 */
export class LineInput {
  private readonly lines: string[] = []
  private readonly reader: Interface
  private waiting: ((line: Line) => void) | null = null
  private hasLeft: string | null = null

  constructor() {
    this.reader = createInterface({
      input: process.stdin,
      output: this.echo(),
      terminal: true,
      historySize: 0,
      tabSize: 1,
    })
    this.reader.on('line', (text) => {
      const waiting = this.waiting
      this.waiting = null
      if (waiting) waiting({ text: cleaned(text) })
      else this.lines.push(cleaned(text))
    })
    this.reader.on('SIGINT', () => this.leave(cleaned(this.reader.line)))
    this.reader.on('close', () => this.leave(''))
  }

  /**
   * The next line, trimmed and without control characters.
   * @param skipBlank skips empty lines that were pasted before the question was asked
   */
  next({ skipBlank = false }: { skipBlank?: boolean } = {}): Promise<Line> {
    for (;;) {
      const text = this.lines.shift()
      if (text === undefined) break
      if (text === '' && skipBlank) continue
      tell(`> ${text}\n`)
      return Promise.resolve({ text })
    }
    if (this.hasLeft !== null) return Promise.resolve({ left: true, text: this.hasLeft })
    return new Promise((resolve) => {
      this.waiting = resolve
      this.reader.setPrompt('> ')
      this.reader.prompt(true)
    })
  }

  close(): void {
    this.reader.close()
  }

  private leave(text: string): void {
    if (this.hasLeft !== null) return
    this.hasLeft = text
    const waiting = this.waiting
    this.waiting = null
    if (!waiting) return
    tell('\n')
    this.reader.close()
    waiting({ left: true, text })
  }

  /** Shows what readline echoes while a question waits. Lines pasted earlier are shown with their question instead. */
  private echo(): Writable {
    const echo = new Writable({
      decodeStrings: false,
      write: (chunk: string | Buffer, _encoding, done) => {
        if (this.waiting) tell(String(chunk).replace(UNSAFE_ECHO, ''))
        done()
      },
    })
    return Object.defineProperty(echo, 'columns', { get: () => process.stderr.columns ?? 80 })
  }
}

const cleaned = (text: string) => text.replace(UNSAFE, ' ').replace(/\s+/g, ' ').trim()
