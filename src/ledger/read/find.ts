import { lstatSync, realpathSync, statSync } from 'node:fs'
import { dirname, join, resolve } from 'node:path'

/** The ledger can't be opened at all: nothing there, or nothing readable. */
export class NoLedger extends Error {
  constructor(
    message: string,
    readonly help: string,
  ) {
    super(message)
  }
}

/**
 * The folder of the ledger: the one named, or the nearest of `cwd` and its parents with a `vineyard.yaml`.
 * @throws NoLedger where there is none.
 */
export function findLedger(cwd: string, named?: string): string {
  if (named !== undefined) {
    const folder = resolve(cwd, named)
    if (!isFolder(folder)) throw new NoLedger(`there is no folder ${named}`, 'check the path after --ledger')
    if (!hasVineyard(folder)) {
      throw new NoLedger(
        `${named} has no vineyard.yaml, so it is no ledger`,
        `begin one there with \`rowbook start ${named}\``,
      )
    }
    return realpathSync(folder)
  }
  for (let folder = resolve(cwd); ; folder = dirname(folder)) {
    if (hasVineyard(folder)) return realpathSync(folder)
    if (dirname(folder) === folder) break
  }
  throw new NoLedger(
    'no vineyard.yaml here or in any folder above',
    'go into your ledger, name it with --ledger DIR, or begin one with `rowbook start DIR`',
  )
}

function isFolder(path: string): boolean {
  try {
    return statSync(path).isDirectory()
  } catch {
    return false
  }
}

function hasVineyard(folder: string): boolean {
  try {
    lstatSync(join(folder, 'vineyard.yaml'))
    return true
  } catch {
    return false
  }
}
