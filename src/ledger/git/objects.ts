import { LARGEST_FILE } from '../read/read-file.ts'
import { NoHistory, type Place, type RunningGit, startGit } from './run.ts'

export interface GitObject {
  id: string
  /** `commit`, `tree`, `blob` or `tag`; `missing` or `ambiguous` where there is no one such object. */
  type: string
  /** null where the file is larger than a ledger's may be, and was skipped. */
  content: Buffer | null
}

interface Question {
  left: number
  objects: GitObject[]
  resolve: (objects: GitObject[]) => void
  reject: (fault: unknown) => void
}

/** Reads a repository's objects through one git process, which stays open for further questions until closed. */
export class GitObjects {
  private readonly git: RunningGit
  private readonly questions: Question[] = []
  private fault: unknown = null

  constructor(readonly place: Place) {
    const answer = new Answer((object) => this.take(object))
    this.git = startGit(place, ['cat-file', '--batch'], { onOutput: (piece) => answer.read(piece) })
    this.git.ended.then(
      () => this.fail(brokenOff()),
      (fault) => this.fail(fault),
    )
  }

  /**
   * Asks for objects by their ids or by other names that git knows.
   * @returns in the order asked. @throws NoHistory where git fails or ends before it has answered.
   */
  async ask(names: readonly string[]): Promise<GitObject[]> {
    if (names.length === 0) return []
    if (this.fault !== null) throw this.fault
    return new Promise((resolve, reject) => {
      this.questions.push({ left: names.length, objects: [], resolve, reject })
      this.git.write(names.map((name) => `${name}\n`).join(''))
    })
  }

  /** Asks for files that must be there. @returns their contents by id. @throws NoHistory where one is not. */
  async contentsOf(ids: readonly string[]): Promise<Map<string, Buffer | null>> {
    const objects = await this.ask(ids)
    if (objects.some(({ type }) => type !== 'blob'))
      throw new NoHistory('git lacks a file of that revision', 'check the repository with `git fsck`')
    return new Map(objects.map(({ id, content }) => [id, content]))
  }

  close(): void {
    this.git.stop()
  }

  private take(object: GitObject): void {
    const question = this.questions[0]
    if (!question) throw brokenOff()
    question.objects.push(object)
    question.left -= 1
    if (question.left > 0) return
    this.questions.shift()
    question.resolve(question.objects)
  }

  private fail(fault: unknown): void {
    this.fault = fault
    for (const { reject } of this.questions.splice(0)) reject(fault)
  }
}

const brokenOff = () => new NoHistory('git broke off its answer', 'check the repository with `git fsck`')

/** Parses the output of `git cat-file --batch` as it arrives: a line on each object, its content, a line end. */
class Answer {
  private head = ''
  private object: GitObject | null = null
  private pieces: Buffer[] = []
  /** Bytes still to come of the current object and its line end. */
  private left = 0

  constructor(private readonly take: (object: GitObject) => void) {}

  read(piece: Buffer): void {
    for (let at = 0; at < piece.length; ) {
      if (this.object) {
        const taken = piece.subarray(at, at + this.left)
        if (this.object.content) this.pieces.push(taken)
        this.left -= taken.length
        at += taken.length
        if (this.left === 0) this.finish(this.object)
      } else {
        const end = piece.indexOf(0x0a, at)
        this.head += piece.toString('latin1', at, end === -1 ? piece.length : end)
        at = end === -1 ? piece.length : end + 1
        if (end !== -1) this.begin()
      }
    }
  }

  private begin(): void {
    const [, id, type, size] = /^([0-9a-f]{40,64}) (\w+) (\d+)$/.exec(this.head) ?? []
    const answered = this.head.split(' ').at(-1)!
    this.head = ''
    if (id && type) {
      const isSkipped = type === 'blob' && Number(size) > LARGEST_FILE
      this.object = { id, type, content: isSkipped ? null : Buffer.alloc(0) }
      this.left = Number(size) + 1
    } else this.take({ id: '', type: answered, content: null })
  }

  private finish({ id, type, content }: GitObject): void {
    const whole = Buffer.concat(this.pieces)
    this.object = null
    this.pieces = []
    this.take({ id, type, content: content && whole.subarray(0, -1) })
  }
}
