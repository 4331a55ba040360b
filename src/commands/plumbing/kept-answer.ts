import { AskedFiles, askDisk, type Digest, type FileQuestion } from '../../ledger/cache/asked.ts'
import { keptPlaces, placeToTake, readKept, writeKept } from '../../ledger/cache/kept-file.ts'
import type { LedgerFiles } from '../../ledger/read/files.ts'
import { findLedger } from '../../ledger/read/find.ts'
import type { Env } from './env.ts'

/** What a command line was answered. */
export interface Answer {
  status: number
  out: string
  err: string
}

/** What was asked of the world beside the files, and what it said. */
type WorldQuestion =
  | [what: 'ledger', detail: string | null, said: string]
  | [what: 'today', detail: string | null, said: string]
  | [what: 'variable', detail: string, said: string | null]
  | [what: 'columns' | 'outIsTerminal' | 'inIsTerminal' | 'zone', detail: null, said: unknown]

interface Kept {
  world: WorldQuestion[]
  files: FileQuestion[]
  /** Of all that the files said, in order; null where none was asked. */
  hash: string | null
  /** Names of revisions in git, and the commits that they meant; a commit never changes. */
  revisions: Named[]
  answer: Answer
}

type Named = [name: string, commit: string | null]

/** How many answers are kept, of all ledgers together: a new one takes the place of another. */
const PLACES = 1024

/**
 * Answers that earlier runs gave. Beside each stands all that was asked to find it: of the ledger's folders and
 * files, the day, the terminal, the environment. An answer is only given again where the same questions, asked
 * now, are answered the same: then all that it rests on is as it was, and it can be no other.
 */
export class KeptAnswer {
  private readonly world: WorldQuestion[] = []
  private readonly files = new AskedFiles()
  private named: Named[] = []
  private readonly places: readonly string[]
  private readonly head: Buffer
  private out = ''
  private err = ''
  /** Whether the command is one whose answer rests on what is noted here and on nothing else. */
  private isWanted = false

  /**
   * @param cache where answers are kept, and what they depend on beside what is asked.
   */
  constructor(
    { folder, label }: NonNullable<Env['cache']>,
    argv: readonly string[],
    private readonly real: Env,
  ) {
    const key = JSON.stringify([label, real.cwd, LOCALE.map((name) => real.variables[name]), argv])
    this.head = Buffer.from(`${key}\n`)
    this.places = keptPlaces(folder, key, 'answer', PLACES)
  }

  /** The answer of an earlier run, or null where there is none or where anything that it rests on has changed. */
  async find(): Promise<Answer | null> {
    let body: Buffer | null = null
    for (const place of this.places) body ??= readKept(place, this.head)
    if (!body) return null
    const { world, files, hash, revisions, answer } = JSON.parse(body.toString()) as Kept
    if (!world.every((question) => this.ask(question) === question[2])) return null
    if (hash === null) return answer
    const root = world.find(([what]) => what === 'ledger')![2] as string
    const named = revisions.length > 0 ? this.areSame(root, revisions) : true
    const digest = await newHash()
    const isSame = askDisk(root, files, digest) && digest.digest('hex') === hash
    return (await named) && isSame ? answer : null
  }

  /** The world as a command sees it, with every question to it noted, and what is said and answered. */
  noting(): Env {
    const { real } = this
    const note = <T>(what: 'columns' | 'outIsTerminal' | 'inIsTerminal' | 'zone') => ({
      get: () => this.noted([what, null, real[what]]) as T,
    })
    return Object.create(real, {
      out: { value: (text: string, as?: 'data') => this.tell('out', text, as) },
      err: { value: (text: string) => this.tell('err', text) },
      today: {
        value: (zone?: string) => this.noted(['today', zone ?? null, real.today(zone)]),
      },
      columns: note('columns'),
      outIsTerminal: note('outIsTerminal'),
      inIsTerminal: note('inIsTerminal'),
      zone: note('zone'),
      variables: {
        value: new Proxy(real.variables, {
          get: (variables, name) =>
            this.noted(['variable', String(name), variables[String(name)] ?? null]) ?? undefined,
        }),
      },
      kept: { value: this },
    }) as Env
  }

  /** Says that the command rests on nothing but what is noted, so that its answer may be kept. */
  want(): void {
    this.isWanted = true
  }

  /** Says that it rests on more, so that it may not. */
  refuse(): void {
    this.isWanted = false
  }

  /** Notes which ledger was found by the name that was typed, or by none; its files, with questions noted. */
  ledger(named: string | undefined, root: string, files: LedgerFiles): LedgerFiles {
    this.noted(['ledger', named ?? null, root])
    return this.files.noting(files)
  }

  /** Notes which commits the names of revisions meant. */
  revisions(names: readonly string[], found: readonly ({ commit: string } | null)[]): void {
    this.named = names.map((name, index) => [name, found[index]?.commit ?? null])
  }

  /** Keeps the answer, where it is one that may be given again. */
  async keep(status: number): Promise<void> {
    if (!this.isWanted || !this.files.isSound || status > 1) return
    const { questions } = this.files
    let hash: string | null = null
    if (questions.length > 0) {
      const digest = await newHash()
      this.files.hash(digest)
      hash = digest.digest('hex')
    }
    const answer = { status, out: this.out, err: this.err }
    const kept: Kept = { world: this.world, files: questions, hash, revisions: this.named, answer }
    writeKept(placeToTake(this.places, this.head), this.head, JSON.stringify(kept))
  }

  private async areSame(root: string, revisions: readonly Named[]): Promise<boolean> {
    const { inRepository, readRevisions } = await import('../../ledger/git/repository.ts')
    const names = revisions.map(([name]) => name)
    const place = { root, variables: this.real.variables }
    const found = await inRepository(place, (objects) => readRevisions(objects, names)).catch(() => null)
    return found?.every((one, index) => (one?.commit ?? null) === revisions[index]![1]) === true
  }

  private noted(question: WorldQuestion): unknown {
    const [what, detail] = question
    if (!this.world.some(([other, about]) => other === what && about === detail)) this.world.push(question)
    return question[2]
  }

  private tell(where: 'out' | 'err', text: string, as?: 'data'): void {
    this[where] += text
    this.real[where](text, as)
  }

  private ask([what, detail]: WorldQuestion): unknown {
    const { real } = this
    if (what === 'variable') return real.variables[detail] ?? null
    if (what === 'today') return real.today(detail ?? undefined)
    return what === 'ledger' ? ledgerNamed(real.cwd, detail ?? undefined) : real[what]
  }
}

function ledgerNamed(cwd: string, named: string | undefined): string | null {
  try {
    return findLedger(cwd, named)
  } catch {
    return null
  }
}

/** What Node's own words and numbers depend on, though no command asks for it. */
const LOCALE = [
  'LC_ALL',
  'LC_MESSAGES',
  'LC_TIME',
  'LC_NUMERIC',
  'LANG',
  'LANGUAGE',
  'TZ',
  'NODE_OPTIONS',
  'ICU_DATA',
]

/** Node's cryptography is loaded where something is hashed, since that takes a tenth of a short command. */
async function newHash(): Promise<Digest & { digest(as: 'hex'): string }> {
  const { createHash } = await import('node:crypto')
  return createHash('sha256')
}
