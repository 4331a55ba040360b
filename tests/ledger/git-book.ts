import { execFileSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { SITE } from './make.ts'

/** A ledger in a real git repository in a temporary folder. */
export class GitBook {
  readonly top = mkdtempSync(join(tmpdir(), 'rowbook-git-'))
  readonly root: string

  constructor(folder = '') {
    this.root = join(this.top, folder)
    mkdirSync(this.root, { recursive: true })
    this.git('init', '-q', '-b', 'main')
    this.write(SITE)
  }

  git(...args: string[]): string {
    const env = {
      PATH: process.env.PATH ?? '',
      HOME: this.top,
      GIT_AUTHOR_NAME: 'A',
      GIT_AUTHOR_EMAIL: 'a@example.org',
      GIT_COMMITTER_NAME: 'A',
      GIT_COMMITTER_EMAIL: 'a@example.org',
      GIT_AUTHOR_DATE: this.now,
      GIT_COMMITTER_DATE: this.now,
    }
    return execFileSync('git', args, {
      cwd: this.top,
      env,
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'pipe'],
    })
  }

  /** The date of the commits. */
  now = '2026-06-20T12:00:00Z'

  write(files: Readonly<Record<string, string | null>>): this {
    for (const [file, text] of Object.entries(files)) {
      const path = join(this.root, file)
      if (text === null) rmSync(path)
      else {
        mkdirSync(dirname(path), { recursive: true })
        writeFileSync(path, text)
      }
    }
    return this
  }

  commit(message: string, now = this.now): this {
    this.now = now
    this.git('add', '-A')
    this.git('commit', '-q', '--allow-empty', '-m', message)
    return this
  }
}

/** A spray entry for the small invented vineyard. */
export const spray = (date: string, block: string, product = 'sulphur', rate = '3 kg/ha') =>
  `date: ${date}\ntime: 18:00-19:00\nblocks: [${block}]\nsprayer: mounted\nwater: 300 L/ha\nproducts:\n  - { product: ${product}, rate: ${rate}, for: ${product === 'copper' ? 'downy' : 'powdery'} }\nstage: 65\noperator: R.\n`
