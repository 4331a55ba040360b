import { listenToGit, NoHistory, type Place, runGit } from './git-run.ts'
import { LARGEST_FILE } from './read-file.ts'

/** Contents of files by the id of their object; null where one is larger than a ledger's file may be. */
export class Blobs {
  private readonly contents = new Map<string, string | Buffer | null>()

  constructor(private readonly repository: Place) {}

  learn(object: string, text: string): void {
    this.contents.set(object, text)
  }

  async fetchAll(objects: readonly string[]): Promise<void> {
    const lacking = objects.filter((object) => !this.contents.has(object))
    if (lacking.length === 0) return
    const answer = new BlobAnswer(LARGEST_FILE)
    const input = lacking.map((object) => `${object}\n`).join('')
    await listenToGit(this.repository, BATCH, { input, hear: (piece) => answer.hear(piece) })
    if (answer.contents.length < lacking.length) throw lost()
    lacking.forEach((object, index) => {
      this.contents.set(object, answer.contents[index]!)
    })
  }

  get(object: string): string | Buffer | null {
    if (!this.contents.has(object)) this.contents.set(object, this.fetch(object))
    return this.contents.get(object)!
  }

  private fetch(object: string): Buffer | null {
    const size = runGit(this.repository, ['cat-file', '-s', object]).toString('utf8')
    if (Number(size) > LARGEST_FILE) return null
    return runGit(this.repository, ['cat-file', 'blob', object])
  }
}

const BATCH = ['cat-file', '--batch']
const lost = () => new NoHistory('git lacks a file of that revision', 'check the repository with `git fsck`')

/** Takes apart what `git cat-file --batch` says, as it comes; what is too large is let go by. */
class BlobAnswer {
  /** In the order asked; null for what is too large. */
  readonly contents: (Buffer | null)[] = []
  private head = ''
  private pieces: Buffer[] = []
  /** Bytes still to come of the present content and the line end behind it. */
  private left = 0
  private isKept = true

  constructor(private readonly largest: number) {}

  hear(piece: Buffer): void {
    let at = 0
    while (at < piece.length) {
      if (this.left > 0) {
        const taken = piece.subarray(at, at + this.left)
        if (this.isKept) this.pieces.push(taken)
        this.left -= taken.length
        at += taken.length
        if (this.left === 0) this.finish()
      } else {
        const end = piece.indexOf(0x0a, at)
        this.head += piece.toString('latin1', at, end === -1 ? piece.length : end)
        at = end === -1 ? piece.length : end + 1
        if (end !== -1) this.begin()
      }
    }
  }

  private begin(): void {
    const size = /^[0-9a-f]+ blob (\d+)$/.exec(this.head)
    if (!size) throw lost()
    this.head = ''
    this.left = Number(size[1]) + 1
    this.isKept = Number(size[1]) <= this.largest
  }

  private finish(): void {
    const [only] = this.pieces
    const whole = this.pieces.length === 1 ? only! : Buffer.concat(this.pieces)
    this.contents.push(this.isKept ? whole.subarray(0, -1) : null)
    this.pieces = []
  }
}
